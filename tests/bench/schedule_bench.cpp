// The exact schedule alone: seconds, proven gap and work for seeded races of every named distance. Run by
// hand:
//   build/tests/schedule_bench [RACES] [DISTANCE] [FIRST RACE] [WORK]   (WORK: steps after which the search
//   stops)
#include "io/pantry.hpp"
#include "schedule/frames.hpp"
#include "schedule/lp.hpp"
#include "schedule/solver.hpp"
#include "seeded_races.hpp"
#include "tuck/need.hpp"

#include <cstdlib>
#include <ctime>
#include <fmt/format.h>
#include <fstream>
#include <string>

using namespace tuck;

int main(int argc, char** argv) {
    const int races = argc > 1 ? std::atoi(argv[1]) : 12;
    const std::string only = argc > 2 ? argv[2] : "";
    const auto pantry = io::load_pantry(io::pantry_folder(""));
    for (const char* distance : {"super-sprint", "sprint", "standard", "middle", "long"}) {
        if (!only.empty() && only != distance)
            continue;
        for (int seed = argc > 3 ? std::atoi(argv[3]) : 0; seed < races; ++seed) {
            const auto race = seeded::race(distance, seed);
            const auto effort = estimate_effort(race.athlete, race.event);
            const auto body = describe_body(race.athlete, race.event, effort);
            const auto need = state_need(race.athlete, race.event, effort, body);
            if (!need.fuelling_needed || need.no_rate)
                continue;
            const auto menu = schedule::make_menu(race.athlete, race.event.weather, need.limits, pantry);
            const auto kit = schedule::kit_in_use(race.event, effort);
            const schedule::Setting now{race.athlete, race.event, effort, need, pantry, menu, kit};
            const auto program = schedule::program_of(now);
            const char* folder = std::getenv("TUCK_LP");
            const std::clock_t start = std::clock(); // of the processor: others may share the machine
            const auto solution =
                schedule::solve(program, argc > 4 ? std::atoll(argv[4]) : schedule::usual_work);
            const double ms = 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
            fmt::print("{:12} {:2}  {:9.1f} ms  cost {:8}  bound {:8}  gap {:6.2f} %  work {:.1f} M\n",
                       distance, seed, ms, solution.points, solution.bound,
                       100.0 * static_cast<double>(solution.points - solution.bound) /
                           static_cast<double>(solution.bound),
                       static_cast<double>(solution.work) / 1e6);
            std::fflush(stdout);
            if (folder)
                std::ofstream(fmt::format("{}/{}-{}.lp", folder, distance, seed))
                    << schedule::lp_text(program, solution);
        }
    }
}
