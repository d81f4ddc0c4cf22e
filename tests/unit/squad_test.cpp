// The summary of a squad: risks first, and nothing private.
#include "text/squad_summary.hpp"

#include "card_plans.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace tuck;
using namespace tuck::faces;
using Catch::Matchers::Contains;

namespace {

std::string joined(const std::vector<std::string>& cells) {
    std::string out;
    for (const std::string& cell : cells)
        out += cell + "|";
    return out;
}

} // namespace

TEST_CASE("Drinking too much stands on top", "[squad]") {
    Plan calm = example::hot_standard(), drinks = calm, refused = calm, dry = calm, light = calm;
    drinks.outlook.water_gain_over_1pct = 0.12;
    refused.refused = true;
    light.outlook.low_sodium_by_drinking = 0.02;
    dry.warnings = {{"water_loss", Severity::caution, ""}, {"glycogen", Severity::caution, ""}};
    std::vector<std::pair<std::string, SquadRisk>> all{{"calm", squad_risk(calm)},
                                                       {"dry", squad_risk(dry)},
                                                       {"light", squad_risk(light)},
                                                       {"drinks", squad_risk(drinks)},
                                                       {"refused", squad_risk(refused)}};
    std::sort(all.begin(), all.end(),
              [](const auto& a, const auto& b) { return riskier(a.second, b.second); });
    std::string order;
    for (const auto& [name, risk] : all)
        order += name + " ";
    CHECK(order == "refused drinks light dry calm ");
}

TEST_CASE("The line names the missing fact", "[squad]") {
    Athlete athlete;
    CHECK_THAT(joined(squad_line(2, athlete, example::sprint(), false)),
               Contains("|sweat test; rehearsal; level or result|"));
    athlete.sweat = MeasuredSweat{900, {}, {}, {}};
    athlete.rehearsed.carb_g_per_h = 60;
    athlete.level = Level::keen;
    CHECK_THAT(joined(squad_line(2, athlete, example::sprint(), false)), !Contains("sweat test"));
}

TEST_CASE("No mass and no health, unless asked for", "[squad]") {
    Athlete athlete;
    athlete.mass_kg = 61.25;
    athlete.health.glucose_lowering_medicine = true;
    Plan plan = example::hot_standard();
    plan.warnings = {{"ask_clinic", Severity::danger, "insulin"}, {"minor", Severity::caution, "under 18"}};
    const std::string line = joined(squad_line(2, athlete, plan, false));
    for (const char* forbidden : {"61.25", "clinic", "insulin", "minor", "18", "medicine"})
        CHECK_THAT(line, !Contains(forbidden));
    CHECK(squad_line(2, athlete, plan, false).size() == squad_heads(false).size());
    CHECK_THAT(joined(squad_line(2, athlete, plan, true)),
               Contains("61.25") && Contains("glucose-lowering medicine"));
    CHECK(squad_line(2, athlete, plan, true).size() == squad_heads(true).size());
}
