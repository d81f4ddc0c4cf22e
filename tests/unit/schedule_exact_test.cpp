// The proof behind the schedule: equal to plain enumeration on tiny races.
#include "schedule/solver.hpp"
#include "tiny_races.hpp"

#include <catch2/catch.hpp>
#include <limits>

using namespace tuck;
using namespace tuck::schedule;

namespace {

Cost cheapest(const Program& program) {
    Cost best = std::numeric_limits<Cost>::max();
    walk(program, [&](const DrinkLine& drink, const std::vector<ItemLine>& items) {
        if (legal(program, drink, items))
            best = std::min(best, price_by_definition(program, drink, items));
    });
    return best;
}

} // namespace

TEST_CASE("the schedule costs what plain enumeration finds, on a thousand tiny races", "[schedule][exact]") {
    int fed = 0, with_two = 0;
    for (unsigned seed = 1; seed <= 1000; ++seed) {
        const auto program = tiny(seed);
        const auto solution = solve(program);
        REQUIRE(solution.any);
        INFO("seed " << seed);
        CHECK(solution.points == cheapest(program));
        CHECK(solution.bound == solution.points);
        CHECK(solution.points == cost_of(program, program.legs[0], solution.legs[0]));
        CHECK(legal(program, solution.legs[0].drink, solution.legs[0].items));
        fed += solution.legs[0].items.empty() ? 0 : 1;
        with_two += solution.legs[0].items.size() == 2 ? 1 : 0;
        for (const long long work : {200, 3000}) { // in haste: still a plan, and still a bound
            const auto hasty = solve(program, work);
            REQUIRE(hasty.any);
            CHECK(hasty.bound <= solution.points);
            CHECK(hasty.points >= solution.points);
            CHECK(legal(program, hasty.legs[0].drink, hasty.legs[0].items));
        }
    }
    CHECK(fed > 500); // the races are not trivial
    CHECK(with_two > 30);
}
