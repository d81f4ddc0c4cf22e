// Every value of tests/published through the same registry as `tuck model run`. Provenance: `read` was seen
// in the source, in a copy of it, or as output of an independent open library, and counts; `computed` was
// worked out from an equation that was read and guards the coding; `memory` was not seen.
#include "places.hpp"
#include "tuck/model.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

struct Check {
    std::string id, model, inputs, output, expected, tolerance, ground, unit, source, locator, provenance,
        status, reason;
};

// One line of comma-separated values; a field in double quotes may hold commas, "" stands for a quote.
std::vector<std::string> fields_of(const std::string& line) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"') {
            fields.back() += line[i++];
        } else if (line[i] == '"') {
            quoted = !quoted;
        } else if (line[i] == ',' && !quoted) {
            fields.emplace_back();
        } else {
            fields.back() += line[i];
        }
    }
    return fields;
}

std::vector<Check> checks_in(const std::filesystem::path& file) {
    std::ifstream stream(file);
    std::string line;
    std::getline(stream, line);
    REQUIRE(line == "id,model,inputs,output,expected,tolerance,tolerance_ground,unit,source,locator,"
                    "provenance,status,reason");
    std::vector<Check> checks;
    while (std::getline(stream, line)) {
        const auto f = fields_of(line);
        INFO(file.filename().string() << ": " << line);
        REQUIRE(f.size() == 13);
        checks.push_back({f[0], f[1], f[2], f[3], f[4], f[5], f[6], f[7], f[8], f[9], f[10], f[11], f[12]});
    }
    return checks;
}

std::vector<Check> all_checks() {
    std::vector<std::filesystem::path> files;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(tuck::places::tests()) + "/published")) {
        // field.csv and races.csv have tests of their own: they ask more than one model
        const auto name = entry.path().filename();
        if (entry.path().extension() == ".csv" && name != "field.csv" && name != "races.csv") {
            files.push_back(entry.path());
        }
    }
    std::sort(files.begin(), files.end());
    std::vector<Check> all;
    for (const auto& file : files) {
        const auto checks = checks_in(file);
        all.insert(all.end(), checks.begin(), checks.end());
    }
    return all;
}

tuck::ModelArguments arguments_of(const std::string& inputs) {
    tuck::ModelArguments arguments;
    std::size_t start = 0;
    while (start < inputs.size()) {
        const std::size_t end = std::min(inputs.find(';', start), inputs.size());
        const std::string pair = inputs.substr(start, end - start);
        const std::size_t equals = pair.find('=');
        REQUIRE(equals != std::string::npos);
        arguments[pair.substr(0, equals)] = pair.substr(equals + 1);
        start = end + 1;
    }
    return arguments;
}

double number(const std::string& text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    REQUIRE(error == std::errc());
    REQUIRE(end == text.data() + text.size());
    return value;
}

double evaluate(const Check& check) {
    const tuck::Model* model = tuck::find_model(check.model);
    if (model == nullptr) {
        throw std::invalid_argument("no model named " + check.model);
    }
    const tuck::ModelResult result = tuck::run_model(*model, arguments_of(check.inputs));
    for (const auto& [name, value] : result.values) {
        if (name == check.output) {
            return value;
        }
    }
    throw std::invalid_argument(check.model + " has no output '" + check.output + "'");
}

// The last digit of `expected` is printed; half a unit of rounding in our own number is noise of the
// machine only.
bool agrees(double value, const Check& check) {
    constexpr double noise = 1e-12;
    const double expected = number(check.expected);
    return std::abs(value - expected) <= number(check.tolerance) + noise * std::max(1.0, std::abs(expected));
}

/// What a value touches: people who were measured, instruments and physics, or rules that somebody set.
const char* kind_of(const std::string& model) {
    static const std::set<std::string> rules{
        "carb_guidance", "caffeine_limit", "pre_drink", "wetsuit_limit", "wetsuit_needed_below",
        "longest_swim",  "eu_energy",      "eu_salt",   "eu_sodium"};
    static const std::set<std::string> people{"carb_share_from_intensity",
                                              "glycogen_given",
                                              "exogenous_oxidation",
                                              "distance_to_empty",
                                              "swim_sweat",
                                              "run_sweat",
                                              "whole_body_sweat_sodium",
                                              "sweat_salt",
                                              "sweat_test",
                                              "not_sweat",
                                              "run_off_bike",
                                              "wetsuit_gain",
                                              "heat_factor",
                                              "womens_factor",
                                              "level_split",
                                              "critical_swim_speed",
                                              "riegel_time",
                                              "run_cost_on_slope",
                                              "vo2_on_foot",
                                              "walk_cost_on_slope",
                                              "run_least_cost",
                                              "walk_least_cost",
                                              "swim_power",
                                              "efficiency_from_economy"};
    return rules.count(model) ? "rules" : people.count(model) ? "people" : "instruments and physics";
}

} // namespace

TEST_CASE("published values are reproduced", "[published]") {
    std::size_t counted = 0;
    std::size_t uncounted = 0;
    std::size_t not_reproduced = 0;
    std::set<std::string> ids, sources;
    std::map<std::string, std::size_t> kinds;
    for (const Check& check : all_checks()) {
        const bool known =
            check.provenance == "read" || check.provenance == "computed" || check.provenance == "memory";
        INFO(check.id << " (" << check.source << ", " << check.locator << ")");
        CHECK(known);
        CHECK(ids.insert(check.id).second);
        CHECK_FALSE(check.source.empty());
        CHECK_FALSE(check.ground.empty());
        double value = 0;
        REQUIRE_NOTHROW(value = evaluate(check));
        INFO("got " << fmt::format("{}", value) << ", expected " << check.expected << " +- "
                    << check.tolerance << " " << check.unit);
        if (check.status == "not reproduced") {
            ++not_reproduced;
            CHECK_FALSE(check.reason.empty());
            CHECK_FALSE(agrees(value, check)); // else it belongs among the checked
            fmt::print("not reproduced: {} ({}): {:.6g} against {} {}: {}\n", check.id, check.source, value,
                       check.expected, check.unit, check.reason);
            continue;
        }
        CHECK(check.status == "checked");
        CHECK(agrees(value, check));
        if (check.provenance == "read") {
            ++counted;
            ++kinds[kind_of(check.model)];
            sources.insert(check.source);
        } else {
            ++uncounted;
        }
    }
    fmt::print(
        "published checks: {} values from {} sources (counted); {} from memory or computed run too; {} not "
        "reproduced\n",
        counted, sources.size(), uncounted, not_reproduced);
    fmt::print(
        "of the counted: {} touch people (races.csv and field.csv have more), {} instruments and physics, {} "
        "rules\n",
        kinds["people"], kinds["instruments and physics"], kinds["rules"]);
    CHECK(counted >= 450);
    CHECK(sources.size() >= 40);
}
