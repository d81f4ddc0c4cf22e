#include "say/in_short.hpp"

#include "say/line_words.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <map>

namespace tuck::say {

namespace {

/// "a, b and c"
std::string listed(const std::vector<std::string>& parts) {
    std::string out;
    for (std::size_t i = 0; i < parts.size(); ++i)
        out += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
    return out;
}

/// The short name that feeds give a food.
std::string label_of(const Plan& plan, const std::string& food, const std::string& otherwise) {
    for (const PlanFeed& feed : plan.feeds)
        for (const FeedItem& item : feed.items)
            if (item.food == food)
                return item.label;
    return otherwise;
}

/// "a gel", "an iso gel"
std::string one(const std::string& label) {
    return (std::string("aeiou").find(label.empty() ? 'x' : label[0]) == std::string::npos ? "a " : "an ") +
           label;
}

/// What a bottle holds, as feeds call it.
std::string content_of(const Plan& plan, const std::string& bottle) {
    for (const PlanFeed& feed : plan.feeds)
        for (const FeedItem& item : feed.items)
            if (item.from == bottle)
                return item.label;
    return "";
}

std::string carry_sentence(const Plan& plan) {
    std::vector<std::string> parts;
    std::map<std::string, int> bottles; // by content
    std::string content;
    for (const Mix& mix : plan.mix) {
        const std::string named = content_of(plan, mix.bottle);
        content = named.empty() ? content : named; // a full spare holds what the others hold
        ++bottles[content];
    }
    for (const auto& [what, number] : bottles)
        parts.push_back(number == 1 ? fmt::format("a bottle of {}", what)
                                    : fmt::format("{} bottles of {}", number, what));
    std::vector<std::pair<std::string, double>> foods;
    for (const CarryItem& item : plan.carry) {
        if (item.food.empty() || item.unit == "bottle" || item.unit == "flask")
            continue;
        const auto known =
            std::find_if(foods.begin(), foods.end(), [&](const auto& f) { return f.first == item.food; });
        if (known == foods.end())
            foods.emplace_back(item.food, item.amount);
        else
            known->second += item.amount;
    }
    for (const auto& [food, amount] : foods) {
        const std::string label = label_of(plan, food, food);
        parts.push_back(amount == 1 ? "1 " + label : say::amount(amount, label));
    }
    return parts.empty() ? "Nothing to carry." : "Carry " + listed(parts) + ".";
}

std::string plain_when(const Line& line) {
    const std::string from_to = window(line).empty() ? "" : " " + window(line);
    if (line.rhythm.kind == Rhythm::Kind::every)
        return fmt::format(" every {:.0f} min{}", line.rhythm.every_s / 60, from_to);
    if (line.rhythm.kind == Rhythm::Kind::stations)
        return " at " + rhythm(line) + from_to;
    if (is_transition(line.leg))
        return "";
    std::vector<std::string> at;
    for (const LegMoment& each : line.at)
        at.push_back(line.by_km ? km(each.km) : clock(each.at_s));
    return (line.by_km ? " at km " : " at ") + listed(at);
}

std::string plain_what(const Line& line) {
    std::vector<std::string> parts;
    for (const LineItem& each : line.items)
        parts.push_back(by_bottle(line, each) ? amount(each.amount, each.unit)
                        : each.drink()        ? amount(each.amount, each.unit) + " of " + each.label
                        : each.amount == 0.5  ? "half " + one(each.label)
                        : each.amount == 1    ? one(each.label)
                                              : amount(each.amount, each.label));
    return listed(parts);
}

std::string legs_sentence(const Plan& plan) {
    std::vector<std::string> legs;
    for (const PlanDuration& leg : plan.durations) {
        std::vector<std::string> lines;
        for (const Line& line : plan.lines)
            if (line.leg_index == leg.leg_index)
                lines.push_back(plain_what(line) + plain_when(line));
        if (!lines.empty())
            legs.push_back(fmt::format("{} {}: {}", is_transition(leg.leg) ? "in" : "on the",
                                       is_transition(leg.leg) ? (leg.leg == LegKind::t1 ? "T1" : "T2")
                                                              : to_string(leg.leg),
                                       fmt::format("{}", fmt::join(lines, ", "))));
    }
    std::string out = fmt::format("{}", fmt::join(legs, "; "));
    if (!silent_run(plan).empty())
        out += (out.empty() ? "" : "; ") + std::string("on the run: water if you are thirsty");
    if (!out.empty())
        out[0] = static_cast<char>(out[0] - 'a' + 'A');
    return out + ".";
}

} // namespace

std::string silent_run(const Plan& plan) {
    for (const PlanDuration& leg : plan.durations) {
        const bool said = std::any_of(plan.lines.begin(), plan.lines.end(),
                                      [&leg](const Line& line) { return line.leg_index == leg.leg_index; });
        if (leg.leg != LegKind::run || said || plan.lines.empty())
            continue;
        const auto need = std::find_if(plan.needs.begin(), plan.needs.end(),
                                       [&leg](const PlanNeed& n) { return n.leg_index == leg.leg_index; });
        return need == plan.needs.end() || need->carb_g_per_h <= 0
                   ? "Nothing needed. A cup of water if you are thirsty."
                   : "Nothing is carried here, and no station is known.";
    }
    return "";
}

std::string what_iso_is(const Plan& plan) {
    for (const Mix& mix : plan.mix)
        for (const MixItem& item : mix.add)
            if (item.food == "isotonic_powder")
                return "Iso drink: any sports drink powder that you know, about 6 g of carbohydrate in 100 "
                       "ml, with "
                       "salt. A ready sports drink does as well.";
    return "";
}

std::vector<std::string> in_short(const Plan& plan) {
    if (plan.refused)
        return {};
    const std::string ill = "If you feel ill: stop, and find a marshal or medic.";
    if (!plan.fuelling_needed) {
        const bool bottle = !plan.carry.empty();
        return {"You need no food on the way.",
                bottle ? "Carry a bottle of water; drink when you are thirsty, and no more."
                       : "Drink when you are thirsty, before and after.",
                ill};
    }
    if (plan.feeds.empty())
        return {"This plan gives no amounts: ask your doctor or clinic what to eat and drink.",
                "Drink when you are thirsty.", ill};
    return {carry_sentence(plan), legs_sentence(plan),
            "Missed one: skip it, never double; bad stomach: ease off, small sips; drink to thirst, never "
            "more than this."};
}

} // namespace tuck::say
