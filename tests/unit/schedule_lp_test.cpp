// The file that other solvers read says the same as the rules and prices do, choice by choice: on tiny races
// every fifth choice of lines is put into its rows. That those solvers agree on whole days is
// tests/cli/schedule_solver_test.py.
#include "schedule/lp.hpp"
#include "tiny_races.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <optional>
#include <sstream>

using namespace tuck;
using namespace tuck::schedule;

namespace {

/// A sum of integer multiples of variables.
using Terms = std::vector<std::pair<size_t, std::int64_t>>;

struct Row {
    Terms terms;
    std::string sign;
    std::int64_t right = 0;
};

/// The part of the CPLEX LP format that is written: sums of integer multiples, three signs, binaries.
struct File {
    std::map<std::string, size_t> variables;
    Terms objective;
    std::vector<Row> rows;
    std::vector<bool> binary;

    explicit File(const std::string& text) {
        std::istringstream words(text.substr(text.find("Minimize")));
        std::string word;
        words >> word >> word; // obj:
        REQUIRE(sum(words, objective) == "Subject");
        words >> word;
        for (words >> word; word != "Binaries"; words >> word) {
            Row row;
            row.sign = sum(words, row.terms);
            words >> row.right;
            rows.push_back(row);
        }
        binary.resize(variables.size());
        for (words >> word; word != "End"; words >> word)
            if (const auto found = variables.find(word); found != variables.end())
                binary[found->second] = true;
    }

    /// The word behind it.
    std::string sum(std::istringstream& words, Terms& out) {
        std::string sign, name;
        std::int64_t times = 0;
        while (words >> sign && (sign == "+" || sign == "-")) {
            words >> times >> name;
            out.emplace_back(variables.try_emplace(name, variables.size()).first->second,
                             sign == "+" ? times : -times);
        }
        return sign;
    }
};

/// What a choice costs; nothing where it breaks a row or the file has no such line. Variables that are no
/// lines have a price each, so they are as small as their rows let them be: the first that mends a row is
/// raised.
std::optional<std::int64_t> cost_in(const File& file, const std::vector<std::string>& lines) {
    std::vector<std::int64_t> values(file.variables.size());
    for (const auto& line : lines) {
        const auto found = file.variables.find(line);
        if (found == file.variables.end() || !file.binary[found->second])
            return std::nullopt;
        values[found->second] = 1;
    }
    for (const auto& row : file.rows) {
        std::int64_t over = -row.right;
        for (const auto& [variable, times] : row.terms)
            over += times * values[variable];
        if (over == 0 || (row.sign == "<=" && over < 0) || (row.sign == ">=" && over > 0))
            continue;
        const auto mends = std::find_if(row.terms.begin(), row.terms.end(), [&](const auto& term) {
            return !file.binary[term.first] && (over > 0) == (term.second == -1);
        });
        if (mends == row.terms.end())
            return std::nullopt;
        values[mends->first] += std::abs(over);
    }
    std::int64_t cost = 0;
    for (const auto& [variable, times] : file.objective)
        cost += times * values[variable];
    return cost;
}

/// What the file calls the lines of a leg.
class Names {
public:
    explicit Names(const LegProgram& leg) : drinks_(drink_lines(leg, 0)), items_(item_lines(leg, 0)) {}

    std::vector<std::string> of(const DrinkLine& drink, const std::vector<ItemLine>& items) const {
        std::vector<std::string> out{name("D", drinks_, [&drink](const DrinkLine& line) {
            return line.drink == drink.drink && line.sips == drink.sips && line.step == drink.step &&
                   line.first == drink.first && line.last == drink.last;
        })};
        for (size_t i = 0; i < items.size(); ++i)
            out.push_back(name(i == 0 ? "A" : "B", items_, [&item = items[i]](const ItemLine& line) {
                return line.food == item.food && line.step == item.step && line.first == item.first &&
                       line.last == item.last && line.single == item.single &&
                       line.to_the_end == item.to_the_end;
            }));
        return out;
    }

private:
    template <typename Lines, typename Same>
    static std::string name(const char* what, const Lines& lines, const Same& same) {
        return std::string(what) + "_0_0_" +
               std::to_string(std::find_if(lines.begin(), lines.end(), same) - lines.begin());
    }

    std::vector<DrinkLine> drinks_;
    std::vector<ItemLine> items_;
};

} // namespace

TEST_CASE("the file for other solvers allows what is legal and prices it alike, choice by choice",
          "[schedule][lp]") {
    int choices = 0, allowed = 0, forbidden = 0;
    for (unsigned seed = 1; seed <= 60; ++seed) {
        const auto program = tiny(seed);
        const File file(lp_text(program, {}));
        const Names names(program.legs[0]);
        walk(program, [&](const DrinkLine& drink, const std::vector<ItemLine>& items) {
            if (++choices % 5 != 0)
                return;
            const auto cost = cost_in(file, names.of(drink, items));
            const bool may = legal(program, drink, items);
            INFO("seed " << seed << ", drink line of " << drink.sips << " every " << drink.step << ", "
                         << items.size() << " item lines");
            if (may != cost.has_value() || (may && *cost != price_by_definition(program, drink, items)))
                CHECK((cost ? *cost : -1) == (may ? price_by_definition(program, drink, items) : -1));
            ++(may ? allowed : forbidden);
        });
    }
    CHECK(allowed > 1000); // the races are not trivial
    CHECK(forbidden > 1000);
}

TEST_CASE("what is fixed counts in the hour that holds it and in no other", "[schedule][lp]") {
    int looked = 0;
    for (unsigned seed = 1; seed <= 40; ++seed) {
        auto program = tiny(seed);
        FixedItem item;
        const auto& grid = program.legs[0].grids[0];
        item.at_s = grid.slots[seed % 2 == 0 ? 0 : grid.regular - 1].at_s; // in the first hour, or the last
        item.clock_s = {item.at_s, item.at_s, item.at_s};
        item.amounts[carb] = 20'000;
        program.fixed = {item};
        const File file(lp_text(program, {}));
        const auto& hours = program.legs[0].hours;
        for (size_t h = 0; h < hours.size(); ++h) {
            const auto low = file.variables.find("low_0_" + std::to_string(h));
            if (low == file.variables.end())
                continue;
            for (const auto& row : file.rows)
                if (std::any_of(row.terms.begin(), row.terms.end(),
                                [&](const auto& term) { return term.first == low->second; })) {
                    ++looked;
                    CHECK(row.right == hours[h].least_mg - (hours[h].holds(item.at_s) ? 20'000 : 0));
                }
        }
    }
    CHECK(looked > 20);
}
