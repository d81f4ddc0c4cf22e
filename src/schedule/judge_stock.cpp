// Rules for what is carried, mixed and handed out.
#include "schedule/frames.hpp"
#include "schedule/judge_rules.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <iterator>
#include <map>
#include <set>

namespace tuck::schedule::judging {

namespace {

constexpr double handed_bottle_ml = figure("kit.handed_bottle_ml"),
                 transition_bottle_ml = figure("kit.transition_bottle_ml"),
                 pockets_hold_g = figure("kit.pockets_hold_g");
constexpr double strong_g_per_ml = figure("menu.strong_drink_g_per_ml");
constexpr double scales_g = 2.5; // half of what grams are rounded to at most
constexpr double half_a_gram = 0.5;

double stretch(const Judged& judged, size_t leg) {
    const auto& time = judged.asked.effort.legs[leg].time;
    return time.p90_s / time.p50_s;
}

bool from_bottle(const FeedItem& item) {
    return is_drink(item) && item.from.size() > 1 && item.from[0] == 'B' && std::isdigit(item.from[1]) != 0;
}

/// Own drink of one leg, ml, for which `which` holds.
template <typename Which>
double drunk_ml(const Judged& judged, size_t leg, const Which& which) {
    double ml = 0;
    for (const auto& feed : judged.asked.schedule.feeds)
        if (feed.leg_index == static_cast<int>(leg))
            for (const auto& item : feed.items)
                ml += is_drink(item) && which(feed, item) ? item.amount * sip_ml(judged.asked, item) : 0;
    return ml;
}

bool counted_on(const Judged& judged, size_t leg) {
    const auto& stops = judged.asked.schedule.special_needs;
    return std::any_of(stops.begin(), stops.end(), [leg](const BagStop& stop) {
        return stop.counted_on && stop.leg_index == static_cast<int>(leg);
    });
}

/// All own bottles of the bike, those of a bag only where the plan counts on it.
double bottles_hold_ml(const Judged& judged) {
    const auto kit = kit_in_use(judged.asked.event, judged.asked.effort);
    bool bag = false;
    for (size_t leg = 0; leg < judged.asked.effort.legs.size(); ++leg)
        bag = bag || (judged.asked.effort.legs[leg].kind == LegKind::bike && counted_on(judged, leg));
    double hold = 0;
    for (const double ml : kit.bottles_ml)
        hold += ml;
    for (const double ml : kit.bag_bottles_ml)
        hold += bag ? ml : 0;
    return hold;
}

double mixed_ml(const Judged& judged) {
    double mixed = 0;
    for (const auto& mix : judged.asked.schedule.mix)
        mixed += mix.bottle[0] == 'B' ? mix.volume_ml.count() : 0;
    return mixed;
}

/// Where bottles are handed up on a ride.
std::vector<double> hand_ups_km(const Judged& judged, size_t leg) {
    std::vector<double> out;
    if (judged.asked.effort.legs[leg].kind == LegKind::bike)
        for (const auto& station : stations_of(judged.asked.event, judged.asked.effort, leg))
            if (station.form == ServedIn::bottle)
                out.push_back(station.km);
    return out;
}

} // namespace

void belt(const Judged& judged, Findings& findings) {
    const auto& event = judged.asked.event;
    const int room = kit_in_use(event, judged.asked.effort).run_gels;
    for (size_t leg = 0; leg < judged.asked.effort.legs.size(); ++leg) {
        const bool bag = counted_on(judged, leg);
        int taken = 0, before_bag = 0;
        for (const auto& feed : judged.asked.schedule.feeds)
            if (feed.leg_index == static_cast<int>(leg) && feed.leg == LegKind::run)
                for (const auto& item : feed.items)
                    if (item.from == "belt") {
                        ++taken;
                        before_bag += bag && feed.km < event.legs[leg].special_needs->km - 0.01 ? 1 : 0;
                    }
        const int all = room + (bag ? event.legs[leg].special_needs->gels : 0);
        if (taken > all || before_bag > room)
            findings.add(static_cast<int>(leg), taken, all, "",
                         fmt::format("{} things to eat out of a belt that holds {}", taken, room));
    }
}

void pockets(const Judged& judged, Findings& findings) {
    for (size_t leg = 0; leg < judged.asked.effort.legs.size(); ++leg) {
        double grams = 0;
        for (const auto& feed : judged.asked.schedule.feeds)
            if (feed.leg_index == static_cast<int>(leg) && feed.leg == LegKind::bike)
                for (const auto& item : feed.items)
                    if (const Food* food = judged.asked.pantry.find(item.food); food && item.from == "pocket")
                        grams += item.amount * food->serving_g;
        if (grams * stretch(judged, leg) > pockets_hold_g + half_a_gram)
            findings.add(static_cast<int>(leg), grams * stretch(judged, leg), pockets_hold_g, "g",
                         fmt::format("{:.0f} g of food on a slow day; pockets hold {:.0f}",
                                     grams * stretch(judged, leg), pockets_hold_g));
    }
}

void bottles(const Judged& judged, Findings& findings) {
    const double hold = bottles_hold_ml(judged);
    bool handed_up = false;
    for (size_t leg = 0; leg < judged.asked.effort.legs.size(); ++leg)
        handed_up = handed_up || !hand_ups_km(judged, leg).empty();
    const double mixed = mixed_ml(judged);
    for (const auto* day : {&judged.likely(), &judged.slow()}) {
        if (handed_up && day->which == Which::p90)
            continue; // what the bottles do not hold is handed up, see `handed`
        double wanted = 0;
        for (const auto& sitting : day->sittings)
            for (const auto& bite : sitting.bites)
                wanted += from_bottle(bite.item) ? bite.item.amount * sip_ml(judged.asked, bite.item) : 0;
        if (wanted > hold + half_a_gram || wanted > mixed + half_a_gram) {
            findings.add(
                -1, wanted, std::min(hold, mixed), "ml",
                fmt::format("{:.0f} ml of own drink on a {} day; the bottles hold {:.0f}, {:.0f} are mixed",
                            wanted, to_string(day->which), hold, mixed));
            return;
        }
    }
}

void flask(const Judged& judged, Findings& findings) {
    const double flask_ml = kit_in_use(judged.asked.event, judged.asked.effort).flask_ml;
    for (size_t leg = 0; leg < judged.asked.effort.legs.size(); ++leg) {
        const auto kind = judged.asked.effort.legs[leg].kind;
        if (kind == LegKind::bike)
            continue;
        const bool run = kind == LegKind::run;
        const double most = run ? flask_ml : transition_bottle_ml;
        const double wanted =
            drunk_ml(judged, leg,
                     [](const PlanFeed&, const FeedItem& item) { return item.from != "station"; }) *
            (run ? stretch(judged, leg) : 1);
        if (wanted > most + half_a_gram)
            findings.add(static_cast<int>(leg), wanted, most, "ml",
                         fmt::format("{:.0f} ml of own drink in the {}; the bottle holds {:.0f}", wanted,
                                     to_string(kind), most));
    }
}

/// Of the stations of each ride that were passed by then one may be missed; on a slow day they also fill up
/// the own bottles, which then last into the next ride.
void handed(const Judged& judged, Findings& findings) {
    const auto handed_up_ml = [](auto stations) {
        return handed_bottle_ml * static_cast<double>(std::max<std::ptrdiff_t>(0, stations - 1));
    };
    for (const auto* day : {&judged.likely(), &judged.slow()}) {
        double own_left = std::min(bottles_hold_ml(judged), mixed_ml(judged)), taken = 0;
        for (const auto& sitting : day->sittings) {
            if (sitting.leg != LegKind::bike)
                continue;
            const auto leg = static_cast<size_t>(sitting.leg_index);
            const auto stations = hand_ups_km(judged, leg);
            double beyond = 0;
            for (const auto& bite : sitting.bites) {
                const double ml = bite.drink ? bite.item.amount * sip_ml(judged.asked, bite.item) : 0;
                const double own = from_bottle(bite.item) ? std::min(ml, own_left) : 0;
                own_left -= own;
                const bool filled_up = from_bottle(bite.item) && !stations.empty(); // else `bottles` tells
                beyond += bite.item.from == "station" || filled_up ? ml - own : 0;
            }
            if (beyond <= half_a_gram)
                continue;
            const auto& way = judged.asked.effort.legs[leg];
            const double km = km_at(way, sitting.at_s * way.time.p50_s / day->lengths_s[leg]);
            const auto passed =
                std::count_if(stations.begin(), stations.end(), [km](double s) { return s <= km + 0.01; });
            double most = handed_up_ml(passed);
            for (size_t before = 0; before < leg; ++before)
                most += handed_up_ml(std::ssize(hand_ups_km(judged, before)));
            if ((taken += beyond) > most + half_a_gram) {
                findings.add(
                    sitting.leg_index, taken, most, "ml",
                    fmt::format("{:.0f} ml handed up by km {:.0f}; {} stations passed", taken, km, passed));
                return;
            }
        }
    }
}

/// What a station hands out is taken where one stands that serves it.
void station(const Judged& judged, Findings& findings) {
    for (const auto& feed : judged.asked.schedule.feeds) {
        if (feed.leg != LegKind::run)
            continue;
        const auto stations =
            stations_of(judged.asked.event, judged.asked.effort, static_cast<size_t>(feed.leg_index));
        for (const auto& item : feed.items) {
            const bool here = std::any_of(stations.begin(), stations.end(), [&](const Station& s) {
                const bool serves = item.food == "water_tap" ||
                                    std::find(s.serves.begin(), s.serves.end(), item.food) != s.serves.end();
                return serves && std::abs(s.km - feed.km) < 0.01;
            });
            if (item.from == "station" && !here)
                findings.add(feed.leg_index, feed.km, 0, "km",
                             fmt::format("no station hands out {} at km {:.1f}", item.food, feed.km));
        }
    }
}

void carried(const Judged& judged, Findings& findings) {
    std::map<std::string, double> left;
    for (const auto& row : judged.asked.schedule.carry)
        left[row.food] += row.amount;
    for (const auto& feed : judged.asked.schedule.feeds)
        for (const auto& item : feed.items)
            if (!is_drink(item) && item.from != "station")
                left[item.food] -= item.amount;
    for (const auto& [food, amount] : left)
        if (amount < -1e-6)
            findings.add(-1, -amount, 0, "", fmt::format("{:g} more of {} eaten than packed", -amount, food));
}

/// One recipe for each bottle, of a strength that a gut takes; nothing mixed is drunk without a recipe.
void recipe(const Judged& judged, Findings& findings) {
    std::set<std::string> names;
    for (const auto& mix : judged.asked.schedule.mix) {
        if (!names.insert(mix.bottle).second)
            findings.add(-1, 2, 1, "", fmt::format("two recipes for {}", mix.bottle));
        double carb_g = 0, off_g = 0;
        for (const auto& part : mix.add)
            if (const Food* food = judged.asked.pantry.find(part.food)) {
                carb_g += food->carb_g / food->serving_g * part.grams;
                off_g += food->carb_g / food->serving_g * scales_g;
            }
        const double most = strong_g_per_ml * mix.volume_ml;
        if (!judged.asked.need.limits.strong_drink && carb_g > most + off_g)
            findings.add(-1, carb_g, most, "g",
                         fmt::format("{}: {:.0f} g in {:.0f} ml; at most {:.0f} before stronger is rehearsed",
                                     mix.bottle, carb_g, mix.volume_ml, most));
    }
    for (const auto& feed : judged.asked.schedule.feeds)
        for (const auto& item : feed.items)
            if (is_drink(item) && item.from != "station" && !names.contains(item.from))
                findings.add(feed.leg_index, 0, 0, "",
                             fmt::format("no recipe for {} out of {}", item.food, item.from));
}

} // namespace tuck::schedule::judging
