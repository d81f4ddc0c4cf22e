#include "sheet/squad_kitchen.hpp"

#include "plan/shopping.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <limits>

namespace tuck::faces {

namespace {

SheetSection shopping_section(const std::vector<KitchenShare>& shares) {
    std::vector<ShoppingItem> all;
    for (const auto& share : shares)
        plan::add_shopping(share.shopping, all);
    SheetList list;
    list.boxes = true;
    for (const auto& item : all)
        list.items.push_back(item.text);
    if (list.items.empty())
        return {"To buy, for all", {SheetParagraph{"", "Nothing."}}};
    return {"To buy, for all", {list}};
}

/// "3 x water to the top (750 ml): 12 Ada Birch B1, B2; 14 Bo Cedar B1".
SheetSection mixing_section(const std::vector<KitchenShare>& shares) {
    struct Alike {
        std::string text, whose, last;
        int bottles = 0;
    };
    constexpr int most_in_a_line = 24; // a line is never parted by the end of a page
    std::vector<Alike> all;
    for (const auto& share : shares)
        for (const auto& mix : share.mix) {
            auto alike = std::find_if(all.begin(), all.end(), [&](const Alike& one) {
                return one.text == mix.text && one.bottles < most_in_a_line;
            });
            if (alike == all.end())
                alike = all.insert(all.end(), {mix.text, "", "", 0});
            ++alike->bottles;
            if (alike->last == share.who)
                alike->whose += ", " + mix.bottle;
            else
                alike->whose += (alike->whose.empty() ? "" : "; ") + share.who + " " + mix.bottle;
            alike->last = share.who;
        }
    SheetList list;
    list.boxes = true;
    for (const auto& one : all)
        list.items.push_back(fmt::format("{} x {}: {}", one.bottles, one.text, one.whose));
    if (list.items.empty())
        return {"To mix", {SheetParagraph{"", "Nothing."}}};
    return {"To mix", {list}};
}

SheetSection label_section(const std::vector<KitchenShare>& shares) {
    SheetLabels labels;
    for (const auto& share : shares)
        labels.labels.insert(labels.labels.end(), share.labels.begin(), share.labels.end());
    SheetSection section{"Labels to cut out, in the order of the roster", {}};
    section.new_page = true;
    if (labels.labels.empty())
        section.items.emplace_back(SheetParagraph{"", "Nobody carries a bottle or a bag."});
    else
        section.items.emplace_back(labels);
    return section;
}

} // namespace

KitchenShare kitchen_share(const Plan& plan) {
    const auto who =
        plan.bib + (plan.bib.empty() || plan.athlete_name.empty() ? "" : " ") + plan.athlete_name;
    return {plan.event_name, who.empty() ? "no name" : who, plan.shopping, plan.mix, labels_of(plan)};
}

SheetContent squad_kitchen(const std::string& event, const std::vector<KitchenShare>& shares) {
    SheetContent content;
    content.title = event.empty() ? "The squad's kitchen" : event;
    content.subtitle = fmt::format("{} athlete{}: what to buy, to mix and to stick on", shares.size(),
                                   shares.size() == 1 ? "" : "s");
    content.foot = "Every athlete's card and their packet's label come first. Not medical advice.";
    content.most_pages = std::numeric_limits<std::size_t>::max();
    content.sections = {shopping_section(shares), mixing_section(shares), label_section(shares)};
    return content;
}

} // namespace tuck::faces
