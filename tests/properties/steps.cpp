#include "properties/steps.hpp"

#include "tuck/body.hpp"
#include "tuck/effort.hpp"
#include "tuck/need.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tuck::properties {

namespace {

struct Rolled {
    Asked of;
    Effort effort;
    Body body;
    Need need;
};

Rolled roll(const Asked& asked) {
    Rolled out{asked, estimate_effort(asked.athlete, asked.event), {}, {}};
    out.body = describe_body(asked.athlete, asked.event, out.effort);
    out.need = state_need(asked.athlete, asked.event, out.effort, out.body);
    return out;
}

/// Puts `value` up by a step; false where it is not given, or would leave its legal range.
bool up(std::optional<double>& value, double by, double most) {
    if (!value || *value + by > most)
        return false;
    *value += by;
    return true;
}

/// A change that never lowers (or never raises) a number of any leg.
struct Monotone {
    const char* what;
    bool (*change)(Asked&);
    double LegNeed::*number;
    bool grows = true;
    /// Asked of the model's mean on a day with its times and the sun's height given and no sweat test, so
    /// that nothing else moves: heat slows people and widens the spread, a test is carried over from its own
    /// weather, and a stronger sun is taken to stand higher.
    bool body_alone = false;
    /// Legs share the day's margin by their sweat: who sweats more on the run drinks a hair less of it on the
    /// bike. Ceilings are cut off to tens, and that hair may be one of them.
    double grain = 1e-6;
    /// Warm air is thinner, by 0.4 % a degree at 0 C (gas law), and who rides through it works less: in the
    /// cold that may weigh more than the warmth.
    double ride_share = 0;
};

bool more_sweat(Asked& a) {
    auto& athlete = a.athlete;
    if (!athlete.sweat || athlete.learned_sweat || athlete.sweat->sweat_ml_per_h > 3900)
        return false;
    athlete.sweat->sweat_ml_per_h *= 1.02;
    if (athlete.sweat_on_run)
        athlete.sweat_on_run->sweat_ml_per_h *= 1.02;
    return true;
}

bool hotter(Asked& a) {
    return a.event.weather.hourly.empty() && (a.event.weather.temperature_c += 1) <= io::any_air_c.high;
}

/// On foot and in the water: humid air is lighter, and who rides through it works less.
bool more_humid(Asked& a) {
    const auto& legs = a.event.legs;
    return std::none_of(legs.begin(), legs.end(), [](const Leg& leg) { return leg.kind == LegKind::bike; }) &&
           up(a.event.weather.humidity_pct, 3, 100);
}

bool more_carbohydrate(Asked& a) {
    return (a.athlete.rehearsed.carb_g_per_h += 5) <= 150;
}

bool more_drink(Asked& a) {
    return (a.athlete.rehearsed.fluid_ml_per_h += 50) <= 2000;
}

const std::vector<Monotone>& monotone() {
    constexpr auto carb = &LegNeed::carb_g_per_h, fluid = &LegNeed::fluid_ml_per_h,
                   sodium = &LegNeed::sodium_mg_per_h, sweat = &LegNeed::sweat_ml_per_h;
    static const std::vector<Monotone> all{
        {"more sweat, a lower ceiling on drink", more_sweat, fluid, true, false, 10},
        {"more sweat, less sweat", more_sweat, sweat},
        {"hotter, less sweat", hotter, sweat, true, true, 1e-6, 0.004},
        {"more humid, less sweat", more_humid, sweat, true, true},
        {"more sun, less sweat", [](Asked& a) { return up(a.event.weather.sun_w_m2, 50, 1300); }, sweat, true,
         true},
        {"more rehearsed carbohydrate, a lower rate", more_carbohydrate, carb},
        {"a trained gut, a lower rate",
         [](Asked& a) { return !std::exchange(a.athlete.rehearsed.gut_trained, true); }, carb},
        {"more rehearsed drink, a lower ceiling", more_drink, fluid},
        {"a higher wish, a lower rate", [](Asked& a) { return up(a.event.wanted_carb_g_per_h, 5, 120); },
         carb},
        {"saltier sweat, less sodium", [](Asked& a) { return up(a.athlete.sweat_sodium_mmol_per_l, 3, 150); },
         sodium},
        {"a weak heart or kidney, a higher ceiling",
         [](Asked& a) { return !std::exchange(a.athlete.health.heart_kidney_or_blood_pressure, true); },
         fluid, false}};
    return all;
}

Asked body_alone(Asked asked, const Effort& effort) {
    for (std::size_t i = 0; i < asked.event.legs.size(); ++i)
        asked.event.legs[i].time_s = effort.legs[i].time.p50_s,
        asked.event.legs[i].distance_m = effort.legs[i].distance_m;
    asked.athlete.sweat.reset();
    asked.athlete.sweat_on_run.reset();
    asked.athlete.learned_sweat.reset();
    asked.event.date = "2027-06-21";
    asked.event.latitude_deg = 45;
    asked.event.start_min = 9 * 60;
    return asked;
}

bool grow(std::optional<double>& value, double most) {
    if (!value || *value == 0 || *value * 1.01 > most)
        return false;
    *value *= 1.01;
    return true;
}

/// Every number that an input may hold, one hundredth more; false: not given.
bool nudge(Asked& a, std::size_t which) {
    auto& p = a.athlete;
    auto& w = a.event.weather;
    switch (which) {
    case 0:
        return (p.mass_kg *= 1.01) <= io::body_kg.high;
    case 1:
        return (w.temperature_c += 0.2) <= io::any_air_c.high;
    case 2:
        return grow(w.humidity_pct, 100);
    case 3:
        return grow(w.wind_m_s, 25);
    case 4:
        return grow(w.sun_w_m2, 1300);
    case 5:
        return grow(w.cloud_pct, 100);
    case 6:
        return grow(w.water_temperature_c, 35);
    case 7:
        if (p.sweat)
            p.sweat->sweat_ml_per_h *= 1.01;
        return p.sweat.has_value();
    case 8:
        return grow(p.sweat_sodium_mmol_per_l, 150);
    case 9:
        return grow(p.height_m, 2.3);
    case 10:
        return grow(p.age_y, 100);
    case 11:
        return grow(p.threshold_power_w, 600);
    case 12:
        return grow(p.threshold_run_s_per_km, 900);
    case 13:
        return grow(p.critical_swim_speed_m_s, 2.2);
    case 14:
        return (p.rehearsed.carb_g_per_h *= 1.01) <= 150;
    case 15:
        return (p.rehearsed.fluid_ml_per_h *= 1.01) <= 2000;
    case 16:
        return grow(a.event.wanted_carb_g_per_h, 120);
    case 17:
        for (auto& leg : a.event.legs)
            leg.distance_m *= 1.01;
        return true;
    case 18:
        for (auto& leg : a.event.legs)
            if (leg.time_s)
                *leg.time_s *= 1.01;
        return true;
    case 19:
        for (auto& leg : a.event.legs)
            if (leg.ascent_m)
                *leg.ascent_m *= 1.01;
        return true;
    case 20:
        for (auto& result : p.recent)
            result.time_s *= 1.01;
        return !p.recent.empty();
    default:
        if (p.sweat && p.sweat->temperature_c)
            *p.sweat->temperature_c += 0.2;
        return p.sweat && p.sweat->temperature_c;
    }
}
constexpr std::size_t nudges = 22;

int longest_of(const Effort& effort, bool runs_alone) {
    int longest = -1;
    double s = 0;
    for (const auto& leg : effort.legs)
        if ((leg.kind == LegKind::run || (leg.kind == LegKind::bike && !runs_alone)) && leg.time.p50_s > s) {
            s = leg.time.p50_s;
            longest = leg.leg_index;
        }
    return longest;
}

/// The rules at whose border a number may leap, each with its name.
std::string border_between(const Rolled& a, const Rolled& b) {
    const auto crossed = [](double x, double y, double border) {
        return (x < border) != (y < border) || (x <= border) != (y <= border);
    };
    const double x = a.effort.total.p50_s / 60, y = b.effort.total.p50_s / 60;
    for (const double min : {75.0, 90.0, 120.0, 150.0, 180.0, 240.0})
        if (crossed(x, y, min))
            return fmt::format("{:g} min of likely total", min);
    for (const double g : {80.0, 90.0})
        if (crossed(a.of.athlete.rehearsed.carb_g_per_h, b.of.athlete.rehearsed.carb_g_per_h, g) ||
            a.of.athlete.rehearsed.carb_g_per_h == g)
            return fmt::format("{:g} g/h rehearsed", g);
    if (longest_of(a.effort, false) != longest_of(b.effort, false) ||
        longest_of(a.effort, true) != longest_of(b.effort, true))
        return "the longest leg, which a sweat test stands for";
    constexpr double pushed = 0.2; // of a climb that fills half of the road
    for (const auto& leg : a.of.event.legs)
        if (leg.kind == LegKind::bike && 2 * leg.ascent_m.value_or(0) > pushed * leg.distance_m)
            return "a climb that is pushed, not ridden: its time says little of the work";
    constexpr double walking_m_s = 2; // as against a gale
    for (const auto& leg : a.effort.legs)
        if (leg.kind == LegKind::bike && leg.distance_m < walking_m_s * leg.time.p50_s)
            return "a bicycle that is pushed, not ridden";
    constexpr double nobody_w =
        2500; // some 550 W on the pedals, for hours (from memory: more than any record)
    for (const auto& leg : a.body.legs)
        if (leg.metabolic_w > nobody_w)
            return "results that nobody has: the most sweat ever seen cuts off";
    if (crossed(a.effort.legs.back().time.p50_s, b.effort.legs.back().time.p50_s, 40 * 60))
        return "a last run of 40 min";
    if (a.of.athlete.age_y && crossed(*a.of.athlete.age_y, *b.of.athlete.age_y, 18))
        return "18 years";
    if (crossed(a.of.athlete.mass_kg, b.of.athlete.mass_kg, 45))
        return "45 kg";
    if (a.of.athlete.sweat_sodium_mmol_per_l &&
        crossed(*a.of.athlete.sweat_sodium_mmol_per_l, *b.of.athlete.sweat_sodium_mmol_per_l, 60))
        return "60 mmol/L of sweat";
    return {};
}

/// The need of one neighbour; empty where there is no such day.
std::optional<Rolled> neighbour(const Asked& asked, const Rolled& of) {
    try {
        auto out = roll(asked);
        return out.need.legs.size() == of.need.legs.size() ? std::optional(std::move(out)) : std::nullopt;
    } catch (const Error&) {
        return std::nullopt;
    }
}

void ask_monotone(const Rolled& here, const Monotone& rule, Steps& out) {
    std::optional<Rolled> alone;
    if (rule.body_alone)
        alone = roll(body_alone(here.of, here.effort));
    const Rolled& from = alone ? *alone : here;
    Asked changed = from.of;
    const auto there = rule.change(changed) ? neighbour(changed, from) : std::nullopt;
    if (!there)
        return;
    ++out.monotone;
    for (std::size_t i = 0; i < from.need.legs.size(); ++i) {
        const auto number = [&](const Rolled& of) {
            const double sd = rule.body_alone ? of.body.legs[i].sweat_log_sd : 0;
            return of.need.legs[i].*rule.number * std::exp(sd * sd / 2); // a median lies below its mean
        };
        const double a = number(from), b = number(*there);
        const bool rides = from.need.legs[i].kind == LegKind::bike;
        // Held at the most that a skin gives, the last digits are the solver's.
        const double worked_ml = from.body.legs[i].metabolic_w * 3600 / 2430; // all of it given off by sweat
        const double grain = rule.grain + 1e-5 * a + (rides ? rule.ride_share * std::max(a, worked_ml) : 0);
        if (rule.grows ? b < a - grain : b > a + grain)
            out.faults.push_back(fmt::format("monotone: {}: {:.2f} to {:.2f} on leg {}", rule.what, a, b, i));
    }
}

/// On a day of one weather: by the hour it may leap as it likes.
void ask_near(const Rolled& day, std::size_t input, Steps& out) {
    struct Part {
        const char* name;
        double LegNeed::*number;
        double step; // what it is cut off to, or nobody feels
    };
    Asked steady = day.of;
    steady.event.weather.hourly.clear();
    const Rolled here = day.of.event.weather.hourly.empty() ? day : roll(steady);
    Asked changed = here.of;
    const auto there = nudge(changed, input) ? neighbour(changed, here) : std::nullopt;
    if (!there)
        return;
    ++out.near;
    // One swallow in an hour nobody feels; a rate near nothing, as in a gale at -20 C, moves by it in large
    // parts. A test in the cold multiplies the model's rate by up to ten, and that with it.
    const double own = here.of.athlete.sweat ? std::max(1.0, here.of.athlete.sweat->sweat_ml_per_h / 250) : 1;
    constexpr double swallow_ml = 30, sodium_mg_per_mmol = 22.99;
    const double salt_mg_per_ml =
        here.of.athlete.sweat_sodium_mmol_per_l.value_or(0) * sodium_mg_per_mmol / 1000;
    // Of a ride at a given time a hundredth more speed is three of work; of a large body, all of it given off
    // by sweat (2430 J/g), that is more than a swallow.
    double work_ml = 0;
    for (const auto& leg : here.body.legs)
        work_ml = std::max(work_ml, 0.03 * leg.metabolic_w * 3600 / 2430);
    const Part parts[] = {
        {"carb_g_per_h", &LegNeed::carb_g_per_h, 1},
        {"fluid_ml_per_h", &LegNeed::fluid_ml_per_h, 10 + swallow_ml * own},
        {"sodium_mg_per_h", &LegNeed::sodium_mg_per_h, 10 + swallow_ml * own * std::max(1.0, salt_mg_per_ml)},
        {"sweat_ml_per_h", &LegNeed::sweat_ml_per_h, std::max(swallow_ml, work_ml) * own}};
    for (const auto& part : parts)
        for (std::size_t i = 0; i < here.need.legs.size(); ++i) {
            if (here.effort.legs[i].time.p50_s < 60)
                continue; // a swim of six seconds: its length is cut off to a metre
            const double a = here.need.legs[i].*part.number, b = there->need.legs[i].*part.number;
            if (std::abs(a - b) > 0.1 * std::max(a, b) + part.step && border_between(here, *there).empty())
                out.faults.push_back(
                    fmt::format("cliff: input {} a hundredth up: {} {:.2f} to {:.2f} on leg {}", input,
                                part.name, a, b, i));
        }
}

} // namespace

Steps step_aside(const Asked& asked, Draw& draw) {
    Steps out;
    const Rolled here = roll(asked);
    ask_monotone(here, draw.pick(monotone()), out);
    ask_near(here, draw.below(nudges), out);
    return out;
}

} // namespace tuck::properties
