#include "diary/session_lines.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>
#include <set>

namespace tuck::diary {

namespace {

constexpr double first_feed_s = 60 * figure("feed.after_mount_min"),
                 last_feed_s = 60 * figure("feed.before_dismount_min");
constexpr double usual_beat_s = 15 * 60, longest_pattern_s = 90 * 60;
constexpr double same_moment_s = 1;
constexpr double smallest_bottle_ml = 400, handed_bottle_ml = 750;
constexpr int fewest_for_a_rhythm = 3;

/// The longest leg of its kind.
const LegEffort* leg_of(const Plan& race, LegKind kind) {
    const LegEffort* found = nullptr;
    for (const auto& leg : race.durations)
        if (leg.kind == kind && (!found || leg.time.p50_s > found->time.p50_s))
            found = &leg;
    return found;
}

/// The middle of the race's ride that the session leaves out.
class ShorterRide {
public:
    ShorterRide(const Plan& race, const LegEffort& ride, double session_s) : session_s_(session_s) {
        long pattern_s = 0;
        for (const auto& line : race.lines)
            if (line.leg_index == ride.leg_index && line.rhythm.kind == Rhythm::Kind::every) {
                const long every_s = std::lround(line.rhythm.every_s);
                beat_s_ = pattern_s == 0 ? static_cast<double>(every_s)
                                         : std::min(beat_s_, static_cast<double>(every_s));
                pattern_s = pattern_s == 0 ? every_s : std::lcm(pattern_s, every_s);
            }
        choose_what_to_leave_out(race, ride, static_cast<double>(pattern_s));
    }

    double beat_s() const { return beat_s_; }
    double last_s() const { return session_s_ - last_feed_s; }

    /// In the session; nothing where the session leaves it out.
    std::optional<double> moment(double race_s) const {
        const double half_s = session_s_ / 2;
        const double at_s = race_s <= half_s ? race_s : race_s - left_out_s_;
        const bool cut = race_s > half_s && at_s <= half_s;
        if (cut || at_s < first_feed_s || at_s > last_s())
            return std::nullopt;
        return at_s;
    }

    /// The beat of the session that is nearest to a moment which it leaves out.
    double nearest_beat_s(double race_s) const {
        const double at_s = race_s > session_s_ / 2 + left_out_s_ ? race_s - left_out_s_ : session_s_ / 2;
        const double beat = std::round(at_s / beat_s_) * beat_s_;
        const double last_beat_s = std::floor(last_s() / beat_s_) * beat_s_;
        return std::min(last_s(), std::clamp(beat, beat_s_, std::max(beat_s_, last_beat_s)));
    }

private:
    /// Whole beats, and where it goes whole patterns of the lines: what keeps the race's rate best.
    void choose_what_to_leave_out(const Plan& race, const LegEffort& ride, double pattern_s) {
        const double longer_s = ride.time.p50_s - session_s_;
        if (longer_s <= beat_s_ / 2)
            return;
        double all_g = 0, best_off = 0;
        for (const auto& feed : race.feeds)
            all_g += feed.leg_index == ride.leg_index ? feed.carb_g.count() : 0;
        const double race_g_per_s = all_g / ride.time.p50_s;
        double best_s = -1;
        for (const double step_s : {pattern_s, beat_s_})
            for (const double whole : {std::floor(longer_s / std::max(step_s, 1.0)),
                                       std::ceil(longer_s / std::max(step_s, 1.0))}) {
                left_out_s_ = step_s * whole;
                if (step_s <= 0 || step_s > longest_pattern_s ||
                    std::abs(left_out_s_ - longer_s) > 2 * beat_s_)
                    continue;
                double kept_g = 0;
                for (const auto& feed : race.feeds)
                    kept_g += feed.leg_index == ride.leg_index && moment(feed.at_s) ? feed.carb_g.count() : 0;
                const double off = std::abs(kept_g / session_s_ - race_g_per_s) +
                                   0.02 * race_g_per_s * std::abs(left_out_s_ - longer_s) / beat_s_;
                if (best_s < 0 || off < best_off) {
                    best_s = left_out_s_;
                    best_off = off;
                }
            }
        left_out_s_ = best_s >= 0 ? best_s : beat_s_ * std::round(longer_s / beat_s_);
    }

    double session_s_, left_out_s_ = 0, beat_s_ = usual_beat_s;
};

bool same(const std::vector<OwnPart>& a, const std::vector<OwnPart>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const OwnPart& x, const OwnPart& y) {
        return x.amount == y.amount && x.unit == y.unit && x.of == y.of;
    });
}

bool holds_food(const std::vector<OwnPart>& parts) {
    return std::any_of(parts.begin(), parts.end(), [](const OwnPart& part) { return part.unit.empty(); });
}

/// A rhythm where the moments have one, else each of them.
void put_moments(OwnLine& line, const std::set<double>& moments, double end_s) {
    const std::vector<double> at(moments.begin(), moments.end());
    const double step_s = at.size() >= fewest_for_a_rhythm ? at[1] - at[0] : 0;
    const bool steady = step_s > 0 && std::adjacent_find(at.begin(), at.end(), [&](double a, double b) {
                                          return std::abs(b - a - step_s) > same_moment_s;
                                      }) == at.end();
    if (!steady) {
        line.when = OwnLine::When::moments;
        line.at_s = at;
        return;
    }
    line.when = OwnLine::When::every;
    line.every_s = step_s;
    if (std::abs(at.front() - step_s) > same_moment_s)
        line.from_s = at.front();
    if (at.back() + step_s <= end_s)
        line.to_s = at.back();
}

class Ride {
public:
    Ride(const Plan& race, const LegEffort& leg, const SessionParts& parts, double drink_share)
        : race_(race), leg_(leg), shorter_(race, leg, parts.ride_s), drink_share_(drink_share) {}

    void read(SessionLines& out) {
        find_bottles(out);
        for (const auto& line : race_.lines)
            if (line.leg_index == leg_.leg_index) {
                stops_ = stops_ || line.stop;
                add(line);
            }
        for (const auto& group : groups_) {
            OwnLine line;
            line.leg = LegKind::bike;
            line.parts = group.parts;
            line.stop = stops_;
            put_moments(line, group.moments, shorter_.last_s());
            line.said = "the race's line";
            out.lines.push_back(line);
        }
        lay_out_bottles(out);
    }

private:
    struct Group {
        std::vector<OwnPart> parts;
        std::set<double> moments;
    };

    void find_bottles(SessionLines& out) {
        for (const auto& mix : race_.mix)
            if (mix.bottle.size() >= 2 && mix.bottle[0] == 'B') {
                one_drink_ = one_drink_ && (first_recipe_.empty() || first_recipe_ == recipe_text(mix));
                first_recipe_ = recipe_text(mix);
                out.bike_bottles_ml.push_back(bottle_ml(mix));
                out.bottles.push_back(recipe_of(mix));
                all_bottles_ += (all_bottles_.empty() ? "" : " ") + mix.bottle;
            }
        if (all_bottles_.empty()) { // everything is handed up
            out.bike_bottles_ml = {handed_bottle_ml};
            OwnBottle handed;
            handed.name = all_bottles_ = "B1";
            handed.of = "iso";
            handed.said = "what the race hands up";
            out.bottles = {handed};
        }
    }

    /// A bottle is filled to the top or to half; half of a usual one is 250 or 375 ml.
    static double bottle_ml(const Mix& mix) {
        return mix.volume_ml < smallest_bottle_ml ? 2 * mix.volume_ml : mix.volume_ml;
    }

    static std::string recipe_text(const Mix& mix) {
        std::string text = fmt::format("{:.0f} ml", mix.volume_ml);
        for (const auto& item : mix.add)
            text += fmt::format(", {} {:.0f} g", item.food, item.grams);
        return text;
    }

    static OwnBottle recipe_of(const Mix& mix) {
        OwnBottle bottle;
        bottle.name = mix.bottle;
        bottle.said = mix.bottle + " of the race";
        for (const auto& item : mix.add)
            if (item.grams > 0)
                bottle.grams.push_back({item.grams, item.food});
        if (bottle.grams.empty())
            bottle.of = "water";
        else
            bottle.fill_ml = mix.volume_ml;
        return bottle;
    }

    std::vector<OwnPart> parts_of(const Line& line) const {
        std::vector<OwnPart> parts;
        for (const auto& item : line.items) {
            if (!item.drink()) {
                parts.push_back({item.amount, "", item.food});
                continue;
            }
            std::string bottles;
            for (const auto& source : item.from)
                bottles += source.name == "station" ? "" : (bottles.empty() ? "" : " ") + source.name;
            const double swallows = std::floor(item.amount * drink_share_ + 1e-9);
            if (swallows >= 1)
                parts.push_back(
                    {swallows, "swallow", bottles.empty() || handed(item) ? all_bottles_ : bottles});
        }
        return parts;
    }

    static bool handed(const LineItem& item) {
        return std::any_of(item.from.begin(), item.from.end(),
                           [](const LineSource& source) { return source.name == "station"; });
    }

    void add(const Line& line) {
        const auto parts = parts_of(line);
        if (parts.empty() || line.at.empty())
            return;
        Group& group = group_of(parts);
        const auto before = group.moments.size();
        for (const auto& at : line.at)
            if (const auto moment = shorter_.moment(at.at_s))
                group.moments.insert(*moment);
        if (group.moments.size() == before && (before == 0 || holds_food(parts)))
            group.moments.insert(shorter_.nearest_beat_s(line.at.front().at_s));
    }

    /// Lines of the race that take the same go on as one: own drink, then what is handed up.
    Group& group_of(const std::vector<OwnPart>& parts) {
        for (auto& group : groups_)
            if (same(group.parts, parts) || same_but_bottles(group.parts, parts)) {
                if (!same(group.parts, parts))
                    for (auto& part : group.parts)
                        part.of = part.unit == "swallow" ? all_bottles_ : part.of;
                return group;
            }
        groups_.push_back({parts, {}});
        return groups_.back();
    }

    /// With one drink in all bottles it is no difference from which of them it comes.
    bool same_but_bottles(std::vector<OwnPart> a, std::vector<OwnPart> b) const {
        if (!one_drink_)
            return false;
        for (auto* parts : {&a, &b})
            for (auto& part : *parts)
                if (part.unit == "swallow")
                    part.of.clear();
        return same(a, b);
    }

    /// As many bottles as the session drinks: the race was handed some of it.
    void lay_out_bottles(SessionLines& out) {
        if (out.bike_bottles_ml.empty())
            return;
        double held_ml = std::accumulate(out.bike_bottles_ml.begin(), out.bike_bottles_ml.end(), 0.0);
        while (held_ml < drunk_ml() && out.bottles_more < 4) {
            OwnBottle more = out.bottles.front();
            more.name = fmt::format("B{}", out.bottles.size() + 1);
            out.bottles.push_back(more);
            out.bike_bottles_ml.push_back(out.bike_bottles_ml.front());
            held_ml += out.bike_bottles_ml.front();
            ++out.bottles_more;
            for (auto& line : out.lines)
                for (auto& part : line.parts)
                    if (part.of == all_bottles_)
                        part.of += " " + more.name;
            all_bottles_ += " " + more.name;
        }
    }

    double drunk_ml() const {
        double swallows = 0;
        for (const auto& group : groups_)
            for (const auto& part : group.parts)
                if (part.unit == "swallow")
                    swallows += part.amount * static_cast<double>(group.moments.size());
        return swallows * swallow_ml();
    }

    /// Of this athlete, from the race's own feeds.
    double swallow_ml() const {
        for (const auto& feed : race_.feeds)
            if (feed.leg_index == leg_.leg_index && feed.items.size() == 1 && feed.items[0].unit == "swallow")
                return feed.fluid_ml / feed.items[0].amount;
        return usual_swallow_ml;
    }

    static constexpr double usual_swallow_ml = 30;

    const Plan& race_;
    const LegEffort& leg_;
    ShorterRide shorter_;
    double drink_share_;
    std::string all_bottles_; // "B1 B2"
    bool one_drink_ = true;
    bool stops_ = false; // hands stay on the bar
    std::string first_recipe_;
    std::vector<Group> groups_;
};

/// What is taken on the run or in a transition, as an own line names it.
std::vector<OwnPart> parts_on_foot(const Line& line) {
    std::vector<OwnPart> parts;
    for (const auto& item : line.items) {
        const bool water = item.drink() && item.label == "water";
        parts.push_back({item.amount, item.drink() ? item.unit : "", water ? "water" : item.food});
    }
    return parts;
}

/// The beginning of the race's run.
void read_run(const Plan& race, const LegEffort& leg, const SessionParts& parts, SessionLines& out) {
    bool eats = false;
    const Line* first_food = nullptr;
    for (const auto& line : race.lines) {
        if (line.leg_index != leg.leg_index)
            continue;
        OwnLine own;
        own.leg = LegKind::run;
        own.said = "the race's line";
        own.parts = parts_on_foot(line);
        const bool food = holds_food(own.parts);
        first_food = food && !first_food ? &line : first_food;
        const auto reached = [&](const LegMoment& at) {
            return line.by_km ? at.km <= parts.run_km - 0.2 : at.at_s <= parts.run_s - 60;
        };
        if (line.rhythm.kind == Rhythm::Kind::stations && !food) {
            own.when = OwnLine::When::stations;
            own.step = line.rhythm.step;
            if (line.at.empty() || !reached(line.at.front()))
                continue;
        } else {
            std::set<double> moments;
            for (const auto& at : line.at)
                if (reached(at))
                    moments.insert(line.by_km ? at.km : at.at_s.count());
            if (moments.empty())
                continue;
            if (line.by_km)
                own.at_km.assign(moments.begin(), moments.end());
            else
                put_moments(own, moments, parts.run_s);
        }
        eats = eats || food;
        out.lines.push_back(own);
    }
    if (eats || !first_food)
        return;
    OwnLine own; // later in the race than the session lasts: halfway
    own.leg = LegKind::run;
    own.said = brought_forward;
    own.parts = parts_on_foot(*first_food);
    own.at_s = {60 * std::round(parts.run_s / 120)};
    out.lines.push_back(own);
}

void read_transition(const Plan& race, SessionLines& out) {
    for (const auto& line : race.lines)
        if (line.leg == LegKind::t2) {
            OwnLine own;
            own.leg = LegKind::t2;
            own.said = "the race's line";
            own.parts = parts_on_foot(line);
            out.lines.push_back(own);
        }
}

} // namespace

SessionLines session_lines(const Plan& race, const SessionParts& parts, double drink_share) {
    SessionLines out;
    const auto* ride = leg_of(race, LegKind::bike);
    const auto* run = leg_of(race, LegKind::run);
    if (ride && parts.ride_s > 0)
        Ride(race, *ride, parts, drink_share).read(out);
    if (ride && parts.ride_s > 0 && parts.run_s > 0)
        read_transition(race, out);
    if (run && parts.run_s > 0)
        read_run(race, *run, parts, out);
    return out;
}

} // namespace tuck::diary
