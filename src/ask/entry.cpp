#include "ask/entry.hpp"

#include "io/athlete_file.hpp"
#include "io/units.hpp"

#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace tuck::ask {

namespace {

constexpr char rehearsal_schema[] = "tuck.rehearsal/1";

void put_planned(const Plan& plan, LegKind kind, const std::string& name, io::Json& json) {
    double carb = 0, fluid = 0;
    for (const auto& feed : plan.feeds)
        if (feed.leg == kind) {
            carb += feed.carb_g;
            fluid += feed.fluid_ml;
        }
    json[name + "_planned_carb_g"] = std::round(carb);
    json[name + "_planned_fluid_ml"] = std::round(fluid);
    for (const auto& need : plan.needs)
        if (need.kind == kind)
            json[name + "_asked_carb_g_per_h"] = need.carb_g_per_h;
}

std::string foods_of(const Plan& plan) {
    std::vector<std::string> foods;
    std::string text;
    for (const auto& feed : plan.feeds)
        for (const auto& item : feed.items)
            if (item.food != "water_tap" && std::find(foods.begin(), foods.end(), item.food) == foods.end()) {
                foods.push_back(item.food);
                text += (text.empty() ? "" : ",") + item.food;
            }
    return text;
}

} // namespace

io::Json race_as_planned(const Asked& asked, const Plan& plan, const std::map<std::string, double>& took) {
    io::Json json = {{"event_name", plan.event_name},
                     {"planned_carb_g", std::round(plan.totals.carb_g)},
                     {"planned_fluid_ml", std::round(plan.totals.fluid_ml)},
                     {"planned_temperature_c", asked.event.weather.temperature_c},
                     {"temperature_c", asked.event.weather.temperature_c},
                     {"foods", foods_of(plan)},
                     {"legs", io::Json::array()}};
    for (const auto& duration : plan.durations) {
        if (is_transition(duration.kind))
            continue;
        const std::string sport = to_string(duration.kind);
        const auto time = took.find(sport);
        const double time_s = time == took.end() ? 0 : time->second;
        const auto why = time_s > 0
                             ? io::unbelievable(io::sport_of(duration.kind), duration.distance_m, time_s)
                             : std::string();
        if (!why.empty())
            throw Error("--" + sport + "-took", "", why);
        json["legs"].push_back(
            {{"sport", sport},
             {"distance_m", duration.distance_m},
             {"time_s", time_s},
             {"planned_s", std::round(duration.time.p50_s)},
             {"ascent_m",
              asked.event.legs[static_cast<std::size_t>(duration.leg_index)].ascent_m.value_or(0)}});
        if (duration.kind == LegKind::swim)
            continue;
        json[sport + "_min"] = (time_s > 0 ? time_s : duration.time.p50_s) / 60;
        put_planned(plan, duration.kind, sport, json);
    }
    return json;
}

namespace {

constexpr double longest_min = 2880;

void put_number(io::Node& from, const char* key, double low, double high, const char* unit, io::Json& out,
                const std::string& name = "") {
    if (const auto value = from.number(key, low, high, unit))
        out[name + key] = *value;
}

void put_part(io::Node& part, io::Json& out) {
    if (!part.has("leg"))
        part.missing("leg");
    const auto leg = part.choice<std::string>("leg", {{"bike", "bike_"}, {"run", "run_"}});
    if (!leg)
        return;
    out[*leg + "min"] = part.number("minutes", 0, longest_min, "min").value_or(0);
    put_number(part, "asked_carb_g_per_h", 0, 150, "g/h", out, *leg);
    put_number(part, "planned_carb_g", 0, 3000, "g", out, *leg);
    put_number(part, "planned_fluid_ml", 0, 20000, "ml", out, *leg);
}

} // namespace

io::Json session_as_asked(const Document& rehearsal) {
    const auto json = io::read_json(rehearsal);
    if (!json.is_object() || !json.contains("schema") || json["schema"] != rehearsal_schema)
        throw Error(rehearsal.name, "", "is no rehearsal; it is made by: tuck rehearse ... --json");
    std::vector<io::Fault> faults;
    io::Node node(json, rehearsal.name, "", faults);
    io::Json out = io::Json::object();
    for (auto& part : node.objects("parts", 2))
        put_part(part, out);
    for (const auto& [key, written] : {std::pair{"bike_min", "ride_min"}, {"run_min", "run_min"}}) {
        const auto minutes = node.number(written, 0, longest_min, "min");
        if (!out.contains(key))
            out[key] = minutes.value_or(0);
    }
    put_number(node, "temperature_c", -20, 50, "C", out);
    put_number(node, "humidity_pct", 0, 100, "%", out);
    put_number(node, "feeds_planned", 0, 500, "", out);
    if (const auto date = node.text("date").value_or(""); !date.empty())
        out["date"] = date;
    std::string foods;
    for (const auto& food : node.texts("foods"))
        foods += (foods.empty() ? "" : ",") + food;
    if (!foods.empty())
        out["foods"] = foods;
    if (!faults.empty())
        throw Error(faults);
    return out;
}

namespace {

bool has_number(const io::Json& json, const std::string& key) {
    return json.contains(key) && json[key].is_number();
}

/// Of the feeds; 1 where they were not counted.
double share_taken(const io::Json& json) {
    if (!has_number(json, "feeds_planned") || !has_number(json, "feeds_taken"))
        return 1;
    const double planned = json["feeds_planned"].get<double>();
    return planned > 0 ? json["feeds_taken"].get<double>() / planned : 1;
}

} // namespace

Completed completed(EntryKind kind, io::OptionTexts& texts, io::Json fields) {
    Completed out;
    const auto taken = texts.find("--taken");
    const bool all = taken != texts.end() && taken->second == "all";
    if (all)
        texts.erase(taken);
    std::vector<io::Fault> faults; // are told when the entry is read
    auto typed = io::laid_over(kind, texts, fields, faults);
    if (all && has_number(typed, "feeds_planned"))
        typed["feeds_taken"] = fields["feeds_taken"] = typed["feeds_planned"];
    const double share = share_taken(typed);
    bool granted = false;
    for (const std::string name : {"bike", "run"})
        for (const std::string what : {"carb_g", "fluid_ml"}) {
            const auto key = name + "_" + what, planned = name + "_planned_" + what;
            if (!typed.contains(key) && has_number(typed, planned)) {
                fields[key] = share * typed[planned].get<double>();
                granted = true;
            }
        }
    const bool counted = typed.contains("feeds_taken") || share < 1;
    if (granted && !counted)
        out.notes.push_back(
            "food and drink are taken as planned; say --taken 9.5, or --bike-carb and --bike-fluid");
    for (const std::string name : {"bike", "run"})
        if (has_number(typed, name + "_min") && typed[name + "_min"].get<double>() > 0 &&
            !typed.contains(name + "_symptoms"))
            out.notes.push_back(fmt::format(
                "no mark of the gut was given for the {0}; it counts as none: --{0}-gut nausea=2", name));
    out.fields = fields;
    return out;
}

void pace_as_distance(const std::string& pace, io::Json& test, std::vector<io::Fault>& faults) {
    const auto fault = [&](const std::string& text) { faults.push_back({"--pace", "", text}); };
    const auto sport = test.value("sport", "bike");
    if (sport == "bike")
        return fault("is of a run or a swim; of a ride give --power or --distance");
    if (test.contains("distance_m"))
        return fault("and --distance say the same thing; give one");
    if (!test.contains("minutes"))
        return; // told as missing
    try {
        const double m_per_s = sport == "swim" ? io::swim_speed_m_s(pace) : 1000 / io::pace_s_per_km(pace);
        test["distance_m"] = std::round(m_per_s * 60 * test["minutes"].get<double>());
    } catch (const std::invalid_argument& error) {
        fault(error.what());
    }
}

} // namespace tuck::ask
