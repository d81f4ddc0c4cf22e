// The need stage: the rule that binds, on every number.
#include "tuck/need.hpp"

#include "base/conditions.hpp"
#include "base/sources.hpp"
#include "need/fluid.hpp"
#include "need/guidance.hpp"
#include "need/heat.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

using namespace need;

constexpr double run_share = figure("food.run_share");
constexpr double drink_sodium_mg_per_ml = figure("sodium.drink_mg_per_ml");
constexpr double salty_mg_per_l = figure("sodium.salty_mmol_per_l") * figure("physics.sodium_mg_per_mmol");
constexpr double extra_sodium_mg_per_h = figure("sodium.extra_mg_per_h");
constexpr double steady_sips = figure("drink.steady_share");
constexpr double last_run_from_min = figure("food.last_run_from_min");
constexpr double sodium_from_min = figure("sodium.from_min");
constexpr double solids_from_h = figure("food.solids_from_h"), over_drinking_from_h = figure("drink.long_h");

struct Day {
    const Athlete& athlete;
    const Event& event;
    const Effort& effort;
    const Body& body;
    const Limits& limits;
    double total_min() const { return effort.total.p50_s / 60; }
};

double floor_to(double value, double step) {
    return std::floor(value / step + 1e-9) * step;
}

bool has_bike(const Event& event) {
    return std::any_of(event.legs.begin(), event.legs.end(),
                       [](const Leg& l) { return l.kind == LegKind::bike; });
}

/// No gut training, and nothing that rests on it, under 18 or in pregnancy.
bool gut_trained(const Athlete& athlete) {
    return athlete.rehearsed.gut_trained && !is_minor(athlete) && !athlete.health.pregnant_or_breastfeeding;
}

double rehearsed_cap(const Athlete& athlete, double minutes) {
    const auto& rehearsed = athlete.rehearsed;
    if (gut_trained(athlete) && rehearsed.carb_g_per_h > 90)
        return std::min(rehearsed.carb_g_per_h, 120.0);
    if (rehearsed.carb_g_per_h >= 80)
        return 90;
    return std::max(unrehearsed_carb_g_per_h(minutes), rehearsed.carb_g_per_h);
}

struct CarbRate {
    double g_per_h = 0;
    std::vector<Reason> because;
    std::string kept_out{}; // of the athlete's wish, and why
};

/// The athlete's wish, as far as guidance and rehearsals go together. What has gone well in rehearsals may be
/// wished for on a shorter day too.
void grant_wish(const Day& day, double wanted, CarbRate& rate) {
    const double shown = day.athlete.rehearsed.carb_g_per_h;
    const double rehearsed = gut_trained(day.athlete) ? std::min(shown, 120.0) : std::min(shown, 90.0);
    const double most = std::max(rate.g_per_h, rehearsed);
    if (wanted > most)
        rate.kept_out = fmt::format("Kept out: {:.0f} g/h. {:.0f} g/h is the most that {}.", wanted, most,
                                    rehearsed >= rate.g_per_h && shown > 0 ? "has been rehearsed"
                                    : shown > 0 ? "guidance gives for this duration"
                                                : "is planned before more has gone well in a rehearsal");
    rate.g_per_h = std::min(wanted, most);
    rate.because.push_back({fmt::format("{:.0f} g/h wished for", wanted), "the athlete's own choice"});
}

CarbRate usual_carb_rate(const Day& day, double minutes) {
    if (day.event.rehearses_carb_g_per_h)
        return {*day.event.rehearses_carb_g_per_h,
                {{fmt::format("a rehearsal: {:.0f} g/h, the rate of race day or the step towards it",
                              *day.event.rehearses_carb_g_per_h),
                  source::practice}}};
    const auto& band = guidance_for(minutes);
    CarbRate rate{band.carb_g_per_h, {{band.text, band.source}}};
    if (*band.disagreement)
        rate.because.push_back({band.disagreement, band.source});
    const auto& rehearsed = day.athlete.rehearsed;
    const double cap = rehearsed_cap(day.athlete, minutes);
    const bool beyond_guidance = gut_trained(day.athlete) && cap > rate.g_per_h && band.two_sugars;
    if (beyond_guidance) {
        rate.g_per_h = cap;
        rate.because.push_back(
            {fmt::format("gut training declared and {:.0f} g/h rehearsed", rehearsed.carb_g_per_h),
             "Viribay 2020 (120 g/h, gut-trained only)"});
    } else if (cap < rate.g_per_h) {
        rate.g_per_h = cap;
        rate.because.push_back(
            {rehearsed.carb_g_per_h > 0
                 ? fmt::format("{:.0f} g/h rehearsed: at most {:.0f} g/h on the day", rehearsed.carb_g_per_h,
                               cap)
                 : fmt::format("no rehearsal yet: at most {:.0f} g/h for this duration", cap),
             source::practice});
    }
    return rate;
}

/// What went badly in a session is not asked for on the day.
void keep_below(double at_most, const char* where, double& g_per_h, std::vector<Reason>& because) {
    if (at_most <= 0 || g_per_h <= at_most)
        return;
    g_per_h = at_most;
    because.push_back({fmt::format("more went badly {}in a session: at most {:.0f} g/h", where, at_most),
                       source::own_diary});
}

CarbRate carb_rate(const Day& day, double minutes) {
    auto rate = usual_carb_rate(day, minutes);
    if (!day.event.rehearses_carb_g_per_h)
        keep_below(day.athlete.rehearsed.at_most_g_per_h, "", rate.g_per_h, rate.because);
    if (day.event.wanted_carb_g_per_h && !day.event.rehearses_carb_g_per_h)
        grant_wish(day, *day.event.wanted_carb_g_per_h, rate);
    return rate;
}

/// A run to the finish that is over before food would tell.
bool short_last_run(const Day& day, const LegBody& leg) {
    const auto& legs = day.effort.legs;
    return leg.kind == LegKind::run && has_bike(day.event) && leg.leg_index == legs.back().leg_index &&
           legs.back().time.p50_s < last_run_from_min * 60;
}

double carb_for_leg(const Day& day, const LegBody& leg, const CarbRate& rate, std::vector<Reason>& because) {
    double g_per_h = rate.g_per_h;
    because = rate.because;
    if (short_last_run(day, leg)) {
        because.push_back(
            {fmt::format("a run of less than {:.0f} min to the finish: nothing is needed", last_run_from_min),
             source::practice});
        return 0;
    }
    if (leg.kind == LegKind::run && has_bike(day.event)) {
        g_per_h *= run_share;
        because.push_back({"on the run two thirds of the bike's rate: chewing and the gut are harder there",
                           "common practice, no source; Pfeiffer 2012 and Barrero 2014 show the pattern"});
    }
    if (leg.kind == LegKind::run && has_bike(day.event))
        keep_below(day.athlete.rehearsed.run_at_most_g_per_h, "on the run ", g_per_h, because);
    if (leg.carb_use_g_per_h < g_per_h) {
        g_per_h = leg.carb_use_g_per_h;
        because.push_back(
            {fmt::format("the leg burns only about {:.0f} g/h of carbohydrate, so no more than that",
                         leg.carb_use_g_per_h),
             "Jeukendrup 2014 (less at low absolute intensity)"});
    }
    return floor_to(g_per_h, 1);
}

/// Fluid per hour of bike and run that keeps the loss of body water within 2 % of body mass.
double fluid_within_2_pct(const Day& day) {
    double sweat_ml = 0, drinking_h = 0;
    for (size_t i = 0; i < day.body.legs.size(); ++i) {
        const double hours = day.effort.legs[i].time.p50_s / 3600;
        sweat_ml += day.body.legs[i].sweat_ml_per_h * hours;
        if (day.body.legs[i].kind == LegKind::bike || day.body.legs[i].kind == LegKind::run)
            drinking_h += hours;
    }
    const double to_replace_ml = sweat_ml - figure("drink.loss_of_mass") * day.athlete.mass_kg * 1000;
    return drinking_h > 0 ? std::max(0.0, to_replace_ml / drinking_h) : 0.0;
}

double sodium_for_leg(const Day& day, const LegBody& leg, double fluid_ml_per_h,
                      std::vector<Reason>& because) {
    if (day.total_min() < sodium_from_min)
        return 0;
    const double loss_mg_per_h = leg.sweat_ml_per_h / 1000 * day.body.sweat_sodium_mg_per_l;
    const bool salty = day.body.sodium_measured && day.body.sweat_sodium_mg_per_l > salty_mg_per_l;
    const double extra = salty ? extra_sodium_mg_per_h : 0.0;
    const double sodium = std::min(loss_mg_per_h, fluid_ml_per_h * drink_sodium_mg_per_ml + extra);
    because.push_back(
        {fmt::format("sodium as in a drink of 600 mg/L{}, of about {:.0f} mg/h lost; no benefit is claimed",
                     salty ? " and 300 mg/h more for a salty sweater" : "", loss_mg_per_h),
         "German Nutrition Society 2020 (400-1100 mg/L); 300 mg/h: common practice, no source"});
    return floor_to(sodium, 10);
}

LegNeed leg_need(const Day& day, const LegBody& leg, const CarbRate& rate, bool fuel) {
    LegNeed out;
    out.leg_index = leg.leg_index;
    out.kind = leg.kind;
    out.sweat_ml_per_h = leg.sweat_ml_per_h;
    if (is_transition(leg.kind) || leg.kind == LegKind::swim) {
        out.because = {
            {"nothing is eaten or drunk here by plan; the bike and the run are for that", source::practice}};
        return out;
    }
    if (fuel)
        out.carb_g_per_h = carb_for_leg(day, leg, rate, out.because);
    else
        out.because = rate.because;
    const auto ceiling = fluid_ceiling(day.athlete, day.effort, day.body, leg, day.limits);
    out.fluid_ml_per_h = ceiling.ml_per_h;
    out.because.insert(out.because.end(), ceiling.because.begin(), ceiling.because.end());
    out.fluid_aim_ml_per_h =
        std::clamp(fluid_within_2_pct(day), short_last_run(day, leg) ? 0 : steady_sips * out.fluid_ml_per_h,
                   out.fluid_ml_per_h);
    out.sodium_mg_per_h = sodium_for_leg(day, leg, out.fluid_ml_per_h, out.because);
    return out;
}

IntakeLimits intake_limits(const Day& day, const CarbRate& rate) {
    IntakeLimits out;
    out.carb_g = rate.g_per_h;
    const bool trained = gut_trained(day.athlete);
    out.glucose_path_g =
        trained ? figure("food.glucose_trained_g_per_h") : figure("food.glucose_path_g_per_h");
    out.fructose_path_g =
        trained ? figure("food.fructose_trained_g_per_h") : figure("food.fructose_path_g_per_h");
    out.strong_drink = day.athlete.rehearsed.strong_drink;
    out.solids_on_run = day.athlete.rehearsed.solids_on_run;
    for (const auto& leg : day.effort.legs)
        if (leg.kind == LegKind::bike && leg.time.p50_s < solids_from_h * 3600)
            out.solids = false;
    const auto& health = day.athlete.health;
    if (health.fructose_malabsorption)
        out.fructose_path_g = 0;
    const bool caffeine = day.athlete.caffeine && !is_minor(day.athlete) &&
                          !health.pregnant_or_breastfeeding && !health.heart_kidney_or_blood_pressure;
    if (caffeine) {
        out.caffeine_dose_mg =
            std::min(figure("caffeine.dose_mg_per_kg") * day.athlete.mass_kg, figure("caffeine.dose_mg"));
        out.caffeine_day_mg = std::max(0.0, figure("caffeine.day_mg") - day.athlete.morning_coffee_mg);
        if (day.event.caffeine_mg) // cola counts too
            out.caffeine_day_mg = std::min<double>(out.caffeine_day_mg, *day.event.caffeine_mg);
    }
    return out;
}

void warn_by_duration(const Day& day, Need& need) {
    const auto& total = day.effort.total;
    const double border_s = fuel_from_min * 60;
    if (turns_at(total, border_s))
        need.warnings.push_back({"near_threshold", Severity::note,
                                 need.fuelling_needed ? "On a fast day this is over before 75 minutes and "
                                                        "needs no food; the plan is for the likely day."
                                                      : "On a slow day this lasts over 75 minutes: carry one "
                                                        "gel in case, and take it with water if you "
                                                        "are still out after an hour."});
    const bool no_scale = day.athlete.health.past_eating_disorder; // no word of mass to them
    const bool light = day.athlete.mass_kg < 60 && !no_scale;
    const bool likely = total.p50_s > over_drinking_from_h * 3600;
    if (likely || total.p90_s > over_drinking_from_h * 3600)
        need.warnings.push_back(
            {"over_drinking", Severity::caution,
             fmt::format("Over four hours{}{}: drinking more than you sweat is the dangerous mistake. Drink "
                         "to thirst, never beyond the plan{}.",
                         likely ? "" : " on a slow day", light ? " and a light body" : "",
                         no_scale ? "" : ", and never so that you weigh more at the finish")});
}

void warn_of_much_drink(Need& need) {
    const bool much = std::any_of(need.legs.begin(), need.legs.end(), [](const LegNeed& leg) {
        return leg.fluid_ml_per_h > much_fluid_ml_per_h;
    });
    if (much)
        need.warnings.push_back(
            {"much_fluid", Severity::caution,
             "Up to more than one litre an hour: only because it was rehearsed. Drink less "
             "as soon as thirst is gone or the stomach is full."});
}

/// The plan must hold on a fast and on a slow day: where either lies in another band of guidance, it says so.
void warn_at_band_edge(const Day& day, const CarbRate& rate, Need& need) {
    const auto& total = day.effort.total;
    const double fast = carb_rate(day, total.p10_s / 60).g_per_h,
                 slow = carb_rate(day, total.p90_s / 60).g_per_h;
    if (need.no_rate || !need.fuelling_needed || (fast == rate.g_per_h && slow == rate.g_per_h))
        return;
    if (fast <= 0 && slow == rate.g_per_h)
        return; // near_threshold says it
    need.warnings.push_back(
        {"band_edge", Severity::note,
         fmt::format(
             "Guidance changes between a fast and a slow day: {:.0f} g/h on a fast one, {:.0f} on the likely "
             "one, {:.0f} on a slow one. Keep the planned {:.0f} g/h: a slow day never raises the dose.",
             fast, rate.g_per_h, slow, rate.g_per_h)});
}

/// Smaller advice that turns with the duration.
void warn_at_edges(const Day& day, Need& need) {
    if (!need.fuelling_needed || need.no_rate)
        return;
    const auto warn = [&need](const char* code, bool likely_beyond, const char* fast, const char* slow) {
        need.warnings.push_back({code, Severity::note, likely_beyond ? fast : slow});
    };
    if (turns_at(day.effort.total, sodium_from_min * 60))
        warn("sodium_edge", day.total_min() >= sodium_from_min,
             "On a fast day this is over before 90 minutes, where nobody needs sodium on the way; what is "
             "planned does no harm.",
             "On a slow day this lasts over 90 minutes: the drink may then hold salt, but nothing is lost "
             "without it.");
    for (const auto& leg : day.effort.legs)
        if (leg.kind == LegKind::bike && turns_at(leg.time, solids_from_h * 3600))
            warn(
                "solids_edge", need.limits.solids,
                "On a fast day the bike takes less than two hours: leave the solid food for last.",
                "On a slow day the bike takes over two hours: no solid food is planned, and none is needed.");
}

void warn_by_health(const Day& day, Need& need) {
    const auto& health = day.athlete.health;
    const auto warn = [&need](const char* code, Severity severity, const char* text) {
        need.warnings.push_back({code, severity, text});
    };
    if (health.glucose_lowering_medicine)
        warn("ask_clinic", Severity::danger,
             "With insulin or glucose-lowering medicine this plan gives no carbohydrate rate and never says "
             "'none needed': your diabetes clinic sets both.");
    if (health.recent_gut_illness)
        warn("gut_illness", Severity::danger,
             "After a recent gut illness there is no carbohydrate plan here: see a doctor before you race.");
    if (health.heart_kidney_or_blood_pressure)
        warn("ask_doctor", Severity::danger,
             "With heart or kidney disease, a diuretic or blood-pressure medicine, ask your doctor about "
             "fluid, salt and caffeine before you use any of these numbers.");
    if (health.pregnant_or_breastfeeding)
        warn("ask_doctor", Severity::caution,
             "Pregnant or breastfeeding: no caffeine and no loading here; ask your doctor or midwife first.");
    if (is_minor(day.athlete))
        warn("minor", Severity::caution,
             "Under 18: no caffeine, no loading, no gut training; a parent and a sports dietitian should see "
             "this plan.");
    if (day.athlete.age_y && *day.athlete.age_y > 60)
        warn("thirst_lags", Severity::note,
             "Over 60 thirst may lag: use the plan as regular prompts in heat, with the same ceiling (common "
             "practice, no source).");
    if (day.athlete.caffeine && need.limits.caffeine_dose_mg == 0)
        warn("no_caffeine", Severity::caution,
             "Caffeine was asked for and is left out: it is not for this athlete.");
}

void say_what_still_matters(const Day& day, Need& need) {
    need.still_matters = {"Eat a familiar meal 2 to 4 hours before.",
                          "Drink to thirst before and after; nothing needs to be forced.",
                          "After the finish: drink to thirst, eat something salty, then a meal."};
    if (day.total_min() >= rinse_from_min)
        need.still_matters.push_back(
            "If it is hard all the way, a mouthful of sports drink, swished or swallowed, "
            "may help. It is optional.");
    if (day.event.weather.temperature_c >= 25)
        need.still_matters.push_back(
            "It is hot: carry water, drink it to thirst, pour some over head and arms, and "
            "slow down when you feel hot.");
}

} // namespace

Need state_need(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                const Limits& limits) {
    const Day day{athlete, event, effort, body, limits};
    Need need;
    const auto rate = carb_rate(day, day.total_min());
    need.no_rate = athlete.health.glucose_lowering_medicine || athlete.health.recent_gut_illness;
    need.fuelling_needed =
        need.no_rate || day.total_min() >= fuel_from_min || event.rehearses_carb_g_per_h.has_value();
    need.because = {{fmt::format("the likely total is {:.0f} min; the border is {:.0f} min", day.total_min(),
                                 fuel_from_min),
                     "IOC consensus 2010; Jeukendrup 2014"}};
    need.because.insert(need.because.end(), rate.because.begin(), rate.because.end());
    need.limits = intake_limits(day, rate);
    const bool fuel = need.fuelling_needed && !need.no_rate;
    for (const auto& leg : body.legs)
        need.legs.push_back(leg_need(day, leg, rate, fuel));
    if (!need.fuelling_needed)
        say_what_still_matters(day, need);
    need.warnings = heat_warnings(effort, body);
    if (fuel && !rate.kept_out.empty())
        need.warnings.push_back({"carb_kept_out", Severity::note, rate.kept_out});
    warn_by_duration(day, need);
    warn_of_much_drink(need);
    warn_at_band_edge(day, rate, need);
    warn_at_edges(day, need);
    warn_by_health(day, need);
    return need;
}

} // namespace tuck
