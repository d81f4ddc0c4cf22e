#include "io/athlete_file.hpp"

#include "io/units.hpp"
#include "tuck/food.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <stdexcept>
#include <utility>
#include <nlohmann/json.hpp>

namespace tuck::io {

namespace {

/// Slowest and fastest believable mean speed of an event, m/s: our choice, wider than any result.
struct SpeedBounds {
    double low, high;
};
SpeedBounds speed_bounds(Sport sport) {
    switch (sport) {
    case Sport::swim:
        return {0.1, 2.5};
    case Sport::bike:
        return {1, 25};
    case Sport::run:
        break;
    }
    return {0.4, 9};
}

void read_body(Node& node, Athlete& athlete) {
    athlete.name = node.text("name", 60).value_or("");
    athlete.bib = node.text("bib", 12).value_or("");
    athlete.mass_kg = node.required_number("mass_kg", 25, 250, "kg");
    athlete.height_m = node.number("height_m", 1.0, 2.3, "m");
    athlete.age_y = node.number("age_y", 8, 100, "years");
    athlete.sex =
        node.choice<Sex>("sex", {{"female", Sex::female}, {"male", Sex::male}}).value_or(Sex::unspecified);
}

void read_results(Node& node, Athlete& athlete) {
    for (auto& item : node.objects("recent", 20)) {
        RecentResult result;
        const auto sport = item.choice<Sport>("sport", sport_words());
        if (!item.has("sport"))
            item.missing("sport");
        result.sport = sport.value_or(Sport::run);
        result.distance_m = item.required_number("distance_m", 50, longest_leg_m(result.sport), "m");
        const auto time = time_in(item, "time");
        if (!item.has("time"))
            item.missing("time");
        result.time_s = time.value_or(0);
        if (sport && time) {
            const auto why = unbelievable(result.sport, result.distance_m, result.time_s);
            if (!why.empty())
                item.fault("time", why);
        }
        result.date = day_in(item, "date");
        item.finish();
        athlete.recent.push_back(result);
    }
}

void read_speed(Node& node, Athlete& athlete) {
    athlete.level = node.choice<Level>("level", {{"beginner", Level::beginner},
                                                 {"steady", Level::steady},
                                                 {"keen", Level::keen},
                                                 {"fast", Level::fast}})
                        .value_or(Level::unknown);
    athlete.position = node.choice<Position>("position", {{"upright", Position::upright},
                                                          {"hoods", Position::hoods},
                                                          {"drops", Position::drops},
                                                          {"aero", Position::aero}})
                           .value_or(Position::unspecified);
    athlete.threshold_power_w = node.number("threshold_power_w", 40, 600, "W");
    athlete.threshold_run_s_per_km = node.number("threshold_run_s_per_km", 140, 900, "s/km");
    athlete.critical_swim_speed_m_s = node.number("critical_swim_speed_m_s", 0.3, 2.2, "m/s");
    read_results(node, athlete);
}

void read_times(Node& node, LegTimes& times) {
    auto object = node.object("times");
    if (!object)
        return;
    for (const auto kind : {LegKind::swim, LegKind::t1, LegKind::bike, LegKind::t2, LegKind::run})
        if (const auto time = time_in(*object, to_string(kind),
                                      is_transition(kind) ? longest_transition_s : longest_event_s))
            times[kind] = *time;
    object->finish();
}

void read_sweat(Node& node, Athlete& athlete) {
    if (auto object = node.object("sweat")) {
        MeasuredSweat sweat;
        sweat.sweat_ml_per_h = object->required_number("sweat_ml_per_h", 100, 4000, "ml/h");
        sweat.sport = object->choice<Sport>("sport", sport_words());
        sweat.temperature_c = object->number("temperature_c", -20, 50, "C");
        sweat.humidity_pct = object->number("humidity_pct", 0, 100, "%");
        object->finish();
        athlete.sweat = sweat;
    }
    athlete.sweat_sodium_mmol_per_l = node.number("sweat_sodium_mmol_per_l", 5, 150, "mmol/L");
}

void read_rehearsed(Node& node, Athlete& athlete) {
    auto object = node.object("rehearsed");
    if (!object)
        return;
    auto& shown = athlete.rehearsed;
    shown.carb_g_per_h = object->number("carb_g_per_h", 0, 150, "g/h").value_or(0);
    shown.fluid_ml_per_h = object->number("fluid_ml_per_h", 0, 2000, "ml/h").value_or(0);
    shown.gut_trained = object->flag("gut_trained").value_or(false);
    shown.solids_on_run = object->flag("solids_on_run").value_or(false);
    shown.strong_drink = object->flag("strong_drink").value_or(false);
    object->finish();
}

/// An allergen that is not understood must stop the plan: it could not be kept out of it.
void check_allergens(Node& node, const std::vector<std::string>& words) {
    const auto& known = allergen_names();
    for (size_t i = 0; i < words.size(); ++i) {
        if (std::find(known.begin(), known.end(), words[i]) != known.end())
            continue;
        node.faults().push_back(
            {node.file(), fmt::format("{}/allergy/{}", node.pointer(), i),
             fmt::format("\"{}\" is not known; allowed: {}", words[i], fmt::join(known, ", "))});
    }
}

void read_tastes(Node& node, Athlete& athlete) {
    athlete.caffeine = node.flag("caffeine").value_or(false);
    athlete.morning_coffee_mg = node.number("morning_coffee_mg", 0, 1000, "mg of caffeine").value_or(0);
    athlete.hands = node.choice<Hands>(
        "hands",
        {{"none", Hands::none}, {"bottle", Hands::bottle}, {"bottle and food", Hands::bottle_and_food}});
    athlete.swallow_ml = node.number("swallow_ml", 25, 50, "ml").value_or(30);
    athlete.like = node.texts("like");
    athlete.avoid = node.texts("avoid");
    athlete.allergy = node.texts("allergy");
    for (const auto& word : athlete.like)
        if (std::find(athlete.avoid.begin(), athlete.avoid.end(), word) != athlete.avoid.end())
            node.fault("avoid", fmt::format("\"{}\" stands in \"like\" too; leave one of the two out", word));
    check_allergens(node, athlete.allergy);
}

void read_health(Node& node, Health& health) {
    auto object = node.object("health");
    if (!object)
        return;
    const auto flag = [&](const char* key) { return object->flag(key).value_or(false); };
    health.glucose_lowering_medicine = flag("glucose_lowering_medicine");
    health.heart_kidney_or_blood_pressure = flag("heart_kidney_or_blood_pressure");
    health.pregnant_or_breastfeeding = flag("pregnant_or_breastfeeding");
    health.coeliac = flag("coeliac");
    health.fructose_malabsorption = flag("fructose_malabsorption");
    health.past_eating_disorder = flag("past_eating_disorder");
    health.recent_gut_illness = flag("recent_gut_illness");
    object->finish();
}

} // namespace

const std::vector<std::pair<std::string, Sport>>& sport_words() {
    static const std::vector<std::pair<std::string, Sport>> words = {
        {"swim", Sport::swim}, {"bike", Sport::bike}, {"run", Sport::run}};
    return words;
}

Sport sport_of(LegKind leg) {
    return leg == LegKind::swim ? Sport::swim : leg == LegKind::bike ? Sport::bike : Sport::run;
}

Athlete athlete_from(Node& node, LegTimes& times) {
    Athlete athlete;
    read_heading(node, "tuck.athlete/1");
    read_body(node, athlete);
    read_speed(node, athlete);
    read_times(node, times);
    read_sweat(node, athlete);
    read_rehearsed(node, athlete);
    read_tastes(node, athlete);
    read_health(node, athlete.health);
    node.finish();
    return athlete;
}

Athlete read_athlete(const std::string& path) {
    const Json json = read_json(path);
    std::vector<Fault> faults;
    LegTimes times;
    Node node(json, path, "", faults);
    Athlete athlete = athlete_from(node, times);
    if (!faults.empty())
        throw InputError(faults);
    return athlete;
}

std::optional<double> time_in(Node& node, const std::string& key, double longest_s) {
    const auto text = node.text(key, 20);
    if (!text)
        return std::nullopt;
    try {
        const double seconds = duration_s(*text);
        if (seconds >= 1 && seconds <= longest_s)
            return seconds;
        node.fault(key,
                   fmt::format("\"{}\" is out of range; allowed 1 s to {:g} h", *text, longest_s / 3600));
    } catch (const std::invalid_argument& error) {
        node.fault(key, error.what());
    }
    return std::nullopt;
}

std::optional<std::string> day_in(Node& node, const std::string& key) {
    const auto text = node.text(key);
    if (!text)
        return std::nullopt;
    try {
        return calendar_date(*text);
    } catch (const std::invalid_argument& error) {
        node.fault(key, error.what());
        return std::nullopt;
    }
}

double longest_leg_m(Sport sport) {
    return sport == Sport::swim ? 25000 : sport == Sport::bike ? 1000000 : 330000;
}

std::string unbelievable(Sport sport, double distance_m, double time_s) {
    const auto bounds = speed_bounds(sport);
    const double speed = distance_m / time_s;
    if (speed >= bounds.low && speed <= bounds.high)
        return {};
    return fmt::format(
        "{} over {:g} km is {:.1f} km/h; allowed {:g} to {:g} km/h (a time is min:s or h:min:s)",
        duration_text(time_s), distance_m / 1000, speed * 3.6, bounds.low * 3.6, bounds.high * 3.6);
}

void read_heading(Node& node, const std::string& schema) {
    node.text("about", 500);
    const auto given = node.text("schema");
    if (given && *given != schema)
        node.fault("schema", fmt::format("\"{}\" is not known here; allowed: \"{}\"", *given, schema));
}

} // namespace tuck::io
