#include "schedule/lines.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::schedule {

namespace {

constexpr size_t most_listed = 5; // moments or kilometres named one by one

/// Slots of one leg that share what is taken.
struct Group {
    std::vector<size_t> slots;
    std::vector<FeedItem> items;
    std::string from;
};

std::string bottle_name(const KitInUse& kit, double own_before_ml) {
    double sum = 0;
    for (size_t i = 0; i < kit.bottles_ml.size(); ++i) {
        sum += kit.bottles_ml[i];
        if (own_before_ml < sum - 1e-9)
            return fmt::format("B{}", i + 1);
    }
    return fmt::format("B{}", std::max<size_t>(1, kit.bottles_ml.size()));
}

std::string drink_word(const Food* food) {
    return !food || food->id == "water_tap" ? "water" : food->label.empty() ? food->name : food->label;
}

class Writer {
public:
    Writer(const LegFrame& frame, const LegChoice& choice, const KitInUse& kit)
        : frame_(frame), choice_(choice), kit_(kit), slots_(frame.rhythms[choice.pattern.rhythm].slots),
          feeds_(expand(frame, choice.pattern)) {}

    LegLines write(double speed_m_s) {
        write_feeds(speed_m_s);
        for (const bool own : {true, false})
            write_drink_line(own);
        for (const auto* item : distinct_items())
            write_item_line(item);
        return out_;
    }

private:
    bool at_station() const {
        return frame_.rhythms[choice_.pattern.rhythm].every_s == 0 && frame_.kind == LegKind::run;
    }

    const Food* drink_food(bool own) const {
        return own ? frame_.drinks[choice_.pattern.drink].food : frame_.station_drink.food;
    }

    std::string source_of(const SlotFeed& feed) const {
        if (at_station() || !feed.own_drink)
            return "station";
        return frame_.kind == LegKind::bike ? bottle_name(kit_, feed.own_before_ml)
               : is_transition(frame_.kind) ? transition_bottle(frame_.kind)
                                            : "flask";
    }

    /// "B1 then B2".
    std::string sources_of(const std::vector<size_t>& slots) const {
        std::vector<std::string> names;
        for (const size_t i : slots)
            if (const auto name = source_of(feeds_[i]); names.empty() || names.back() != name)
                names.push_back(name);
        return fmt::format("{}", fmt::join(names, " then "));
    }

    FeedItem drink_item(const SlotFeed& feed, int sips) const {
        const Food* food = drink_food(feed.own_drink);
        return {food ? food->id : "water_tap", static_cast<double>(sips), frame_.sip_unit, source_of(feed)};
    }

    FeedItem food_item(const Portion& portion) const {
        const bool belt = frame_.kind == LegKind::run;
        return {portion.food->id, portion.amount, portion.unit,
                belt                         ? "belt"
                : is_transition(frame_.kind) ? "transition"
                                             : "pocket"};
    }

    void write_feeds(double speed_m_s) {
        size_t dose = 0;
        for (size_t i = 0; i < slots_.size(); ++i) {
            const auto& feed = feeds_[i];
            if (!feed.feeds)
                continue;
            const Dose& d = choice_.doses[dose++];
            PlanFeed out;
            out.leg_index = static_cast<int>(frame_.leg);
            out.leg = frame_.kind;
            out.at_s = slots_[i].at_s;
            out.km = at_station() ? slots_[i].km : slots_[i].at_s * speed_m_s / 1000;
            if (feed.item)
                out.items.push_back(food_item(*feed.item));
            if (feed.sips > 0)
                out.items.push_back(drink_item(feed, feed.sips));
            out.carb_g = d.carb_g;
            out.glucose_g = d.glucose_g;
            out.fructose_g = d.fructose_g;
            out.fluid_ml = d.fluid_ml;
            out.sodium_mg = d.sodium_mg;
            out.caffeine_mg = d.caffeine_mg;
            (feed.own_drink ? out_.own_ml : out_.handed_ml) += feed.sips * frame_.sip_ml;
            out_.items += feed.item ? 1 : 0;
            out_.feeds.push_back(out);
        }
    }

    void write_drink_line(bool own) {
        const int sips = choice_.pattern.sips;
        if (sips == 0)
            return;
        Group group;
        for (size_t i = 0; i < slots_.size(); ++i)
            if (feeds_[i].own_drink == own)
                group.slots.push_back(i);
        if (group.slots.empty())
            return;
        group.items = {drink_item(feeds_[group.slots.front()], sips)};
        group.from = sources_of(group.slots);
        add_line(group, drink_food(own));
    }

    std::vector<const Portion*> distinct_items() const {
        std::vector<const Portion*> out;
        for (const auto& feed : feeds_)
            if (feed.item && std::find(out.begin(), out.end(), feed.item) == out.end())
                out.push_back(feed.item);
        return out;
    }

    void write_item_line(const Portion* item) {
        const int extra = choice_.pattern.item_sips - choice_.pattern.sips;
        std::vector<size_t> own, handed;
        for (size_t i = 0; i < slots_.size(); ++i)
            if (feeds_[i].item == item)
                (feeds_[i].own_drink || extra <= 0 ? own : handed).push_back(i);
        // Extra swallows may come from the own drink or, later, from a station: a line for each.
        for (const auto& slots : {own, handed}) {
            if (slots.empty())
                continue;
            Group group{slots, {food_item(*item)}, ""};
            const auto& first = feeds_[slots.front()];
            if (extra > 0) {
                group.items.push_back(drink_item(first, extra));
                group.from = sources_of(slots);
            }
            add_line(group, extra > 0 ? drink_food(first.own_drink) : nullptr);
        }
    }

    std::string what_text(const Group& group, const Food* drink) const {
        std::string text;
        for (const auto& item : group.items) {
            if (!text.empty())
                text += " + ";
            const bool sip = item.unit == "swallow" || item.unit == "cup";
            text += sip ? amount_text(item.amount, item.unit) : portion_text(item);
            if (sip && frame_.kind == LegKind::bike && group.from != "station")
                text += " " + group.from;
            else if (sip)
                text += " " + drink_word(drink);
        }
        return text;
    }

    /// "gel", "1/2 bar", "1/2 banana", "4 chews": the unit where it says enough, else the food's own short
    /// name.
    std::string portion_text(const FeedItem& item) const {
        for (const auto* portion : distinct_items())
            if (portion->food->id == item.food) {
                const auto& food = *portion->food;
                const std::string label = food.label.empty() ? food.name : food.label;
                return amount_text(item.amount, label);
            }
        return item.food;
    }

    std::string when_text(const PlanLine& line, const Group& group) const {
        if (at_station())
            return stations_text(group);
        if (is_transition(frame_.kind))
            return frame_.kind == LegKind::t1 ? "in T1" : "in T2";
        if (line.every_s > 0 && group.slots.size() > 3) {
            std::string text = fmt::format("every {:.0f}'", line.every_s / 60);
            if (group.slots.front() > 0)
                text += " from " + clock_text(line.from_s);
            if (group.slots.back() + 1 < slots_.size() && line.to_s + line.every_s <= slots_.back().at_s)
                text += " to " + clock_text(line.to_s);
            return text;
        }
        std::vector<std::string> moments;
        for (const double at : line.at_s)
            moments.push_back(clock_text(at));
        return fmt::format("{}", fmt::join(moments, " "));
    }

    std::string stations_text(const Group& group) const {
        const auto stride = choice_.pattern.rhythm; // 0: every station, 1: every second ...
        if (group.slots.size() == slots_.size() && slots_.size() > 2)
            return stride == 0 ? "each station" : stride == 1 ? "every 2nd station" : "every 3rd station";
        std::vector<std::string> kms;
        for (const size_t i : group.slots)
            kms.push_back(fmt::format("{:g}", std::round(slots_[i].km * 10) / 10));
        if (kms.size() <= most_listed + 3)
            return fmt::format("km {}", fmt::join(kms, " "));
        return fmt::format("km {} {} {} ... {}", kms[0], kms[1], kms[2], kms.back());
    }

    void add_line(const Group& group, const Food* drink) {
        PlanLine line;
        line.leg_index = static_cast<int>(frame_.leg);
        line.leg = frame_.kind;
        for (const size_t i : group.slots)
            line.at_s.push_back(slots_[i].at_s);
        line.from_s = line.at_s.front();
        line.to_s = line.at_s.back();
        line.every_s = steady_s(line.at_s);
        line.items = group.items;
        line.when = when_text(line, group);
        line.what = what_text(group, drink);
        line.text = line.when + ": " + line.what;
        out_.lines.push_back(line);
    }

    static double steady_s(const std::vector<double>& at_s) {
        if (at_s.size() < 2)
            return 0;
        const double step = at_s[1] - at_s[0];
        for (size_t i = 2; i < at_s.size(); ++i)
            if (std::abs(at_s[i] - at_s[i - 1] - step) > 0.5)
                return 0;
        return step;
    }

    const LegFrame& frame_;
    const LegChoice& choice_;
    const KitInUse& kit_;
    const std::vector<Slot>& slots_;
    std::vector<SlotFeed> feeds_;
    LegLines out_;
};

} // namespace

std::string transition_bottle(LegKind kind) {
    return kind == LegKind::t1 ? "T1 bottle" : "T2 bottle";
}

std::string clock_text(double seconds) {
    const int minutes = static_cast<int>(std::lround(seconds / 60));
    return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

LegLines lines_of(const LegFrame& frame, const LegChoice& choice, const KitInUse& kit, double speed_m_s) {
    return Writer(frame, choice, kit).write(speed_m_s);
}

} // namespace tuck::schedule
