#include "diary/learning.hpp"
#include "diary/weighing.hpp"

#include "effort/levels.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

using namespace diary;

constexpr double open_water_factor = figure("pace.open_water");
constexpr double flat_m_per_km = 5; // a hillier ride says little about the next one, our choice
constexpr double hot_c = 25;        // the heat slowed the day, and a plan would slow it once more, our choice
constexpr double narrowing_worth_a_test = 0.03; // of a log SD, our choice

/// Weather and sport that the tests themselves speak of.
void settle_conditions(const std::vector<DiaryEntry>& entries, const LearnFor& wanted, Learned& learned) {
    double sum = 0;
    int tests = 0, runs = 0;
    for (const auto& entry : entries)
        if (const auto* test = std::get_if<SweatTest>(&entry.what)) {
            sum += test->temperature_c;
            runs += test->sport == Sport::run;
            ++tests;
        }
    learned.temperature_c = wanted.temperature_c.value_or(tests > 0 ? sum / tests : 20.0);
    learned.sport = wanted.sport.value_or(2 * runs > tests ? Sport::run : Sport::bike);
}

std::string percent_range(const Known& known) {
    return fmt::format("{:.0f} to {:.0f} %", 100 * known.low, 100 * known.high);
}

std::string count_of(int n, const char* what) {
    return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

void say_what_is_known(Learned& learned) {
    const auto& sweat = learned.sweat_factor;
    learned.sentences.push_back(
        sweat.tests == 0
            ? std::string("Sweat: no test yet; athletes differ by 45 %.")
            : fmt::format("Sweat: {:.0f} % of the model's mean at {:.0f} C (90 % sure: {}), from {}.",
                          100 * sweat.median, learned.temperature_c, percent_range(sweat),
                          count_of(sweat.tests, "test")));
    if (sweat.tests > 0 && learned.sport != Sport::run)
        learned.sentences.push_back(fmt::format("On the run: {:.0f} % of the model's mean (90 % sure: {}).",
                                                100 * learned.sweat_factor_on_run.median,
                                                percent_range(learned.sweat_factor_on_run)));
    const auto& sodium = learned.sodium_mmol_per_l;
    learned.sentences.push_back(
        sodium.tests == 0
            ? std::string("Sweat sodium: no test yet; 40 mmol/L is assumed, 18 to 71 is seen.")
            : fmt::format("Sweat sodium: {:.0f} mmol/L (90 % sure: {:.0f} to {:.0f}), from {}.",
                          sodium.median, sodium.low, sodium.high, count_of(sodium.tests, "test")));
    const auto gut = [&](const char* name, const GutTolerance& shown) {
        learned.sentences.push_back(
            shown.carb_g_per_h > 0
                ? fmt::format("{}: {:.0f} g/h and {:.0f} ml/h went well at race effort. {}", name,
                              shown.carb_g_per_h, shown.fluid_ml_per_h, shown.why)
                : fmt::format("{}: no rate has gone well at race effort yet. {}", name, shown.why));
    };
    gut("Gut on the bike", learned.bike);
    gut("Gut on the run", learned.run);
    learned.sentences.insert(learned.sentences.end(), learned.signs.begin(), learned.signs.end());
    for (const auto& pace : learned.paces)
        learned.sentences.push_back(fmt::format("Pace: {} {:.1f} km in {:.0f} min, from a race.",
                                                to_string(pace.sport), pace.distance_m / 1000,
                                                pace.time_s / 60));
}

} // namespace

namespace diary {

void learn_paces(const std::vector<DiaryEntry>& entries, const Athlete& athlete, Learned& learned) {
    for (const auto& entry : entries) {
        const auto* race = std::get_if<RaceRecord>(&entry.what);
        if (!race || race->temperature_c >= hot_c)
            continue;
        double bike_before_m = 0;
        for (const auto& leg : race->legs) {
            const bool hilly = leg.ascent_m > flat_m_per_km * leg.distance_m / 1000;
            double alone_s = leg.time_s;
            if (leg.sport == Sport::swim)
                alone_s /= open_water_factor;
            if (leg.sport == Sport::run && bike_before_m > 0)
                alone_s /= effort::run_off_bike_factor(athlete.level, bike_before_m);
            if (leg.sport == Sport::bike)
                bike_before_m += leg.distance_m;
            if (leg.distance_m > 0 && leg.time_s > 0 && !(hilly && leg.sport != Sport::swim))
                learned.paces.push_back({leg.sport, leg.distance_m, alone_s});
        }
    }
}

void choose_next(const std::vector<DiaryEntry>& entries, const Athlete& athlete, Learned& learned) {
    auto& next = learned.next;
    if (athlete.health.past_eating_disorder) {
        next.clear(); // no prompt for a scale; a patch alone says little without a rate
        next.push_back({"A bottle log by thirst on a long session in race weather.", 0, 0});
    }
    std::erase_if(next, [](const NextTest& test) {
        return test.log_sd_now > 0 && test.log_sd_now - test.log_sd_then < narrowing_worth_a_test;
    });
    const auto ceiling = [](const NextTest& test) {
        return test.more_bike_ml_per_h + test.more_run_ml_per_h;
    };
    std::stable_sort(next.begin(), next.end(), [&](const NextTest& a, const NextTest& b) {
        return std::pair(ceiling(a), a.log_sd_now - a.log_sd_then) >
               std::pair(ceiling(b), b.log_sd_now - b.log_sd_then);
    });
    const bool rehearsed = std::any_of(entries.begin(), entries.end(), [](const DiaryEntry& entry) {
        return entry.kind() == EntryKind::rehearsal;
    });
    if (!learned.bike.stop && !learned.run.stop) {
        const NextTest rehearsal{
            learned.bike.next_carb_g_per_h > 0
                ? fmt::format("A rehearsal at {:.0f} g/h with a run off the bike.",
                              learned.bike.next_carb_g_per_h)
                : std::string("A rehearsal of race food at race effort, with a run off the bike."),
            0, 0};
        next.insert(rehearsed || next.empty() ? next.end() : next.begin() + 1, rehearsal);
    }
}

} // namespace diary

Learned learn(const std::vector<DiaryEntry>& all, const Athlete& athlete, const LearnFor& wanted) {
    const auto entries = standing_entries(all);
    Learned learned;
    settle_conditions(entries, wanted, learned);
    learn_sweat(entries, athlete, learned);
    learn_sodium(entries, learned);
    learn_gut(entries, athlete, learned);
    learn_paces(entries, athlete, learned);
    choose_next(entries, athlete, learned);
    say_what_is_known(learned);
    return learned;
}

LearnFor wanted_for(const Event& event) {
    const bool rides = std::any_of(event.legs.begin(), event.legs.end(),
                                   [](const Leg& leg) { return leg.kind == LegKind::bike; });
    return {event.weather.temperature_c, rides ? Sport::bike : Sport::run};
}

namespace {

LearnedSweat learned_sweat(const Learned& learned) {
    LearnedSweat out{learned.sweat_factor.median, learned.sweat_day_log_sd, learned.sweat_factor.tests,
                     std::nullopt, 0};
    if (learned.sport == Sport::run)
        return out;
    const auto& run = learned.sweat_factor_on_run;
    out.run_factor = run.median;
    out.run_more_log_sd = std::sqrt(
        std::max(0.0, run.log_sd * run.log_sd - learned.sweat_factor.log_sd * learned.sweat_factor.log_sd));
    return out;
}

/// What went well is taken first, and what the athlete likes before it.
void like_what_went_well(const Learned& learned, Athlete& athlete) {
    for (const auto& food : learned.foods)
        if (std::find(athlete.like.begin(), athlete.like.end(), food) == athlete.like.end() &&
            std::find(athlete.avoid.begin(), athlete.avoid.end(), food) == athlete.avoid.end())
            athlete.like.push_back(food);
}

} // namespace

Athlete with_learned(Athlete athlete, const Learned& learned) {
    if (learned.sweat_factor.tests > 0)
        athlete.learned_sweat = learned_sweat(learned);
    if (learned.sodium_mmol_per_l.tests > 0) {
        athlete.sweat_sodium_mmol_per_l = learned.sodium_mmol_per_l.median;
        athlete.sweat_sodium_log_sd = std::hypot(learned.sodium_mmol_per_l.log_sd, repeat_sodium_cv);
    }
    const auto& gut = learned.bike.carb_g_per_h > 0 ? learned.bike : learned.run;
    if (gut.carb_g_per_h > 0) {
        athlete.rehearsed.carb_g_per_h = gut.carb_g_per_h;
        athlete.rehearsed.fluid_ml_per_h = gut.fluid_ml_per_h;
        athlete.rehearsed.strong_drink = athlete.rehearsed.strong_drink || gut.strong_drink;
        athlete.rehearsed.solids_on_run = athlete.rehearsed.solids_on_run || gut.solids_on_run;
    }
    const bool rides = learned.bike.carb_g_per_h > 0 || learned.bike.at_most_g_per_h > 0;
    athlete.rehearsed.at_most_g_per_h = rides ? learned.bike.at_most_g_per_h : learned.run.at_most_g_per_h;
    athlete.rehearsed.run_at_most_g_per_h = learned.run.at_most_g_per_h;
    like_what_went_well(learned, athlete);
    // The newest first: of two results as near to the distance the first one is taken.
    athlete.recent.insert(athlete.recent.begin(), learned.paces.rbegin(), learned.paces.rend());
    return athlete;
}

} // namespace tuck
