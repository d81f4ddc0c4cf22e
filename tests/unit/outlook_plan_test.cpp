// What the plan and its faces make of the outlook.
#include "plan/stages.hpp"
#include "sheet/sheet_content.hpp"
#include "stage_examples.hpp"
#include "text/plan_json.hpp"
#include "text/plan_text.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace tuck;
using namespace tuck::example;

namespace {

/// A stream whose schedule drinks `ml_per_h(limits)` on land, whatever the need says.
template <typename Drink>
Plan plan_drinking(const Athlete& person, const Event& event, int& runs, const Drink& ml_per_h) {
    return plan::settle([&](const Limits& limits) {
        ++runs;
        plan::Stages s{person, event, estimate_effort(person, event), {}, {}, {}, {}};
        s.body = describe_body(person, event, s.effort);
        s.need = state_need(person, event, s.effort, s.body, limits);
        for (const auto& leg : s.effort.legs)
            for (double at = 600;
                 (leg.kind == LegKind::bike || leg.kind == LegKind::run) && at < leg.time.p50_s; at += 600) {
                PlanFeed feed;
                feed.leg_index = leg.leg_index;
                feed.leg = leg.kind;
                feed.at_s = at;
                feed.fluid_ml = ml_per_h(limits) / 6;
                s.schedule.feeds.push_back(feed);
            }
        s.outlook = look_ahead(person, event, s.effort, s.body, s.schedule);
        return s;
    });
}

Plan middle_plan(double celsius = 24) {
    Event event = race("middle", celsius);
    event.station_policy = StationPolicy::typical;
    event.start_min = 8 * 60;
    return compose_plan(athlete(70, Level::steady), event, pantry());
}

} // namespace

TEST_CASE("a plan that harms is made again, and refused when it harms again", "[outlook][compose]") {
    // practice.md: over-drinking is what a plan is refused for. 1.2 L/h at 8 C is well above any sweat there
    // (Sawka 2007, Table 3, from memory: 0.4-1.3 L/h at 18 C), so it does not hang on the draws.
    const Athlete person = athlete(70, Level::steady);
    const Event event = race("middle", 8);
    int runs = 0;
    const auto stubborn = plan_drinking(person, event, runs, [](const Limits&) { return 1200.0; });
    CHECK(runs == 2);
    CHECK(stubborn.refused);
    CHECK(stubborn.outlook.water_gain_over_1pct > much_gain_limit.refuse);
    REQUIRE_FALSE(stubborn.warnings.empty());
    CHECK(stubborn.warnings.front().code == "refused");
    CHECK(stubborn.warnings.front().severity == Severity::danger);
    // Remedy: less drink; never salt and never another bottle.
    CHECK(stubborn.warnings.front().text.find("thirst") != std::string::npos);
    CHECK(faces::plan_json(stubborn).find("\"refused\": true") != std::string::npos);

    runs = 0;
    const auto obedient = plan_drinking(
        person, event, runs, [](const Limits& limits) { return limits.fluid_scale < 1 ? 150.0 : 1200.0; });
    CHECK(runs == 2);
    CHECK_FALSE(obedient.refused);
    CHECK_FALSE(says(obedient.warnings, "refused"));
    bool told = false;
    for (const auto& need : obedient.needs)
        told |= says(need.because, "lowered");
    CHECK(told);

    runs = 0;
    CHECK_FALSE(plan_drinking(person, event, runs, [](const Limits&) { return 150.0; }).refused);
    CHECK(runs == 1);
}

TEST_CASE("the plan's JSON holds the whole outlook", "[outlook][json]") {
    const auto plan = middle_plan();
    const auto json = nlohmann::json::parse(faces::plan_json(plan));
    const auto& o = json["outlook"];
    for (const char* name :
         {"mass_change_pct", "water_change_pct", "serum_sodium_mmol_per_l", "glycogen_left_g"})
        for (const char* p : {"p05", "p50", "p95"}) {
            INFO(name << " " << p);
            CHECK(o[name][p].is_number());
            CHECK(o["error"][name][p].get<double>() > 0);
        }
    REQUIRE(o["chance"].size() == 9);
    for (const auto& [code, chance] : o["chance"].items()) {
        INFO(code);
        // The error of a share: at most that of an even chance, never nothing.
        CHECK(o["chance_error"][code].get<double>() > 0);
        CHECK(o["chance_error"][code].get<double>() <= 0.5 / std::sqrt(o["days"].get<double>()) + 1e-5);
    }
    // issue 6: the table of limits.
    const auto limit = [&](const std::string& code) {
        for (const auto& row : o["limits"])
            if (row["code"] == code)
                return row;
        return nlohmann::json();
    };
    CHECK(limit("water_gain_over_1pct")["caution"] == 0.05); // practice.md
    CHECK(limit("water_gain_over_1pct")["refuse"] == 0.20);
    CHECK_FALSE(limit("water_gain").contains("caution"));
    CHECK(limit("low_sodium_by_drinking")["caution"] == 0.05);
    CHECK(limit("low_sodium_by_drinking")["refuse"] == 0.10);
    CHECK(limit("stomach_full")["caution"] == 0.10);
    CHECK_FALSE(limit("glycogen_gone").contains("refuse"));
    CHECK_FALSE(limit("water_loss_over_4pct").contains("refuse"));
    // Every five minutes, and the finish, which says the same as the percentiles.
    const auto& bands = o["bands"];
    REQUIRE(bands.size() > 10);
    CHECK(bands[0]["at_s"] == 0);
    for (std::size_t i = 1; i + 1 < bands.size(); ++i)
        CHECK(bands[i]["at_s"].get<double>() - bands[i - 1]["at_s"].get<double>() == Approx(300).margin(60));
    CHECK(bands.back()["at_s"].get<double>() == Approx(json["total"]["p50_s"].get<double>()).margin(1));
    CHECK(bands.back()["mass_change_pct"] == o["mass_change_pct"]);
    CHECK(bands.back()["glycogen_g"] == o["glycogen_left_g"]);
    if (o["worst"]["cause"] == "")
        CHECK(o["worst"]["share"] == 0);
    else
        CHECK(o["worst"]["share"].get<double>() >= 0.10); // rarer things tell nothing
    double before = 1;
    for (const auto& driver : o["drivers"]) {
        CHECK(driver["share"].get<double>() <= before);
        before = driver["share"].get<double>();
    }
}

TEST_CASE("who must not see mass sees no percentage of it", "[outlook][json]") {
    Athlete person = athlete(60, Level::steady);
    person.health.past_eating_disorder = true;
    const auto plan = compose_plan(person, race("standard", 24), pantry());
    const auto o = nlohmann::json::parse(faces::plan_json(plan))["outlook"];
    CHECK_FALSE(o.contains("mass_change_pct"));
    CHECK_FALSE(o.contains("water_change_pct"));
    CHECK_FALSE(o["error"].contains("mass_change_pct"));
    for (const auto& band : o["bands"])
        CHECK_FALSE(band.contains("mass_change_pct"));
    CHECK(faces::explain_text(plan, "outlook").find("body mass down") == std::string::npos);
    CHECK(faces::plan_text(plan).find("of body mass down") == std::string::npos);
}

TEST_CASE("the text says what the day holds, and how sure that is", "[outlook][text]") {
    const auto plan = middle_plan();
    const auto text = faces::plan_text(plan);
    CHECK(text.find("Probably ") != std::string::npos);
    CHECK(text.find("+-") != std::string::npos);
    CHECK(text.find("body water at the finish above the start") != std::string::npos);
    CHECK(text.find("our choice, no source") != std::string::npos);
}

TEST_CASE("explain prints the limits and what drives the spread", "[outlook][explain]") {
    const auto plan = middle_plan();
    const auto text = faces::explain_text(plan, "outlook");
    for (const auto& row : plan.outlook.chances) {
        std::size_t at = text.find(row.what.substr(0, 30));
        INFO(row.what);
        CHECK(at != std::string::npos);
    }
    for (const char* words :
         {"our choice, no source", "caution above 5 %", "refused above 20 %", "Sobol 1993"}) {
        INFO(words);
        CHECK(text.find(words) != std::string::npos);
    }
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(text.find(plan.outlook.drivers[i].input) != std::string::npos);
}

TEST_CASE("the sheet draws the bands", "[outlook][sheet]") {
    const auto plan = middle_plan();
    std::size_t panels = 0, points = 0;
    for (const auto& section : faces::sheet_content(plan).sections)
        for (const auto& item : section.items)
            if (const auto* bands = std::get_if<faces::SheetBands>(&item)) {
                panels += bands->panels.size();
                for (const auto& panel : bands->panels)
                    points += panel.points.size();
            }
    CHECK(panels == 3); // mass, glycogen, gut fluid
    CHECK(points == 3 * plan.outlook.bands.size());
}
