// Where and when each leg can feed: slots, kit, stations, busy stretches. From the stages before to a
// Program.
#pragma once

#include "schedule/program.hpp"
#include "tuck/event.hpp"
#include "tuck/figures.hpp"

#include <vector>

namespace tuck::schedule {

/// What a tired person keeps in mind of one leg: our choice. A small card may hold less
/// (Event::max_lines_bike).
inline constexpr int usual_bike_lines = 4, usual_run_lines = 3;

/// Bottles on the bike and gels in the belt: as given, or the usual kit for the distance.
struct KitInUse {
    std::vector<double> bottles_ml;
    std::vector<double> bag_bottles_ml; // from the special-needs bag of the bike, named after the others
    bool bottles_assumed = false;
    double flask_ml = 0;
    int run_gels = 2;
    bool run_gels_assumed = false;
};
KitInUse kit_in_use(const Event& event, const Effort& effort);
double longest_ride_m(const Effort& effort);
/// Usual bottles for a ride of this length (common practice, no source).
std::vector<double> usual_bottles_ml(double ride_m);

inline constexpr double cup_ml = figure("kit.cup_ml");

struct Setting {
    const Athlete& athlete;
    const Event& event;
    const Effort& effort;
    const Need& need;
    const Pantry& pantry;
    const Menu& menu;
    const KitInUse& kit;
};

/// The stations of a run at which one stops: of tables that stand less than a minute apart the one that
/// serves most, so that nothing is taken twice.
std::vector<Station> stops(const Setting& setting, size_t leg);

/// What `ml` of a drink bring; one swallow or cup of it as a choice.
Dose sip_of(const Drink& drink, double ml);
DrinkChoice drink_choice(const Drink& drink, double sip_ml);

/// Whether the plan may count on the special-needs bag of this leg: only where what is handed out after it
/// can take its place. Bike: bottles; run: food or a drink with carbohydrate.
bool counts_on_bag(const Setting& setting, size_t leg);

/// The whole day, without fixed items.
Program program_of(const Setting& setting);

/// Places where the gel with caffeine may go, best first: late in the race, where a gel can be taken.
std::vector<FixedItem> caffeine_places(const Setting& setting, const Program& program);

/// What a carried portion uses of each limit.
Amounts carried_amounts(const Portion& portion, LegKind leg);

/// No room for one more item at this time of the leg; before the special-needs bag there is less of it.
bool belt_full(const LegProgram& leg, double at_s);

/// Adds a fixed item: item lines keep 5 minutes from it, and it takes its room in belt or pocket and a line.
void fix(Program& program, const FixedItem& item);

} // namespace tuck::schedule
