// What to buy: the sums of one food over all bags and bottles.
#include "plan/shopping.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::plan {

namespace {

constexpr const char* grams = "g";

std::string words_of(const ShoppingItem& item, double amount) {
    return item.unit == grams ? fmt::format("{:.6g} g {}, to mix", amount, item.name)
                              : fmt::format("{:.6g} x {}", amount, item.name);
}

void add(std::vector<ShoppingItem>& all, const std::string& food, double amount, const std::string& unit) {
    const auto same = std::find_if(all.begin(), all.end(), [&](const ShoppingItem& item) {
        return item.food == food && item.unit == unit;
    });
    if (same == all.end())
        all.push_back({food, amount, unit, "", ""});
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
    std::vector<ShoppingItem> all;
    for (const CarryItem& item : plan.carry)
        if (!item.food.empty())
            add(all, item.food, item.amount, item.unit);
    for (const Mix& mix : plan.mix)
        for (const MixItem& part : mix.add)
            add(all, part.food, part.grams, grams);
    for (ShoppingItem& item : all) {
        item.name = item.unit == grams ? label_of(item.food, pantry) : name_of(item.food, pantry);
        item.text = words_of(item, std::round(10 * item.amount) / 10);
    }
    return all;
}

void add_shopping(const std::vector<ShoppingItem>& more, std::vector<ShoppingItem>& all) {
    for (const ShoppingItem& item : more) {
        add(all, item.food, item.amount, item.unit);
        for (ShoppingItem& sum : all)
            if (sum.food == item.food && sum.unit == item.unit) {
                sum.name = item.name;
                sum.text = words_of(sum, std::ceil(sum.amount - 1e-6)); // nobody sells half a bar
            }
    }
}

} // namespace tuck::plan
