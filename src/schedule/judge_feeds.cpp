// Rules for what one feed holds, and for whom.
#include "schedule/judge_rules.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::schedule::judging {

namespace {

constexpr double most_swallows = figure("feed.most_swallows"), most_cups = figure("feed.most_cups");
// A bottle's grams are rounded for the scales, to 5 g at most; what a swallow brings follows them.
constexpr double weighed_to_g = 5;

template <typename Wrong>
void each_bite(const Judged& judged, Findings& findings, const char* text, const Wrong& wrong) {
    for (const auto& sitting : judged.likely().sittings)
        for (const auto& bite : sitting.bites)
            if (wrong(sitting, bite))
                findings.add(sitting, 0, 0, "",
                             fmt::format("{} at {}: {}", bite.food ? bite.food->name : bite.item.food,
                                         moment_text(sitting), text));
}

bool listed(const std::vector<std::string>& words, const Food& food) {
    return std::any_of(words.begin(), words.end(),
                       [&food](const std::string& word) { return word == food.id || word == food.group; });
}

bool harmful(const Athlete& athlete, const Food& food) {
    return std::any_of(food.allergens.begin(), food.allergens.end(), [&athlete](const std::string& allergen) {
        return (athlete.health.coeliac && allergen == "gluten") ||
               std::find(athlete.allergy.begin(), athlete.allergy.end(), allergen) != athlete.allergy.end();
    });
}

bool jelly(const Food& food) {
    return food.form == Form::gel || food.form == Form::chew;
}

/// What the items of a feed bring by the pantry and the bottles' recipes, and how far grams on a scale may be
/// off.
struct Content {
    double value = 0, off = grain;
};

template <class Amount>
Content per_ml_of(const Case& asked, const FeedItem& item, const Food& food, Amount Food::*what) {
    const auto& mixes = asked.schedule.mix;
    const auto mix =
        std::find_if(mixes.begin(), mixes.end(), [&item](const Mix& m) { return m.bottle == item.from; });
    Content out;
    if (mix == mixes.end()) { // handed out, or plain water
        const double ml = food.serving_ml.value_or(food.makes_ml.value_or(0));
        out.value = ml > 0 ? (food.*what).count() / ml : 0;
        return out;
    }
    double water = 0; // tap water's own salt counts only where nothing is mixed in
    for (const auto& part : mix->add)
        if (const Food* powder = asked.pantry.find(part.food)) {
            out.value += powder->*what / powder->serving_g * part.grams / mix->volume_ml;
            out.off += powder->*what / powder->serving_g * weighed_to_g / 2 / mix->volume_ml;
        }
    const Food* tap = asked.pantry.find("water_tap");
    if (tap && tap->serving_ml)
        water = tap->*what / *tap->serving_ml;
    (mix->add.empty() ? out.value : out.off) += water;
    return out;
}

template <class Amount>
void check_content(const Judged& judged, Findings& findings, const PlanFeed& feed, Amount Food::*what,
                   Amount told, const char* name) {
    Content sum;
    for (const auto& item : feed.items) {
        const Food* food = judged.asked.pantry.find(item.food);
        if (!food)
            continue;
        if (!is_drink(item)) {
            sum.value += item.amount * food->*what;
            continue;
        }
        const auto content = per_ml_of(judged.asked, item, *food, what);
        const double ml = item.amount * sip_ml(judged.asked, item);
        sum.value += content.value * ml;
        sum.off += content.off * ml;
    }
    if (std::abs(sum.value - told) > sum.off)
        findings.add(feed.leg_index, told, sum.value, "",
                     fmt::format("{:.1f} {} after {:.0f} s of the {}; the foods bring {:.1f}", told, name,
                                 feed.at_s, to_string(feed.leg), sum.value));
}

} // namespace

void known_food(const Judged& judged, Findings& findings) {
    each_bite(judged, findings, "is not in the pantry",
              [](const Sitting&, const Bite& bite) { return !bite.food; });
}

void one_item(const Judged& judged, Findings& findings) {
    for (const auto& sitting : judged.likely().sittings) {
        const auto eaten = std::count_if(sitting.bites.begin(), sitting.bites.end(),
                                         [](const Bite& bite) { return !bite.drink; });
        if (eaten > 1)
            findings.add(sitting, static_cast<double>(eaten), 1, "",
                         fmt::format("{} things to eat at {}; one can be held", eaten, moment_text(sitting)));
    }
}

void swallows(const Judged& judged, Findings& findings) {
    for (const auto& sitting : judged.likely().sittings) {
        double sips = 0, cups = 0;
        for (const auto& bite : sitting.bites)
            (bite.item.unit == "cup" ? cups : sips) += bite.drink ? bite.item.amount : 0;
        if (sips > most_swallows || cups > most_cups || (sips > 0 && cups > 0))
            findings.add(sitting, sips + cups, cups > 0 ? most_cups : most_swallows, "",
                         fmt::format("{:g} swallows and {:g} cups at {}; at most {:g} swallows or {:g} cups",
                                     sips, cups, moment_text(sitting), most_swallows, most_cups));
    }
}

void whole_units(const Judged& judged, Findings& findings) {
    each_bite(judged, findings, "is no whole number of parts", [](const Sitting&, const Bite& bite) {
        const double parts = bite.item.amount / (bite.drink || !bite.food ? 1 : bite.food->smallest);
        return bite.item.amount <= 0 || std::abs(parts - std::round(parts)) > 1e-6;
    });
}

void fits_leg(const Judged& judged, Findings& findings) {
    each_bite(judged, findings, "is not for this leg", [](const Sitting& sitting, const Bite& bite) {
        if (!bite.food || bite.drink || is_transition(sitting.leg))
            return false;
        const auto& fits = bite.food->fits;
        return std::find(fits.begin(), fits.end(), to_string(sitting.leg)) == fits.end();
    });
}

void allergen(const Judged& judged, Findings& findings) {
    each_bite(judged, findings, "an allergen", [&](const Sitting&, const Bite& bite) {
        return bite.food && harmful(judged.asked.athlete, *bite.food);
    });
    const auto packed = [&](const std::string& id, const std::string& where) {
        if (const Food* food = judged.asked.pantry.find(id); food && harmful(judged.asked.athlete, *food))
            findings.add(-1, 0, 0, "", fmt::format("{} in {}: an allergen", food->name, where));
    };
    for (const auto& row : judged.asked.schedule.carry)
        packed(row.food, "the bags");
    for (const auto& mix : judged.asked.schedule.mix)
        for (const auto& part : mix.add)
            packed(part.food, mix.bottle);
}

void avoided(const Judged& judged, Findings& findings) {
    const auto& athlete = judged.asked.athlete;
    each_bite(judged, findings, "was to be left out", [&](const Sitting&, const Bite& bite) {
        return bite.food && bite.food->id != "water_tap" &&
               (listed(athlete.avoid, *bite.food) ||
                (!athlete.only.empty() && !listed(athlete.only, *bite.food)));
    });
}

void caffeine_barred(const Judged& judged, Findings& findings) {
    each_bite(judged, findings, "caffeine, which this athlete must not or would not have",
              [&](const Sitting&, const Bite& bite) {
                  return judged.asked.need.limits.caffeine_dose_mg <= 0 && bite.food &&
                         bite.food->caffeine_mg > 0;
              });
}

void gel_and_strong_drink(const Judged& judged, Findings& findings) {
    for (const auto& sitting : judged.likely().sittings) {
        bool gel = false, strong = false;
        for (const auto& bite : sitting.bites) {
            gel = gel || (!bite.drink && bite.food && jelly(*bite.food));
            strong = strong || is_strong(judged.asked, bite);
        }
        if (gel && strong)
            findings.add(
                sitting, 0, 0, "",
                fmt::format("a gel with a concentrated drink at {}: far stronger than a stomach empties",
                            moment_text(sitting)));
    }
}

void nutrition(const Judged& judged, Findings& findings) {
    for (const auto& feed : judged.asked.schedule.feeds) {
        check_content(judged, findings, feed, &Food::carb_g, feed.carb_g, "g of carbohydrate");
        check_content(judged, findings, feed, &Food::glucose_g, feed.glucose_g, "g of glucose");
        check_content(judged, findings, feed, &Food::fructose_g, feed.fructose_g, "g of fructose");
        check_content(judged, findings, feed, &Food::caffeine_mg, feed.caffeine_mg, "mg of caffeine");
        double ml = 0;
        for (const auto& item : feed.items)
            if (is_drink(item))
                ml += item.amount * sip_ml(judged.asked, item);
            else if (const Food* food = judged.asked.pantry.find(item.food))
                ml += item.amount * food->water_g;
        if (std::abs(ml - feed.fluid_ml) > 1)
            findings.add(feed.leg_index, feed.fluid_ml, ml, "ml",
                         fmt::format("{:.0f} ml after {:.0f} s of the {}; the items hold {:.0f}",
                                     feed.fluid_ml, feed.at_s, to_string(feed.leg), ml));
    }
}

} // namespace tuck::schedule::judging
