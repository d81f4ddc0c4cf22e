#include "text/rehearsal_json.hpp"

#include "base/rounded.hpp"
#include "text/plan_json.hpp"
#include "text/rehearsal_text.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

namespace tuck::faces {

namespace {

using Json = nlohmann::ordered_json;

Json warnings_json(const std::vector<Warning>& warnings) {
    Json out = Json::array();
    for (const auto& warning : warnings)
        out.push_back(
            {{"code", warning.code}, {"severity", to_string(warning.severity)}, {"text", warning.text}});
    return out;
}

Json parts_json(const Rehearsal& r) {
    Json out = Json::array();
    for (const auto& part : r.parts)
        out.push_back({{"leg", to_string(part.leg)},
                       {"minutes", tenth(part.minutes)},
                       {"asked_carb_g_per_h", tenth(part.asked_carb_g_per_h)},
                       {"planned_carb_g", tenth(part.planned_carb_g)},
                       {"planned_fluid_ml", tenth(part.planned_fluid_ml)},
                       {"carb_g_per_h", tenth(part.carb_g_per_h())},
                       {"race_carb_g_per_h", tenth(part.race_carb_g_per_h)}});
    return out;
}

Json series_json(const RehearsalSeries& series) {
    Json days = Json::array();
    for (const auto& day : series.days)
        days.push_back({{"date", day.date},
                        {"carb_g_per_h", tenth(day.carb_g_per_h)},
                        {"as_race_day", day.as_the_race},
                        {"text", day.text}});
    return {{"days", days}, {"reached_g_per_h", tenth(series.reached_g_per_h)}, {"notes", series.notes}};
}

} // namespace

std::string rehearsal_json(const Rehearsal& r, const Plan& plan, const RehearsalSeries* series) {
    Json out{{"schema", "tuck.rehearsal/1"}};
    out["title"] = rehearsal_title(r);
    out["date"] = plan.date;
    out["temperature_c"] = tenth(plan.weather.temperature_c);
    if (plan.weather.humidity_pct)
        out["humidity_pct"] = tenth(*plan.weather.humidity_pct);
    out["ride_min"] = tenth(r.ride_min);
    out["run_min"] = tenth(r.run_min);
    out["asked_carb_g_per_h"] = tenth(r.session_carb_g_per_h);
    out["race_carb_g_per_h"] = tenth(r.race_carb_g_per_h);
    out["as_the_race"] = r.as_the_race;
    out["as_race_day"] = r.as_race_day;
    out["falls_short"] = r.falls_short;
    out["parts"] = parts_json(r);
    out["feeds_planned"] = plan.feeds.size();
    out["foods"] = r.foods;
    out["because"] = Json::array();
    for (const auto& reason : r.because)
        out["because"].push_back({{"text", reason.text}, {"source", reason.source}});
    out["warnings"] = warnings_json(r.warnings);
    out["before"] = r.before;
    out["during"] = r.during;
    out["after"] = r.after;
    out["plan"] = Json::parse(plan_json(plan));
    if (series)
        out["series"] = series_json(*series);
    return out.dump(2) + "\n";
}

} // namespace tuck::faces
