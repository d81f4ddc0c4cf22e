#include "schedule/judge.hpp"

#include "base/conditions.hpp"
#include "schedule/judge_days.hpp"
#include "schedule/judge_rules.hpp"

#include <array>

namespace tuck::schedule {

using namespace judging;

namespace {

struct JudgedRule {
    const char* name;
    void (*look)(const Judged&, Findings&);
};

/// Every rule with its name: a new one is a row here and a function beside its kin.
constexpr std::array rules{
    // Hours, on each day.
    JudgedRule{"carb_hour", carb_hour},
    JudgedRule{"carb_two_hours", carb_two_hours},
    JudgedRule{"glucose_hour", glucose_hour},
    JudgedRule{"fructose_hour", fructose_hour},
    JudgedRule{"fluid_hour", fluid_hour},
    JudgedRule{"fluid_most", fluid_most},
    JudgedRule{"caffeine_hour", caffeine_hour},
    JudgedRule{"caffeine_day", caffeine_day},
    JudgedRule{"fluid_sweat", fluid_sweat},
    JudgedRule{"gel_water", judging::gel_water},
    // Legs and the day.
    JudgedRule{"fluid_leg", fluid_leg},
    JudgedRule{"fluid_day", fluid_day},
    JudgedRule{"carb_leg", carb_leg},
    // Moments.
    JudgedRule{"inside_leg", inside_leg},
    JudgedRule{"mount", mount},
    JudgedRule{"dismount", dismount},
    JudgedRule{"busy", busy},
    JudgedRule{"solids_early", solids_early},
    JudgedRule{"solids_late", solids_late},
    JudgedRule{"solids_short_bike", solids_short_bike},
    JudgedRule{"solids_run", solids_run},
    JudgedRule{"cold_hands", cold_hands},
    JudgedRule{"before_finish", before_finish},
    JudgedRule{"hands", hands},
    JudgedRule{"apart", apart},
    // What one feed holds.
    JudgedRule{"known_food", known_food},
    JudgedRule{"one_item", one_item},
    JudgedRule{"swallows", swallows},
    JudgedRule{"whole_units", whole_units},
    JudgedRule{"fits", fits_leg},
    JudgedRule{"allergen", allergen},
    JudgedRule{"avoided", avoided},
    JudgedRule{"caffeine_barred", caffeine_barred},
    JudgedRule{"gel_and_strong_drink", gel_and_strong_drink},
    JudgedRule{"nutrition", nutrition},
    // Supplies.
    JudgedRule{"belt", belt},
    JudgedRule{"pockets", pockets},
    JudgedRule{"bottles", bottles},
    JudgedRule{"flask", flask},
    JudgedRule{"handed", handed},
    JudgedRule{"station", station},
    JudgedRule{"carried", carried},
    JudgedRule{"recipe", recipe},
};

} // namespace

namespace {

/// What harms, and not merely fits badly (practice): an allergen, caffeine over its caps, more drink than the
/// body can lose, more carbohydrate than any gut was shown to take (Viribay 2020: 120 g/h).
bool harms(const Breach& breach) {
    constexpr double most_carb_g_per_h = 120;
    for (const char* rule : {"allergen", "caffeine_hour", "caffeine_day", "caffeine_barred", "fluid_most"})
        if (breach.rule == rule)
            return true;
    return breach.rule == "carb_hour" && breach.value > most_carb_g_per_h;
}

} // namespace

std::vector<Breach> judge(const Case& asked) {
    const Judged judged{asked,
                        {day_of(asked, Which::p50), day_of(asked, Which::p90), day_of(asked, Which::p10)}};
    std::vector<Breach> out;
    for (const auto& rule : rules) {
        Findings findings{rule.name, out};
        rule.look(judged, findings);
    }
    for (auto& breach : out)
        breach.danger = harms(breach);
    return out;
}

std::vector<std::string> judged_rules() {
    std::vector<std::string> out;
    for (const auto& rule : rules)
        out.emplace_back(rule.name);
    return out;
}

} // namespace tuck::schedule
