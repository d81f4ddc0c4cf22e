// Two breakfasts of the pantry's foods, for who asks what "100 g of carbohydrate" looks like.
#include "plan/stages.hpp"
#include "schedule/menu.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::plan {

namespace {

/// So much of a food as one puts on a plate, and how that is said (common practice, no source).
struct Helping {
    const char *food, *one, *many; // many: "{} bowls of porridge"
    int each;                      // in one serving: two slices of bread
};

/// The first part is repeated until the plate is full.
const std::vector<std::vector<Helping>>& plates() {
    static const std::vector<std::vector<Helping>> all{
        {{"bread_honey", "2 slices of bread with honey", "{} slices of bread with honey", 2},
         {"banana_ripe", "a banana", "", 1}},
        {{"oat_porridge", "a bowl of porridge", "{} bowls of porridge", 1},
         {"honey", "a spoon of honey", "", 1},
         {"apple_juice", "a glass of juice", "", 1}},
        {{"rice_white", "a cup of cooked rice", "{} cups of cooked rice", 1},
         {"banana_ripe", "a banana", "", 1}},
    };
    return all;
}

std::optional<std::string> plate_text(const Stages& s, const std::vector<Helping>& plate, double wanted_g) {
    double grams = 0, first_g = 0;
    std::vector<std::string> parts;
    for (const auto& helping : plate) {
        const Food* food = s.pantry->find(helping.food);
        if (!food || !schedule::allowed(s.athlete, *food, s.need.limits))
            return std::nullopt;
        grams += food->carb_g;
        first_g = parts.empty() ? food->carb_g.count() : first_g;
        parts.emplace_back(helping.one);
    }
    const int more = std::max(0, static_cast<int>(std::lround((wanted_g - grams) / first_g)));
    if (more > 0)
        parts.front() = fmt::format(fmt::runtime(plate.front().many), (1 + more) * plate.front().each);
    return fmt::format("{} ({:.0f} g)", fmt::join(parts, ", "), 5 * std::round((grams + more * first_g) / 5));
}

} // namespace

std::string breakfast_examples(const Stages& s, double wanted_g) {
    std::vector<std::string> out;
    for (const auto& plate : plates())
        if (const auto text = s.pantry && out.size() < 2 ? plate_text(s, plate, wanted_g) : std::nullopt)
            out.push_back(*text);
    return out.empty() ? "" : fmt::format(" For instance {}.", fmt::join(out, "; or "));
}

} // namespace tuck::plan
