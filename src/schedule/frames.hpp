// Where and when each leg can feed: slots, kit, stations, busy stretches. From the stages before to a Program.
#pragma once

#include "schedule/program.hpp"
#include "tuck/event.hpp"

#include <vector>

namespace tuck::schedule {

/// Bottles on the bike and gels in the belt: as given, or the usual kit for the distance.
struct KitInUse {
    std::vector<double> bottles_ml;
    bool bottles_assumed = false;
    double flask_ml = 0;
    int run_gels = 2;
    bool run_gels_assumed = false;
};
KitInUse kit_in_use(const Event& event, const Effort& effort);

/// Stations of a leg: as given, or typical ones if asked for.
std::vector<Station> stations_of(const Event& event, const Effort& effort, size_t leg);

struct Setting {
    const Athlete& athlete;
    const Event& event;
    const Effort& effort;
    const Need& need;
    const Pantry& pantry;
    const Menu& menu;
    const KitInUse& kit;
};

/// The whole day, without fixed items.
Program program_of(const Setting& setting);

/// Places where the gel with caffeine may go, best first: late in the race, where a gel can be taken.
std::vector<FixedItem> caffeine_places(const Setting& setting, const Program& program);

/// What a carried portion uses of each limit.
Amounts carried_amounts(const Portion& portion, LegKind leg);

/// Adds a fixed item: item lines keep 5 minutes from it, and it takes its room in belt or pocket and a line.
void fix(Program& program, const FixedItem& item);

} // namespace tuck::schedule
