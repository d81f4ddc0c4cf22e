#include "properties/judge.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <set>

namespace tuck::properties {

namespace {

// The rules' own figures (practice; IOC consensus 2010, Jeukendrup 2014, ACSM 2007, US Army, EFSA 2015).
constexpr double hour_s = 3600, most_ml_per_h = 1420, unrehearsed_ml_per_h = 800, cup_ml = 80;
constexpr double fuel_from_min = 75, z95 = 1.6449, z80 = 0.8416;
const double untested_log_sd =
    std::sqrt(std::log(1 + std::pow(0.57 / 1.28, 2))); // Barnes 2019: 1.28 +- 0.57 L/h
constexpr double eps = 1e-6, tick_s = 1;

bool is_drink(const FeedItem& item) {
    return item.unit == "swallow" || item.unit == "cup";
}
bool is_transition_leg(LegKind leg) {
    return leg == LegKind::t1 || leg == LegKind::t2;
}

/// A feed on the clock of one kind of day.
struct At {
    double s;
    const PlanFeed* feed;
};

class Judge {
public:
    Judge(const Asked& asked, const Plan& plan) : athlete_(asked.athlete), asked_(asked), plan_(plan) {}

    std::vector<std::string> all() {
        numbers();
        sums();
        lines();
        inside_legs();
        needs();
        dangers();
        if (plan_.own)
            return out_; // what was typed is told, and refused where it harms: see dangers
        fuelling();
        hours();
        legs();
        moments();
        harm();
        carried();
        return out_;
    }

private:
    template <typename... T>
    void fault(fmt::format_string<T...> text, T&&... values) {
        out_.push_back(fmt::format(text, std::forward<T>(values)...));
    }
    void most(const std::string& what, double value, double allowed, double slack = eps) {
        if (!(value <= allowed + slack))
            fault("{}: {:.2f}, at most {:.2f}", what, value, allowed);
    }
    double hours_of(std::size_t leg) const { return plan_.durations[leg].time.p50_s / hour_s; }
    double total_min() const { return plan_.total.p50_s / 60; }
    const Food* food(const std::string& id) const { return asked_.pantry.find(id); }
    double ml(const FeedItem& item) const {
        return item.amount * (item.unit == "cup" ? cup_ml : athlete_.swallow_ml.count());
    }
    static std::string place(const PlanFeed& feed) {
        return fmt::format("{} {:.0f} s", to_string(feed.leg), feed.at_s);
    }
    static bool eats(const PlanFeed& feed) {
        return std::any_of(feed.items.begin(), feed.items.end(), [](const auto& i) { return !is_drink(i); });
    }

    void numbers() {
        const auto sane = [this](const char* what, double value, double high) {
            if (!(std::isfinite(value) && value >= 0 && value <= high && !std::signbit(value)))
                fault("number: {} is {}", what, value);
        };
        for (const auto& leg : plan_.durations)
            if (!(leg.time.p10_s > 0 && leg.time.p10_s <= leg.time.p50_s &&
                  leg.time.p50_s <= leg.time.p90_s && leg.time.p90_s < 1e7))
                fault("number: {} takes {} {} {} s", to_string(leg.kind), leg.time.p10_s, leg.time.p50_s,
                      leg.time.p90_s);
        for (const auto& need : plan_.needs) {
            sane("carb_g_per_h", need.carb_g_per_h, 120);
            sane("fluid_ml_per_h", need.fluid_ml_per_h, most_ml_per_h);
            sane("fluid_aim_ml_per_h", need.fluid_aim_ml_per_h, need.fluid_ml_per_h);
            sane("sodium_mg_per_h", need.sodium_mg_per_h, 2000);
            sane("sweat_ml_per_h", need.sweat_ml_per_h, 5730); // the record, Baker 2016
        }
        for (const auto& feed : plan_.feeds)
            for (const double each :
                 std::initializer_list<double>{feed.carb_g, feed.glucose_g, feed.fructose_g, feed.fluid_ml,
                                               feed.sodium_mg, feed.caffeine_mg, feed.km, feed.at_s})
                sane("part of a feed", each, 1e6);
        for (const auto& point : plan_.day_sums)
            for (const double each : std::initializer_list<double>{
                     point.carb_g, point.carb_need_g, point.fluid_ml, point.fluid_up_to_ml, point.sweat_ml})
                sane("sum of the day", each, 1e7);
    }

    void sums() {
        const auto same = [this](const char* what, double told, double sum) {
            if (!(std::abs(told - sum) <= eps * (1 + std::abs(sum))))
                fault("total: {} is {:.4f}, the parts give {:.4f}", what, told, sum);
        };
        PlanTotals t;
        for (const auto& feed : plan_.feeds) {
            t.carb_g += feed.carb_g;
            t.fluid_ml += feed.fluid_ml;
            t.sodium_mg += feed.sodium_mg;
            t.caffeine_mg += feed.caffeine_mg;
            double drunk = 0, caffeine = 0;
            for (const auto& item : feed.items) {
                const Food* of = food(item.food);
                if (!of)
                    return fault("food: {} is not in the pantry", item.food);
                drunk += is_drink(item) ? ml(item) : item.amount * of->water_g.count();
                caffeine += is_drink(item) ? 0 : item.amount * of->caffeine_mg.count();
            }
            same("drink of a feed", feed.fluid_ml, drunk);
            most("total: caffeine eaten at " + place(feed), caffeine, feed.caffeine_mg);
            most("total: sugars at " + place(feed), feed.glucose_g + feed.fructose_g, feed.carb_g, 0.01);
        }
        for (std::size_t i = 0; i < plan_.needs.size(); ++i)
            t.sweat_ml += plan_.needs[i].sweat_ml_per_h * hours_of(i);
        same("carbohydrate", plan_.totals.carb_g, t.carb_g);
        same("drink", plan_.totals.fluid_ml, t.fluid_ml);
        same("sodium", plan_.totals.sodium_mg, t.sodium_mg);
        same("caffeine", plan_.totals.caffeine_mg, t.caffeine_mg);
        same("sweat", plan_.totals.sweat_ml, t.sweat_ml);
        if (plan_.day_sums.empty())
            return fault("total: no sums of the day");
        same("sum of all carbohydrate", plan_.day_sums.back().carb_g, t.carb_g);
        same("sum of all drink", plan_.day_sums.back().fluid_ml, t.fluid_ml);
        same("sum of all sweat", plan_.day_sums.back().sweat_ml, t.sweat_ml);
        double total_s = 0;
        for (const auto& leg : plan_.durations)
            total_s += leg.time.p50_s;
        same("time", plan_.total.p50_s, total_s);
    }

    /// The lines, expanded and merged by moment, are exactly the feeds.
    void lines() {
        std::map<std::pair<int, long>, std::map<std::string, double>> said, meant;
        for (const auto& line : plan_.lines)
            for (const auto& at : line.at)
                for (const auto& item : line.items)
                    said[{line.leg_index, std::lround(at.at_s)}][item.food + item.unit] += item.amount;
        for (const auto& feed : plan_.feeds)
            for (const auto& item : feed.items)
                meant[{feed.leg_index, std::lround(feed.at_s)}][item.food + item.unit] += item.amount;
        if (said != meant)
            fault("lines: {} moments said, {} meant, or other amounts", said.size(), meant.size());
    }

    void inside_legs() {
        for (const auto& feed : plan_.feeds) {
            const auto leg = static_cast<std::size_t>(feed.leg_index);
            if (leg >= plan_.durations.size() || plan_.durations[leg].kind != feed.leg ||
                feed.leg == LegKind::swim || feed.at_s < 0 ||
                feed.at_s > plan_.durations[leg].time.p50_s + tick_s)
                fault("inside_leg: {} of leg {}", place(feed), feed.leg_index);
        }
    }

    double rehearsed_limit() const {
        const auto& shown = athlete_.rehearsed;
        const bool trained = shown.gut_trained && !minor() && !athlete_.health.pregnant_or_breastfeeding;
        const double guidance = total_min() < fuel_from_min ? 0
                                : total_min() < 120         ? 30
                                : total_min() < 150         ? 60
                                                            : 90;
        if (trained && shown.carb_g_per_h > 90 && guidance == 90)
            return std::min(shown.carb_g_per_h, 120.0);
        const double unrehearsed = total_min() < 120 ? 30 : total_min() < 180 ? 45 : 60;
        return std::min(guidance, shown.carb_g_per_h >= 80 ? 90 : std::max(shown.carb_g_per_h, unrehearsed));
    }
    /// The day's rate at most: guidance and rehearsals; a wish may reach what was rehearsed on a shorter day
    /// too.
    double carb_limit() const {
        const double limit = rehearsed_limit();
        if (!asked_.event.wanted_carb_g_per_h)
            return limit;
        const auto& shown = athlete_.rehearsed;
        return std::min(*asked_.event.wanted_carb_g_per_h,
                        std::max(limit, std::min(shown.carb_g_per_h, shown.gut_trained ? 120.0 : 90.0)));
    }
    bool minor() const { return athlete_.age_y && *athlete_.age_y < 18; }
    bool tested() const { return athlete_.sweat || athlete_.sweat_on_run || athlete_.learned_sweat; }

    void needs() {
        const bool no_rate = athlete_.health.glucose_lowering_medicine || athlete_.health.recent_gut_illness;
        const bool careful = athlete_.health.heart_kidney_or_blood_pressure ||
                             athlete_.health.pregnant_or_breastfeeding ||
                             (athlete_.mass_kg < 45 && plan_.total.p50_s > 4 * hour_s);
        double allowed = 0;
        for (std::size_t i = 0; i < plan_.needs.size(); ++i) {
            const auto& need = plan_.needs[i];
            most("need_carb", need.carb_g_per_h, no_rate ? 0 : carb_limit());
            most("need_fluid", need.fluid_ml_per_h,
                 std::max(unrehearsed_ml_per_h, athlete_.rehearsed.fluid_ml_per_h));
            most("need_fluid_sweat", need.fluid_ml_per_h,
                 need.sweat_ml_per_h * (careful && !tested() ? std::exp(-z80 * untested_log_sd) : 1));
            allowed += need.fluid_ml_per_h * hours_of(i);
        }
        most("day_fluid", allowed,
             plan_.totals.sweat_ml * (tested() ? 1 : std::exp(-z95 * untested_log_sd)) +
                 0.01 * 1000 * athlete_.mass_kg);
    }

    /// What harms is refused, whoever typed it.
    void dangers() {
        const auto clock = day(0);
        bool harms = false;
        for (const auto& first : clock)
            harms = harms || sum(clock, first.s, hour_s, &PlanFeed::fluid_ml) > most_ml_per_h + 0.01 ||
                    sum(clock, first.s, hour_s, &PlanFeed::caffeine_mg) > caffeine_dose() + 0.01;
        for (const auto& feed : plan_.feeds)
            for (const auto& item : feed.items)
                harms = harms || (food(item.food) && has_allergen(*food(item.food)));
        if (harms && !plan_.refused)
            fault("danger: more drink or caffeine than is safe, or an allergen, and not refused");
    }

    void fuelling() {
        const bool no_rate = athlete_.health.glucose_lowering_medicine || athlete_.health.recent_gut_illness;
        const bool needed = no_rate || total_min() >= fuel_from_min;
        if (plan_.fuelling_needed != needed)
            fault("fuelling: said {} at {:.2f} min", plan_.fuelling_needed, total_min());
        if ((no_rate || !needed) && !plan_.feeds.empty())
            fault("fuelling: {} feeds where none are to be", plan_.feeds.size());
    }

    /// Feeds of the likely (0) or slow (1) day: on the bike by the clock, on the run by the kilometre.
    std::vector<At> day(int slow) const {
        std::vector<At> out;
        double start_s = 0;
        for (std::size_t i = 0; i < plan_.durations.size(); ++i) {
            const auto& time = plan_.durations[i].time;
            const double length_s = slow ? time.p90_s : time.p50_s;
            for (const auto& feed : plan_.feeds)
                if (feed.leg_index == static_cast<int>(i))
                    out.push_back({start_s + (feed.leg == LegKind::bike && !feed.by_place
                                                  ? feed.at_s
                                                  : feed.at_s * length_s / time.p50_s),
                                   &feed});
            start_s += length_s;
        }
        std::stable_sort(out.begin(), out.end(), [](const At& a, const At& b) { return a.s < b.s; });
        return out;
    }
    template <class Amount>
    static double sum(const std::vector<At>& clock, double from_s, double span_s, Amount PlanFeed::*what) {
        double out = 0;
        for (const auto& at : clock)
            if (at.s >= from_s && at.s < from_s + span_s - 0.01)
                out += at.feed->*what;
        return out;
    }
    /// Of a rate per hour over a stretch of the likely day; after the finish the last leg goes on.
    double integral(double LegNeed::*rate, double from_s, double to_s) const {
        double out = 0, start_s = 0;
        for (std::size_t i = 0; i < plan_.needs.size(); ++i) {
            const double end_s = i + 1 == plan_.needs.size() ? std::max(to_s, start_s)
                                                             : start_s + plan_.durations[i].time.p50_s;
            out += std::max(0.0, std::min(end_s, to_s) - std::max(start_s, from_s)) / hour_s *
                   plan_.needs[i].*rate;
            start_s += plan_.durations[i].time.p50_s;
        }
        return out;
    }
    static double hour_cap(double rate) { return std::min(1.25 * rate, rate + 15); }

    void hours() {
        const bool trained = athlete_.rehearsed.gut_trained;
        const double glucose = trained ? 72 : 60;
        const double fructose = athlete_.health.fructose_malabsorption ? 0 : trained ? 54 : 40;
        for (const int slow : {0, 1}) {
            const auto clock = day(slow);
            for (const auto& first : clock) {
                const auto& need = plan_.needs[static_cast<std::size_t>(first.feed->leg_index)];
                // An hour counts by the leg in which it begins; at its very end the next one does.
                const bool own =
                    need.carb_g_per_h > 0 &&
                    first.feed->at_s <
                        plan_.durations[static_cast<std::size_t>(first.feed->leg_index)].time.p50_s - tick_s;
                const double rate = own ? need.carb_g_per_h : carb_limit();
                const std::string from =
                    fmt::format(" from {}{}", place(*first.feed), slow ? " of a slow day" : "");
                const auto hold = [&](const char* what, auto part, double span_s, double allowed) {
                    most(what + from, sum(clock, first.s, span_s, part), allowed, 0.01);
                };
                hold("carb_hour", &PlanFeed::carb_g, hour_s, hour_cap(rate));
                hold("carb_two_hours", &PlanFeed::carb_g, 2 * hour_s, 2.2 * rate);
                hold("glucose_hour", &PlanFeed::glucose_g, hour_s, hour_cap(glucose));
                hold("fructose_hour", &PlanFeed::fructose_g, hour_s, hour_cap(fructose));
                hold("fluid_most", &PlanFeed::fluid_ml, hour_s, most_ml_per_h);
                hold("caffeine_hour", &PlanFeed::caffeine_mg, hour_s, caffeine_dose());
                if (slow)
                    continue;
                hold("fluid_hour", &PlanFeed::fluid_ml, hour_s,
                     integral(&LegNeed::fluid_ml_per_h, first.s, first.s + hour_s) + 2 * athlete_.swallow_ml);
                most("fluid_sweat" + from, sum(clock, 0, first.s + 0.02, &PlanFeed::fluid_ml),
                     integral(&LegNeed::sweat_ml_per_h, 0, first.s), 0.01);
            }
        }
        if (plan_.totals.caffeine_mg > 0)
            most("caffeine_day", plan_.totals.caffeine_mg + athlete_.morning_coffee_mg, 400, 0.01);
    }

    void legs() {
        std::vector<double> carb(plan_.needs.size()), drunk(plan_.needs.size());
        for (const auto& feed : plan_.feeds) {
            auto leg = static_cast<std::size_t>(feed.leg_index);
            carb[leg] += feed.carb_g;
            while (leg + 1 < drunk.size() && is_transition_leg(plan_.durations[leg].kind))
                ++leg; // what a transition drinks counts to the leg after it
            drunk[leg] += feed.fluid_ml;
        }
        for (std::size_t i = 0; i < plan_.needs.size(); ++i) {
            const double rate = plan_.needs[i].carb_g_per_h > 0 ? plan_.needs[i].carb_g_per_h : carb_limit();
            most(fmt::format("carb_leg {}", i), carb[i], 1.1 * rate * std::max(1.0, hours_of(i)), 0.01);
            most(fmt::format("fluid_leg {}", i), drunk[i], plan_.needs[i].fluid_ml_per_h * hours_of(i), 0.01);
        }
    }

    bool stands(const PlanFeed& feed) const {
        for (const auto& line : plan_.lines)
            if (line.stop && line.leg_index == feed.leg_index)
                for (const auto& at : line.at)
                    if (std::abs(at.at_s - feed.at_s) < 1)
                        return true;
        return false;
    }
    void moments() {
        const auto hands = athlete_.hands.value_or(
            athlete_.level == Level::beginner ? Hands::bottle : Hands::bottle_and_food);
        for (const auto& feed : plan_.feeds) {
            double sips = 0, cups = 0, eaten = 0;
            for (const auto& item : feed.items)
                (item.unit == "swallow" ? sips
                 : item.unit == "cup"   ? cups
                                        : eaten) += is_drink(item) ? item.amount : 1;
            if (eaten > 1 || sips > 5 || cups > 2 || (sips > 0 && cups > 0))
                fault("feed: {} things, {} swallows, {} cups at {}", eaten, sips, cups, place(feed));
            if (feed.leg != LegKind::bike)
                continue;
            const auto& leg = plan_.durations[static_cast<std::size_t>(feed.leg_index)];
            if (feed.at_s < 300 - tick_s || feed.at_s > leg.time.p50_s - 300 + tick_s)
                fault("mount: {}, the leg takes {:.0f} s", place(feed), leg.time.p50_s);
            if (!stands(feed) && (hands == Hands::none || (hands == Hands::bottle && eats(feed))))
                fault("hands: {}", place(feed));
            for (const auto& busy : leg.busy)
                if (busy.to_s - busy.from_s >= 60 && feed.at_s > busy.from_s + tick_s &&
                    feed.at_s < busy.to_s - tick_s)
                    fault("hands: {} on a {}", place(feed), busy.why);
        }
    }

    bool caffeine_barred() const {
        return !athlete_.caffeine || minor() || athlete_.health.pregnant_or_breastfeeding ||
               athlete_.health.heart_kidney_or_blood_pressure;
    }
    double caffeine_dose() const { return caffeine_barred() ? 0 : std::min(3 * athlete_.mass_kg, 200.0); }
    bool has_allergen(const Food& food) const {
        return std::any_of(food.allergens.begin(), food.allergens.end(), [this](const std::string& word) {
            return (athlete_.health.coeliac && word == "gluten") ||
                   std::find(athlete_.allergy.begin(), athlete_.allergy.end(), word) !=
                       athlete_.allergy.end();
        });
    }
    static bool among(const std::vector<std::string>& words, const Food& food) {
        return std::any_of(words.begin(), words.end(),
                           [&food](const auto& w) { return w == food.id || w == food.group; });
    }
    void harm() {
        std::set<std::string> used;
        for (const auto& feed : plan_.feeds)
            for (const auto& item : feed.items)
                used.insert(item.food);
        for (const auto& row : plan_.carry)
            used.insert(row.food);
        for (const auto& mix : plan_.mix)
            for (const auto& part : mix.add)
                used.insert(part.food);
        for (const auto& id : used) {
            const Food* of = food(id);
            if (!of)
                continue; // plain kit
            if (has_allergen(*of))
                fault("allergen: {}", id);
            if (of->caffeine_mg > 0 && caffeine_barred())
                fault("caffeine_barred: {}", id);
        }
        for (const auto& feed : plan_.feeds)
            for (const auto& item : feed.items)
                if (const Food& of = *food(item.food);
                    of.id != "water_tap" &&
                    (among(athlete_.avoid, of) || (!athlete_.only.empty() && !among(athlete_.only, of))))
                    fault("avoided: {} at {}", of.id, place(feed));
    }

    void carried() {
        std::map<std::string, double> left;
        double own_ml = 0, flask_ml = 0, mixed_ml = 0, flask_mixed_ml = 0, kit_ml = 0;
        for (const auto& row : plan_.carry)
            left[row.food] += row.amount;
        for (const auto& feed : plan_.feeds)
            for (const auto& item : feed.items)
                if (!is_drink(item) && item.from != "station")
                    left[item.food] -= item.amount;
                else if (is_drink(item) && item.from.size() > 1 && item.from[0] == 'B')
                    own_ml += ml(item);
                else if (item.from == "flask")
                    flask_ml += ml(item);
        for (const auto& [id, amount] : left)
            most("carried: more eaten than packed of " + id, -amount, 0);
        for (const auto& mix : plan_.mix)
            (mix.bottle[0] == 'B'    ? mixed_ml
             : mix.bottle == "flask" ? flask_mixed_ml
                                     : kit_ml) += mix.volume_ml;
        most("carried: own drink against what is mixed", own_ml, mixed_ml, 0.5);
        most("carried: flask against what is mixed", flask_ml, flask_mixed_ml, 0.5);
        if (const auto& bottles = asked_.event.kit.bike_bottles_ml) {
            kit_ml = 0;
            for (const double each : *bottles)
                kit_ml += each;
            for (const auto& leg : asked_.event.legs)
                for (const double each :
                     leg.special_needs ? leg.special_needs->bottles_ml : std::vector<double>{})
                    kit_ml += each;
            most("carried: mixed against the bottles", mixed_ml, kit_ml, 0.5);
        }
        if (asked_.event.kit.run_flask_ml)
            most("carried: mixed against the flask", flask_mixed_ml,
                 *asked_.event.kit.run_flask_ml * static_cast<double>(plan_.durations.size()), 0.5);
    }

    const Athlete& athlete_;
    const Asked& asked_;
    const Plan& plan_;
    std::vector<std::string> out_;
};

} // namespace

std::vector<std::string> judge(const Asked& asked, const Plan& plan) {
    return Judge(asked, plan).all();
}

} // namespace tuck::properties
