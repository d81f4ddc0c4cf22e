#include "schedule/frames.hpp"

#include "base/conditions.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tuck::schedule {

namespace {

// Common practice, no source: moments on the bike at which hands and gut are not ready.
constexpr double before_dismount_s = 5 * 60, solids_after_swim_s = 15 * 60, solids_before_run_s = 30 * 60;
constexpr double cold_air_c = 12, cold_water_c = 16, cold_hands_s = 30 * 60;
constexpr double no_food_before_finish_s = 10 * 60;
constexpr double cup_ml = 80, handed_bottle_ml = 500; // a cup: 60-100 ml swallowed
constexpr double pockets_hold_g = 800; // food on the bike: three pockets or a box and a pocket, our choice
constexpr double typical_run_km = 2.0, typical_bike_km = 20.0;
constexpr double bike_stations_from_m = 60e3;

bool follows(const Effort& effort, size_t leg, LegKind kind) {
    for (size_t i = leg + 1; i < effort.legs.size(); ++i)
        if (!is_transition(effort.legs[i].kind))
            return effort.legs[i].kind == kind;
    return false;
}

bool came_before(const Effort& effort, size_t leg, LegKind kind) {
    for (size_t i = 0; i < leg; ++i)
        if (effort.legs[i].kind == kind)
            return true;
    return false;
}

bool off_the_swim(const Effort& effort, size_t leg) {
    while (leg > 0 && is_transition(effort.legs[leg - 1].kind))
        --leg;
    return leg > 0 && effort.legs[leg - 1].kind == LegKind::swim;
}

bool is_last(const Effort& effort, size_t leg) {
    return leg + 1 == effort.legs.size();
}

/// Steady slots on the clock of a leg, from `every_s` on.
std::vector<Slot> clock_slots(const Setting& now, size_t leg, double every_s) {
    const auto& effort = now.effort.legs[leg];
    const bool bike = effort.kind == LegKind::bike;
    const bool swam = came_before(now.effort, leg, LegKind::swim);
    const bool cold = bike && (now.event.weather.temperature_c < cold_air_c ||
                               (swam && water_temperature_c(now.event.weather) < cold_water_c));
    const bool run_next = bike && follows(now.effort, leg, LegKind::run);
    const double end_s = effort.time.p50_s;
    const double last_s = end_s - (bike                       ? before_dismount_s
                                   : is_last(now.effort, leg) ? no_food_before_finish_s
                                                              : 0);
    std::vector<Slot> slots;
    for (double at_s = every_s; at_s <= last_s; at_s += every_s) {
        Slot slot{at_s, at_s * effort.speed_m_s / 1000, true, true};
        slot.item_ok = !cold || at_s >= cold_hands_s;
        slot.solid_ok = slot.item_ok && (!swam || at_s >= solids_after_swim_s) &&
                        (!run_next || at_s <= end_s - solids_before_run_s);
        slots.push_back(slot);
    }
    return slots;
}

/// Every `stride`-th station of a run.
std::vector<Slot> station_slots(const Setting& now, size_t leg, const std::vector<Station>& stations,
                                size_t stride) {
    const auto& effort = now.effort.legs[leg];
    const bool swam = off_the_swim(now.effort, leg);
    std::vector<Slot> slots;
    for (size_t i = stride - 1; i < stations.size(); i += stride) {
        const double at_s = stations[i].km * 1000 / effort.speed_m_s;
        const bool food = !is_last(now.effort, leg) || at_s <= effort.time.p50_s - no_food_before_finish_s;
        const bool solid = food && (!swam || at_s >= solids_after_swim_s);
        slots.push_back({at_s, stations[i].km, food, solid});
    }
    return slots;
}

/// Drinks that every station of the leg serves; water where nothing is named.
std::vector<Drink> served_everywhere(const Setting& now, const std::vector<Station>& stations) {
    std::vector<Drink> out;
    const auto on_all = [&stations](const std::string& id) {
        return std::all_of(stations.begin(), stations.end(), [&id](const Station& s) {
            return std::find(s.serves.begin(), s.serves.end(), id) != s.serves.end();
        });
    };
    for (const auto& id : stations.front().serves) {
        const Food* food = now.pantry.find(id);
        const bool caffeine_ok = food && (food->caffeine_mg <= 0 || now.need.limits.caffeine_dose_mg > 0);
        if (food && food->form == Form::drink && food->id != "water_tap" && caffeine_ok && on_all(id) &&
            allowed(now.athlete, *food, now.need.limits))
            out.push_back(served_drink(food));
    }
    out.push_back(served_drink(now.pantry.find("water_tap")));
    return out;
}

void frame_bike(const Setting& now, size_t leg, LegFrame& frame) {
    const Hands hands = hands_of(now.athlete);
    if (hands == Hands::none)
        return;
    for (const auto& [minutes, points] : {std::pair{10.0, 40}, {15.0, 0}, {20.0, 3}, {30.0, 6}})
        frame.rhythms.push_back({minutes * 60, clock_slots(now, leg, minutes * 60), points});
    if (hands == Hands::bottle_and_food) {
        frame.solids = now.menu.solids;
        frame.soft = now.menu.gels;
    }
    frame.drinks = now.menu.bottles;
    const auto& time = now.effort.legs[leg].time;
    for (const double ml : now.kit.bottles_ml)
        frame.supply.own_ml += ml;
    frame.supply.own_ml /= time.p90_s / time.p50_s; // supplies last to p90
    frame.most_food_g = pockets_hold_g / (time.p90_s / time.p50_s);
    const auto stations = stations_of(now.event, now.effort, leg);
    for (const auto& station : stations)
        if (station.form == ServedIn::bottle)
            frame.supply.stations_s.push_back(station.km * 1000 / now.effort.legs[leg].speed_m_s);
    if (!frame.supply.stations_s.empty()) {
        frame.supply.per_station_ml = handed_bottle_ml / (time.p90_s / time.p50_s);
        frame.station_drink = served_everywhere(now, stations).front();
    }
}

void frame_run(const Setting& now, size_t leg, LegFrame& frame) {
    const auto stations = stations_of(now.event, now.effort, leg);
    frame.soft = now.menu.run_food;
    frame.most_items = now.kit.run_gels;
    if (!stations.empty()) {
        for (size_t stride = 1; stride <= 3; ++stride)
            frame.rhythms.push_back({0, station_slots(now, leg, stations, stride), stride > 1 ? 5 : 0});
        frame.drinks = served_everywhere(now, stations);
        frame.sip_ml = cup_ml;
        frame.sip_unit = "cup";
        frame.most_sips = 2;
        frame.supply.own_ml = std::numeric_limits<double>::infinity();
        return;
    }
    for (const auto& [minutes, points] : {std::pair{15.0, 0}, {20.0, 0}, {30.0, 0}})
        frame.rhythms.push_back({minutes * 60, clock_slots(now, leg, minutes * 60), points});
    frame.drinks = now.menu.bottles;
    const auto& time = now.effort.legs[leg].time;
    frame.supply.own_ml = now.kit.flask_ml / (time.p90_s / time.p50_s);
    if (now.kit.flask_ml <= 0)
        frame.most_sips = 0;
}

/// Riders who keep both hands on the bar drink in transition; those who take only the bottle get their gel
/// there.
void frame_transition(const Setting& now, size_t leg, LegFrame& frame) {
    const Hands hands = hands_of(now.athlete);
    const bool first = now.effort.legs[leg].kind == LegKind::t1;
    if (hands == Hands::bottle_and_food || (first && hands == Hands::bottle))
        return;
    frame.rhythms = {{0, {{frame.duration_s / 2, 0, !first, false}}, 0}};
    frame.soft = first ? std::vector<Portion>{} : now.menu.gels;
    frame.drinks = now.menu.bottles;
    frame.supply.own_ml = handed_bottle_ml;
    // What one gel brings: the transition has no rate of its own.
    frame.carb_g_per_h = 25 / (frame.duration_s / 3600);
}

} // namespace

KitInUse kit_in_use(const Event& event, const Effort& effort) {
    double bike_m = 0;
    for (const auto& leg : effort.legs)
        if (leg.kind == LegKind::bike)
            bike_m = std::max(bike_m, leg.distance_m);
    KitInUse kit;
    kit.bottles_assumed = !event.kit.bike_bottles_ml && bike_m > 0;
    if (event.kit.bike_bottles_ml)
        kit.bottles_ml = *event.kit.bike_bottles_ml;
    else if (bike_m > 0)
        kit.bottles_ml = bike_m > 60e3   ? std::vector<double>{750, 750}
                         : bike_m > 25e3 ? std::vector<double>{750}
                                         : std::vector<double>{500};
    kit.flask_ml = event.kit.run_flask_ml.value_or(0);
    kit.run_gels_assumed = !event.kit.run_gels;
    kit.run_gels = event.kit.run_gels.value_or(2);
    return kit;
}

std::vector<Station> stations_of(const Event& event, const Effort& effort, size_t leg) {
    if (!event.legs[leg].stations.empty() || event.station_policy == StationPolicy::as_given)
        return event.legs[leg].stations;
    const auto& l = effort.legs[leg];
    const bool bike = l.kind == LegKind::bike && l.distance_m >= bike_stations_from_m;
    if (!bike && l.kind != LegKind::run)
        return {};
    const double spacing_km = bike ? typical_bike_km : typical_run_km;
    std::vector<Station> out;
    for (double km = spacing_km; km <= l.distance_m / 1000 - 0.5; km += spacing_km)
        out.push_back(
            {km, {"water_tap", "sports_drink_rtd"}, bike ? ServedIn::bottle : ServedIn::cup, std::nullopt});
    return out;
}

LegFrame frame_of(const Setting& now, size_t leg, double start_s) {
    LegFrame frame;
    frame.leg = leg;
    frame.kind = now.effort.legs[leg].kind;
    frame.start_s = start_s;
    frame.duration_s = now.effort.legs[leg].time.p50_s;
    frame.carb_g_per_h = now.need.legs[leg].carb_g_per_h;
    frame.fluid_aim_ml_per_h = now.need.legs[leg].fluid_aim_ml_per_h;
    frame.sip_ml = now.athlete.swallow_ml;
    frame.caffeine = now.menu.caffeine;
    if (frame.kind == LegKind::bike)
        frame_bike(now, leg, frame);
    else if (frame.kind == LegKind::run)
        frame_run(now, leg, frame);
    else if (is_transition(frame.kind))
        frame_transition(now, leg, frame);
    return frame;
}

} // namespace tuck::schedule
