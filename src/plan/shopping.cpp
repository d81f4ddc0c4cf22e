// What to buy: the sums of one food over all bags and bottles.
#include "plan/shopping.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::plan {

namespace {

void add(std::vector<ShoppingItem>& all, const std::string& food, double amount, const std::string& unit) {
    const auto same = std::find_if(all.begin(), all.end(), [&](const ShoppingItem& item) {
        return item.food == food && item.unit == unit;
    });
    if (same == all.end())
        all.push_back({food, amount, unit, ""});
    else
        same->amount += amount;
}

std::string name_of(const std::string& id, const Pantry& pantry) {
    const Food* food = pantry.find(id);
    return food ? food->name : id;
}

/// As the lines for mixing call it.
std::string label_of(const std::string& id, const Pantry& pantry) {
    const Food* food = pantry.find(id);
    return food ? food->label : id;
}

} // namespace

std::vector<ShoppingItem> shopping(const Plan& plan, const Pantry& pantry) {
    constexpr const char* grams = "g";
    std::vector<ShoppingItem> all;
    for (const CarryItem& item : plan.carry)
        if (!item.food.empty())
            add(all, item.food, item.amount, item.unit);
    for (const Mix& mix : plan.mix)
        for (const MixItem& part : mix.add)
            add(all, part.food, part.grams, grams);
    for (ShoppingItem& item : all) {
        const double shown = std::round(10 * item.amount) / 10;
        item.text = item.unit == grams ? fmt::format("{:g} g {}, to mix", shown, label_of(item.food, pantry))
                                       : fmt::format("{:g} x {}", shown, name_of(item.food, pantry));
    }
    return all;
}

} // namespace tuck::plan
