// Where and when a leg can feed: slots, kit, stations. One frame a leg, ready for the search.
#pragma once

#include "schedule/leg_search.hpp"
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

/// The frame of a leg; no rhythms where nothing can be taken (swim, or hands that stay on the bar).
LegFrame frame_of(const Setting& setting, size_t leg, double start_s);

} // namespace tuck::schedule
