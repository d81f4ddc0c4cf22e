// Rows of at most 14 characters: nothing is lost, and what was shortened is in the legend.
#include "card/card_rows.hpp"

#include "card_plans.hpp"

#include <catch2/catch.hpp>

#include <set>

using namespace tuck;
using namespace tuck::faces;

namespace {

Plan plan_with(const std::vector<Line>& lines) {
    Plan plan;
    plan.lines = lines;
    return plan;
}

std::vector<std::string> rows(const Plan& plan, int leg, RowForm form = RowForm::one_each) {
    std::vector<std::string> out;
    for (const CardRow& row : leg_rows(plan, leg, form).rows) {
        out.insert(out.end(), row.above.begin(), row.above.end());
        out.push_back(row.when + " | " + row.what);
    }
    return out;
}

std::string legend(const Plan& plan, int leg) {
    std::string out;
    for (const LegendEntry& entry : leg_rows(plan, leg).legend)
        out += entry.sign + "=" + entry.meaning + ";";
    return out;
}

using Rows = std::vector<std::string>;

} // namespace

TEST_CASE("A row that fits is left as it is", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "0:20 0:50", "gel")});
    CHECK(rows(plan, 2) == Rows{"0:20 0:50 | gel"});
    CHECK(legend(plan, 2).empty());
}

TEST_CASE("Rows are shortened by the legend, as far as the longest asks", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "every 15'", "5 swallows B1"),
                                 example::line(2, LegKind::bike, "0:15 1:15", "iso gel"),
                                 example::line(4, LegKind::run, "each station", "1 cup water"),
                                 example::line(4, LegKind::run, "km 5.4", "gel + 1 cup water")});
    CHECK(rows(plan, 2) == Rows{"every 15' | 5×B1", "0:15 | iso gel", "1:15 | iso gel"});
    CHECK(legend(plan, 2) == "×=swallows;");
    CHECK(rows(plan, 4) == Rows{"aid | 1c", "km 5.4 | gel+1c"});
    CHECK(legend(plan, 4) == "1c=1 cup water;aid=each station;");
}

TEST_CASE("A list of moments becomes one row each, in order, with the bottle of that moment", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "0:15 0:45 3:15", "gel + 5 swallows B1 then B2"),
                           example::line(2, LegKind::bike, "2:45", "caf gel + 5 swallows B2")});
    CHECK(rows(plan, 2) == Rows{"0:15 | GEL+5×B1", "0:45 | GEL+5×B1", "2:45 | CG+5×B2", "3:15 | GEL+5×B2"});
    CHECK(legend(plan, 2) == "GEL=gel;×=swallows;CG=caf gel;");
}

TEST_CASE("A rhythm with an end keeps its end", "[card]") {
    const Plan plan =
        plan_with({example::line(2, LegKind::bike, "every 20' to 5:40", "1/2 bar + 2 swallows B1 then B2"),
                   example::line(4, LegKind::run, "every 2nd station", "2 cups iso drink")});
    CHECK(rows(plan, 2) == Rows{"20'>5:40 | ½ BAR", "20'>5:40 | 2×B"});
    CHECK(legend(plan, 2) == "BAR=bar;×=swallows;B=B1 then B2;20'>5:40=every 20' to 5:40;");
    CHECK(rows(plan, 4) == Rows{"2nd aid | 2c ID"});
}

TEST_CASE("What falls on one moment is one row, food first", "[card]") {
    // One action at one moment is one glance: common practice, no source.
    const Plan plan = plan_with({example::line(4, LegKind::run, "km 4 10 16", "2 cups water"),
                                 example::line(4, LegKind::run, "km 4 10", "gel")});
    CHECK(rows(plan, 4) == Rows{"km 4 | gel+2c", "km 10 | gel+2c", "km 16 | 2c"});
    CHECK(rows(plan, 4, RowForm::listed) == Rows{"km 4 10 | gel+2c", "km 16 | 2c"});
}

TEST_CASE("Rows of single moments stand in the order of the day", "[card]") {
    // Read from top to bottom, as the contract's reading order.
    const Plan plan = plan_with({example::line(4, LegKind::run, "km 2 6 10", "1 cup iso drink"),
                                 example::line(4, LegKind::run, "km 4 8", "gel")});
    CHECK(rows(plan, 4) == Rows{"km 2 | 1c ID", "km 4 | GEL", "km 6 | 1c ID", "km 8 | GEL", "km 10 | 1c ID"});
}

TEST_CASE("A rhythm that begins later stands where it begins", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "every 20' from 1:40 to 2:40", "1/2 bar"),
                           example::line(2, LegKind::bike, "0:30 0:50", "1/2 bar")});
    CHECK(rows(plan, 2) == Rows{"0:30 | ½ bar", "0:50 | ½ bar", "1:40 to 2:40", "20' | ½ bar"});
}

TEST_CASE("Where room is short, moments of one kind are a list of whole lines", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "0:40 1:00 1:40 2:00 2:40 3:22", "iso gel"),
                                 example::line(4, LegKind::run, "km 4 10 16 22 28", "gel")});
    CHECK(rows(plan, 2).size() == 6);
    CHECK(rows(plan, 2, RowForm::listed) == Rows{"0:40 1:00 1:40", "2:00 2:40 3:22", " | iso gel"});
    CHECK(rows(plan, 4, RowForm::listed) == Rows{"km 4 10 16 22", "28 | gel"});
    CHECK(lines_of(leg_rows(plan, 2, RowForm::listed).rows) == 3);
}

TEST_CASE("A window stands above its rhythm, in whole words", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "every 30' from 0:15 to 5:15", "1/2 bar"),
                                 example::line(4, LegKind::run, "every 2nd station from km 4", "2 cups water"),
                                 example::line(6, LegKind::run, "each station from km 2 to km 38", "1 cup cola")});
    CHECK(rows(plan, 2) == Rows{"0:15 to 5:15", "30' | ½ bar"});
    CHECK(rows(plan, 4) == Rows{"from km 4", "2nd aid | 2c"});
    CHECK(rows(plan, 6) == Rows{"km 2 to 38", "aid | 1c cola"});
}

TEST_CASE("Two foods never share a sign", "[card]") {
    const Plan plan = plan_with({example::line(2, LegKind::bike, "every 20' from 0:40", "1/2 barley cake + 2 swallows B1"),
                                 example::line(2, LegKind::bike, "every 20' from 0:30", "bright cake + 2 swallows B1")});
    std::set<std::string> signs;
    for (const LegendEntry& entry : leg_rows(plan, 2).legend)
        CHECK(signs.insert(entry.sign).second);
    CHECK_THAT(legend(plan, 2), Catch::Matchers::Contains("BC=barley cake"));
}

TEST_CASE("A drink of a named bottle keeps its name short, and no sign means two things", "[card]") {
    const Plan plan =
        plan_with({example::line(2, LegKind::bike, "every 15' to 2:00", "5 swallows B1 then B2"),
                   example::line(2, LegKind::bike, "every 15' from 2:15", "5 swallows iso drink"),
                   example::line(2, LegKind::bike, "every 15' from 4:15", "5 swallows B3 then B4")});
    CHECK(rows(plan, 2) == Rows{"15'>2:00 | 5×B", "2:15+15' | 5×ID", "4:15+15' | 5×B3>B4"});
    CHECK_THAT(legend(plan, 2), Catch::Matchers::Contains("B=B1 then B2;"));
    CHECK_THAT(legend(plan, 2), Catch::Matchers::Contains("ID=iso drink;"));
}

TEST_CASE("No row is longer than 14 characters", "[card]") {
    for (const Plan& plan : {example::hot_standard(), example::long_day()})
        for (const int leg : {2, 4})
            for (const RowForm form : {RowForm::one_each, RowForm::listed})
                for (const CardRow& row : leg_rows(plan, leg, form).rows) {
                    INFO(row.when << " " << row.what);
                    CHECK(characters(row) <= 14);
                    for (const std::string& line : row.above)
                        CHECK(line.size() <= 14);
                }
}
