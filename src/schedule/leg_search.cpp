#include "schedule/leg_search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tuck::schedule {

namespace {

// Prices, in points (our choice): one gram of carbohydrate off at the end of the leg is 10, beyond a dead
// band of a third of a feed in which it is 2. A line more to remember is worth two grams, another kind of
// food one.
constexpr double points_per_g_end = 10, points_per_g_near = 2, end_dead_band_g = 8;
constexpr double points_per_g_hour = 3, hour_dead_band_g = 15;
constexpr double points_per_ml_fluid = 0.1, points_per_line = 20, points_per_kind = 10, points_per_rank = 2;
constexpr double points_per_dry_min = 1, dry_s = 35 * 60; // longer between two drinks on the bike
constexpr double points_for_one_sip = 30;                 // a single swallow is hardly worth the reach
constexpr double points_per_item = 10; // to find, open and chew, against a swallow from the bottle
constexpr int most_every = 6;

void add(Dose& dose, const Drink& drink, double ml) {
    dose.carb_g += drink.carb_g * ml;
    dose.glucose_g += drink.glucose_g * ml;
    dose.fructose_g += drink.fructose_g * ml;
    dose.sodium_mg += drink.sodium_mg * ml;
    dose.caffeine_mg += drink.caffeine_mg * ml;
    dose.fluid_ml += ml;
}

Dose dose_of(const LegFrame& frame, const Pattern& pattern, const SlotFeed& feed, const Slot& slot) {
    Dose dose = feed.item ? feed.item->dose : Dose{};
    dose.at_s = frame.start_s + slot.at_s;
    add(dose, feed.own_drink ? frame.drinks[pattern.drink] : frame.station_drink, feed.sips * frame.sip_ml);
    return dose;
}

bool takes_item(const Pattern& pattern, const Slot& slot, int i) {
    return slot.item_ok && i >= pattern.offset && (i - pattern.offset) % pattern.every == 0;
}

const Portion* item_at(const LegFrame& frame, const Pattern& pattern, const Slot& slot, int i) {
    if (!takes_item(pattern, slot, i))
        return nullptr;
    if (i == pattern.caffeine_slot)
        return &*frame.caffeine;
    if (pattern.solid >= 0 && slot.solid_ok)
        return &frame.solids[static_cast<size_t>(pattern.solid)];
    if (pattern.soft < 0)
        return nullptr;
    const Portion& soft = frame.soft[static_cast<size_t>(pattern.soft)];
    return soft.solid && !slot.solid_ok ? nullptr : &soft; // on the run, rehearsed solids
}

/// The feed at slot `i` once `own_ml` of the own drink is gone; adds to `own_ml`.
SlotFeed feed_at(const LegFrame& frame, const Pattern& pattern, size_t i, double& own_ml) {
    SlotFeed feed;
    feed.item = item_at(frame, pattern, frame.rhythms[pattern.rhythm].slots[i], static_cast<int>(i));
    feed.sips = feed.item ? pattern.item_sips : pattern.sips;
    feed.feeds = feed.item || feed.sips > 0;
    feed.own_before_ml = own_ml;
    const double ml = feed.sips * frame.sip_ml;
    feed.own_drink = own_ml + ml <= frame.supply.own_ml;
    if (feed.own_drink)
        own_ml += ml;
    return feed;
}

double end_points(double off_g) {
    return points_per_g_near * std::min(off_g, end_dead_band_g) +
           points_per_g_end * std::max(0.0, off_g - end_dead_band_g);
}

class Search {
public:
    Search(const LegFrame& frame, const std::vector<Dose>& before, const IntakeLimits& limits,
           const FluidCurves& curves)
        : frame_(frame), limits_(limits), curves_(curves), doses_(before), settled_(before.size()) {
        best_.blocked.fill(std::numeric_limits<double>::infinity());
        best_.points = points_of_nothing();
        // Whatever the leg before left open is checked together with this one.
        doses_.reserve(settled_ + 64);
    }

    LegChoice run() {
        for (size_t r = 0; r < frame_.rhythms.size(); ++r)
            for (size_t d = 0; d < frame_.drinks.size(); ++d)
                for (int sips = 0; sips <= frame_.most_sips; ++sips)
                    try_foods(r, d, sips);
        return best_;
    }

private:
    double points_of_nothing() const {
        const double hours = frame_.duration_s / 3600;
        double points =
            end_points(frame_.carb_g_per_h * hours) + points_per_ml_fluid * frame_.fluid_aim_ml_per_h * hours;
        for (int h = 1; h <= hours; ++h)
            points += points_per_g_hour * std::max(0.0, frame_.carb_g_per_h * h - hour_dead_band_g);
        return points;
    }

    void try_foods(size_t rhythm, size_t drink, int sips) {
        Pattern pattern;
        pattern.rhythm = rhythm;
        pattern.drink = drink;
        pattern.sips = sips;
        pattern.item_sips = sips;
        if (sips > 0)
            consider(pattern);
        for (pattern.solid = -1; pattern.solid < static_cast<int>(frame_.solids.size()); ++pattern.solid)
            for (pattern.soft = -1; pattern.soft < static_cast<int>(frame_.soft.size()); ++pattern.soft)
                if (pattern.solid >= 0 || pattern.soft >= 0)
                    try_places(pattern);
    }

    void try_places(Pattern pattern) {
        const int slots = static_cast<int>(frame_.rhythms[pattern.rhythm].slots.size());
        for (pattern.item_sips = pattern.sips; pattern.item_sips <= frame_.most_sips; ++pattern.item_sips)
            for (pattern.every = 1; pattern.every <= std::min(most_every, std::max(1, slots));
                 ++pattern.every)
                for (pattern.offset = 0; pattern.offset < std::min(pattern.every, slots); ++pattern.offset)
                    consider(pattern);
    }

    void consider(const Pattern& pattern) {
        const double points = price(pattern);
        if (points >= best_.points)
            return;
        const Rule rule = supplied_ ? broken_rule(doses_, settled_, limits_, curves_) : Rule::supply;
        if (rule != Rule::none) {
            auto& cheapest = best_.blocked[static_cast<size_t>(rule)];
            cheapest = std::min(cheapest, points);
            return;
        }
        best_.pattern = pattern;
        best_.any = true;
        best_.points = points;
        best_.carb_g = carb_g_;
        best_.doses.assign(doses_.begin() + static_cast<std::ptrdiff_t>(settled_), doses_.end());
    }

    /// Lays the doses out and prices them. Leaves doses_, supplied_ and carb_g_ behind.
    double price(const Pattern& pattern) {
        doses_.resize(settled_);
        carb_g_ = 0;
        supplied_ = true;
        double handed_ml = 0, own_ml = 0, points = 0, next_hour_s = 3600;
        double last_drink_s = 0, food_g = 0;
        int items = 0;
        bool solid = false, soft = false, station = false;
        const auto& slots = frame_.rhythms[pattern.rhythm].slots;
        for (size_t i = 0; i < slots.size(); ++i) {
            const auto& slot = slots[i];
            points += hours_passed(slot.at_s, next_hour_s);
            const SlotFeed feed = feed_at(frame_, pattern, i, own_ml);
            if (!feed.feeds)
                continue;
            if (!feed.own_drink)
                handed_ml += feed.sips * frame_.sip_ml;
            if (feed.sips > 0) {
                points += dry_points(slot.at_s - last_drink_s);
                last_drink_s = slot.at_s;
            }
            items += feed.item ? 1 : 0;
            food_g += feed.item ? feed.item->amount * feed.item->food->serving_g : 0;
            station = station || !feed.own_drink;
            if (own_ml + handed_ml > frame_.supply.drunk_by_ml(slot.at_s) || items > frame_.most_items)
                supplied_ = false;
            if (frame_.most_food_g > 0 && food_g > frame_.most_food_g)
                supplied_ = false;
            doses_.push_back(dose_of(frame_, pattern, feed, slot));
            carb_g_ += doses_.back().carb_g;
            // By the list that it comes from: on the run rehearsed solids stand among the soft foods.
            const bool of_solids = feed.item && feed.item->solid && pattern.solid >= 0;
            solid = solid || of_solids;
            soft = soft || (feed.item && !of_solids);
        }
        points += hours_passed(frame_.duration_s + 1, next_hour_s);
        if (doses_.size() == settled_)
            return std::numeric_limits<double>::infinity();
        const double hours = frame_.duration_s / 3600;
        points += end_points(std::abs(frame_.carb_g_per_h * hours - carb_g_));
        points += points_per_ml_fluid * std::max(0.0, frame_.fluid_aim_ml_per_h * hours - own_ml - handed_ml);
        points += points_per_item * items + dry_points(frame_.duration_s - last_drink_s);
        return points + followable_points(pattern, solid, soft, station, own_ml > 0);
    }

    double dry_points(double gap_s) const {
        const bool thirsty = frame_.kind == LegKind::bike && frame_.fluid_aim_ml_per_h > 0;
        return thirsty ? points_per_dry_min * std::max(0.0, gap_s - dry_s) / 60 : 0;
    }

    /// Points for being far from the need's curve at each full hour up to `at_s`.
    double hours_passed(double at_s, double& next_hour_s) const {
        double points = 0;
        for (; next_hour_s <= std::min(at_s, frame_.duration_s); next_hour_s += 3600) {
            const double off_g = std::abs(frame_.carb_g_per_h * next_hour_s / 3600 - carb_g_);
            points += points_per_g_hour * std::max(0.0, off_g - hour_dead_band_g);
        }
        return points;
    }

    double followable_points(const Pattern& pattern, bool solid, bool soft, bool station, bool own) const {
        const int lines = (pattern.sips > 0 ? 1 : 0) + solid + soft + station;
        const int kinds = solid + soft + own;
        double points =
            points_per_line * lines + points_per_kind * kinds + frame_.rhythms[pattern.rhythm].points;
        if (pattern.sips == 1 && frame_.sip_unit == "swallow")
            points += points_for_one_sip;
        if (solid)
            points += points_per_rank * frame_.solids[static_cast<size_t>(pattern.solid)].rank;
        if (soft)
            points += points_per_rank * frame_.soft[static_cast<size_t>(pattern.soft)].rank;
        if (own)
            points += points_per_rank * frame_.drinks[pattern.drink].rank;
        return points;
    }

    const LegFrame& frame_;
    const IntakeLimits& limits_;
    const FluidCurves& curves_;
    std::vector<Dose> doses_;
    size_t settled_;
    bool supplied_ = true;
    double carb_g_ = 0;
    LegChoice best_;
};

} // namespace

double Supply::drunk_by_ml(double at_s) const {
    if (per_station_ml <= 0)
        return own_ml;
    const auto passed =
        std::count_if(stations_s.begin(), stations_s.end(), [at_s](double s) { return s <= at_s; });
    return own_ml + per_station_ml * static_cast<double>(std::max<std::ptrdiff_t>(0, passed - 1));
}

std::vector<SlotFeed> expand(const LegFrame& frame, const Pattern& pattern) {
    std::vector<SlotFeed> out;
    double own_ml = 0;
    for (size_t i = 0; i < frame.rhythms[pattern.rhythm].slots.size(); ++i)
        out.push_back(feed_at(frame, pattern, i, own_ml));
    return out;
}

std::vector<Dose> doses_of(const LegFrame& frame, const Pattern& pattern) {
    std::vector<Dose> out;
    const auto feeds = expand(frame, pattern);
    for (size_t i = 0; i < feeds.size(); ++i)
        if (feeds[i].feeds)
            out.push_back(dose_of(frame, pattern, feeds[i], frame.rhythms[pattern.rhythm].slots[i]));
    return out;
}

LegChoice search_leg(const LegFrame& frame, const std::vector<Dose>& before, const IntakeLimits& limits,
                     const FluidCurves& curves) {
    return Search(frame, before, limits, curves).run();
}

} // namespace tuck::schedule
