#include "io/diary_answers.hpp"

#include "base/rounded.hpp"
#include "io/diary_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

namespace tuck::io {

namespace {

using Ordered = nlohmann::ordered_json;

Ordered warnings_json(const std::vector<Warning>& warnings) {
    Ordered out = Ordered::array();
    for (const auto& warning : warnings)
        out.push_back(
            {{"code", warning.code}, {"severity", to_string(warning.severity)}, {"text", warning.text}});
    return out;
}

Ordered known_json(const Known& known, int decimals) {
    return {{"median", rounded(known.median, decimals)},
            {"low", rounded(known.low, decimals)},
            {"high", rounded(known.high, decimals)},
            {"tests", known.tests}};
}

Ordered gut_json(const GutTolerance& gut) {
    return {{"carb_g_per_h", rounded(gut.carb_g_per_h, 1)},
            {"fluid_ml_per_h", rounded(gut.fluid_ml_per_h, 0)},
            {"at_most_g_per_h", rounded(gut.at_most_g_per_h, 1)},
            {"good_at_this_rate", gut.good_at_this_rate},
            {"next_carb_g_per_h", rounded(gut.next_carb_g_per_h, 1)},
            {"stop", gut.stop},
            {"why", gut.why}};
}

Ordered entry_json(const DiaryEntry& entry) {
    return Ordered::parse(json_of(entry).dump());
}

Ordered answer(const char* command) {
    return {{"schema", "tuck.diary-answer/1"}, {"command", command}};
}

} // namespace

std::string learned_json(const Learned& learned) {
    Ordered out{{"schema", "tuck.learned/1"}};
    out["temperature_c"] = rounded(learned.temperature_c, 1);
    out["sport"] = to_string(learned.sport);
    out["sweat_factor"] = known_json(learned.sweat_factor, 3);
    out["sweat_factor_on_run"] = known_json(learned.sweat_factor_on_run, 3);
    out["sodium_mmol_per_l"] = known_json(learned.sodium_mmol_per_l, 1);
    out["bike"] = gut_json(learned.bike);
    out["run"] = gut_json(learned.run);
    out["paces"] = Ordered::array();
    for (const auto& pace : learned.paces)
        out["paces"].push_back({{"sport", to_string(pace.sport)},
                                {"distance_m", rounded(pace.distance_m, 0)},
                                {"time_s", rounded(pace.time_s, 0)}});
    out["foods"] = learned.foods;
    out["sentences"] = learned.sentences;
    out["next"] = Ordered::array();
    for (const auto& next : learned.next)
        out["next"].push_back({{"text", next.text},
                               {"log_sd_now", rounded(next.log_sd_now, 3)},
                               {"log_sd_then", rounded(next.log_sd_then, 3)},
                               {"more_bike_ml_per_h", rounded(next.more_bike_ml_per_h, 0)},
                               {"more_run_ml_per_h", rounded(next.more_run_ml_per_h, 0)}});
    out["warnings"] = warnings_json(learned.warnings);
    return out.dump(2) + "\n";
}

std::string sweat_test_json(const SweatTest& test, const SweatTestResult& r, int line) {
    DiaryEntry entry;
    entry.what = test;
    Ordered out{{"schema", "tuck.sweat-test/1"}};
    out["test"] = entry_json(entry);
    for (const char* key : {"schema", "kind", "date"})
        out["test"].erase(key);
    out["sweat_ml"] = rounded(r.sweat_ml, 0);
    out["sweat_ml_per_h"] = rounded(r.sweat_ml_per_h, 0);
    out["error_ml_per_h"] = rounded(r.error_ml_per_h, 0);
    out["not_sweat_g"] = rounded(r.not_sweat_g, 0);
    out["energy_kcal"] = rounded(r.energy_kcal, 0);
    out["mass_change_kg"] = rounded(r.mass_change_kg, 2);
    out["water_change_ml"] = rounded(r.water_change_ml, 0);
    out["modelled_ml_per_h"] = rounded(r.modelled_ml_per_h, 0);
    if (r.sodium_mmol_per_l) {
        out["sodium_mmol_per_l"] = rounded(*r.sodium_mmol_per_l, 1);
        out["sodium_error_mmol_per_l"] = rounded(r.sodium_error_mmol_per_l, 1);
    }
    out["outlook"] = Ordered::array();
    for (const auto& day : r.outlook)
        out["outlook"].push_back({{"sport", to_string(day.sport)},
                                  {"temperature_c", rounded(day.temperature_c, 1)},
                                  {"sweat_ml_per_h", rounded(day.sweat_ml_per_h, 0)},
                                  {"sweat_low_ml_per_h", rounded(day.sweat_low_ml_per_h, 0)},
                                  {"sweat_high_ml_per_h", rounded(day.sweat_high_ml_per_h, 0)},
                                  {"drink_up_to_ml_per_h", rounded(day.drink_up_to_ml_per_h, 0)}});
    out["because"] = Ordered::array();
    for (const auto& reason : r.because)
        out["because"].push_back({{"text", reason.text}, {"source", reason.source}});
    out["assumptions"] = r.assumptions;
    out["advice"] = r.advice;
    out["warnings"] = warnings_json(r.warnings);
    if (line > 0)
        out["line"] = line;
    return out.dump(2) + "\n";
}

std::string diary_list_json(const std::vector<DiaryEntry>& entries) {
    std::set<int> counts;
    for (const auto& entry : standing_entries(entries))
        counts.insert(entry.id);
    Ordered out = answer("list");
    out["entries"] = Ordered::array();
    for (const auto& entry : entries)
        out["entries"].push_back(
            {{"line", entry.id}, {"counts", counts.count(entry.id) > 0}, {"entry", entry_json(entry)}});
    return out.dump(2) + "\n";
}

std::string saved_json(const char* command, const DiaryEntry& entry,
                       const std::vector<std::string>& changes) {
    Ordered out = answer(command);
    out["line"] = entry.id;
    out["entry"] = entry_json(entry);
    if (!changes.empty())
        out["changes"] = changes;
    return out.dump(2) + "\n";
}

std::string counted_json(const char* command, std::size_t lines, std::size_t of) {
    Ordered out = answer(command);
    out["lines"] = lines;
    out["of"] = of;
    return out.dump(2) + "\n";
}

} // namespace tuck::io
