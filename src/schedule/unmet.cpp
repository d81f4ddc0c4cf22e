#include "schedule/unmet.hpp"

#include "base/conditions.hpp"
#include "schedule/habit.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <optional>

namespace tuck::schedule {

namespace {

constexpr double short_share = figure("unmet.short_share"), help_share = figure("unmet.help_share");
constexpr double up_to_share = figure("unmet.up_to_share");
constexpr double bottle_ml = 750, flask_ml = 250;
constexpr double tested_share = 1.33; // of the ceiling that a sweat test may allow: exp(1.645 (0.43 - 0.25))
constexpr long long work_of_one = 300'000;

/// Carbohydrate, drink and sodium of one leg, per hour.
enum What { grams, millilitres, milligrams, whats };
using PerHour = std::array<double, whats>;
struct Words {
    const char *need, *unit, *less;
};
constexpr std::array<Words, whats> words{{{"carbohydrate", "g/h", "aimed for"},
                                          {"drink", "ml/h", "the steady sips aimed for"},
                                          {"sodium", "mg/h", "aimed for"}}};

PerHour aim_of(const Setting& now, size_t leg) {
    const auto& need = now.need.legs[leg];
    return {need.carb_g_per_h, need.fluid_aim_ml_per_h, need.sodium_mg_per_h};
}

PerHour brought_by(const Decided& leg) {
    PerHour out{};
    for (const auto& feed : leg.feeds) {
        out[grams] += feed.carb_g;
        out[millilitres] += feed.fluid_ml;
        out[milligrams] += feed.sodium_mg;
    }
    for (double& each : out)
        each /= leg.leg->length_s[likely] / 3600;
    return out;
}

bool is_short(const Setting& now, What what, double aim, double brought) {
    constexpr std::array<double, whats> grain{5, 50, 50}; // per hour: below what anybody notices
    const bool up_to = now.effort.total.p50_s < 2 * 3600;
    const double missing = aim - brought;
    return missing >= grain[what] && missing >= (up_to ? up_to_share : short_share) * aim;
}

/// A rule, and another day on which it is not in the way.
struct Lift {
    std::string rule, lift;
    Program program;
};

/// Plans nothing but this leg.
void leave_alone(Program& program, size_t leg) {
    for (auto& other : program.legs)
        if (other.leg != leg)
            other.grids.clear();
}

/// The same leg on another day, with what was fixed.
class Lifts {
public:
    Lifts(const Setting& now, const Program& program, size_t leg, WorkBudget& budget)
        : now_(now), program_(program), leg_(leg), budget_(budget) {}

    std::vector<Lift> all() {
        const auto& leg = program_.legs[leg_];
        const bool bike = leg.kind == LegKind::bike;
        if (bike)
            of_the_bike(leg);
        else
            of_the_run(leg);
        if (stations_of(now_.event, now_.effort, leg_).empty() && now_.event.race)
            if (Event event = now_.event; (event.station_policy = StationPolicy::typical, true))
                with("what is carried", "aid stations: name them, or ask for typical ones", now_.athlete,
                     event);
        if (!now_.athlete.avoid.empty() || !now_.athlete.only.empty()) {
            Athlete athlete = now_.athlete;
            athlete.avoid.clear();
            athlete.only.clear();
            with("the foods that are left out", "allow some of them", athlete, now_.event);
        }
        of_the_gut();
        of_the_ceiling();
        return std::move(out_);
    }

private:
    void of_the_bike(const LegProgram& leg) {
        const Hands hands = hands_of(now_.athlete);
        if (hands != Hands::bottle_and_food) {
            Athlete athlete = now_.athlete;
            athlete.hands = Hands::bottle_and_food;
            with("hands stay on the bar: only the bottle on straight calm road",
                 "practise taking food while riding, then say so", athlete, now_.event);
        }
        if (leg.bottles)
            change("what the bottles hold", "another bottle of 750 ml",
                   [&](LegProgram& l) { l.own_ml += bottle_ml; });
        if (leg.pocket_mg >= 0)
            change("the room for food on the bike", "a box for food",
                   [](LegProgram& l) { l.pocket_mg = -1; });
        if (now_.event.bike_rhythm_s) {
            Event event = now_.event;
            event.bike_rhythm_s.reset();
            with("the rhythm that was asked for", "leave the rhythm open", now_.athlete, event);
        }
        if (now_.event.max_lines_bike)
            change("the lines that the card holds", "a larger card", [](LegProgram& l) { l.max_lines = 9; });
    }

    void of_the_run(const LegProgram& leg) {
        if (leg.room >= 0)
            change("the room in the run belt", "room for two more gels in the belt", [](LegProgram& l) {
                l.room += 2;
                if (l.room_before_bag >= 0)
                    l.room_before_bag += 2;
            });
        if (stations_of(now_.event, now_.effort, leg_).empty() && !leg.drinks.empty())
            change("what the flask holds", "250 ml more in a flask",
                   [](LegProgram& l) { l.own_ml += flask_ml * l.length_s[likely] / l.length_s[slow]; });
        if (now_.event.max_lines_run)
            change("the lines that the card holds", "a larger card", [](LegProgram& l) { l.max_lines = 9; });
    }

    void of_the_gut() {
        const auto ten_more = [](Program& program, std::initializer_list<Resource> which, double share) {
            const auto widen = [&](Caps& caps) {
                for (const Resource r : which)
                    for (auto* each : {&caps.hour, &caps.two_hours, &caps.leg})
                        (*each)[r] = static_cast<std::int32_t>((*each)[r] * share);
            };
            widen(program.day_caps);
            for (auto& leg : program.legs)
                widen(leg.caps);
        };
        const auto lift = [&](const char* rule, const char* help, std::initializer_list<Resource> which,
                              double share) {
            Program program = program_;
            ten_more(program, which, share);
            out_.push_back({rule, help, std::move(program)});
        };
        const bool may_train = !now_.athlete.rehearsed.gut_trained;
        if (may_train) {
            lift("60 g/h by the glucose path", "gut training over weeks, then declared", {glucose}, 1.2);
            lift("40 g/h by the fructose path", "gut training over weeks, then declared", {fructose}, 1.35);
        }
        lift("carbohydrate in any hour", "a higher rate once it has been rehearsed",
             {carb, glucose, fructose}, 1.15);
    }

    void of_the_ceiling() {
        if (now_.athlete.sweat || now_.athlete.learned_sweat)
            return;
        Need need = now_.need;
        for (auto& leg : need.legs)
            leg.fluid_ml_per_h =
                std::min(leg.fluid_ml_per_h * tested_share, std::max(leg.fluid_ml_per_h, 800.0));
        const Setting other{now_.athlete, now_.event, now_.effort, need, now_.pantry, now_.menu, now_.kit};
        add("the fluid ceiling", "a sweat test, which may allow about a third more drink", other);
    }

    template <typename Change>
    void change(const char* rule, const char* help, const Change& change) {
        Program program = program_;
        change(program.legs[leg_]);
        out_.push_back({rule, help, std::move(program)});
    }

    void with(const char* rule, const char* help, const Athlete& athlete, const Event& event) {
        const Menu menu = make_menu(athlete, event.weather, now_.need.limits, now_.pantry);
        const KitInUse kit = kit_in_use(event, now_.effort);
        add(rule, help, {athlete, event, now_.effort, now_.need, now_.pantry, menu, kit});
    }

    /// On that day its own habits hold.
    void add(const char* rule, const char* help, const Setting& day) {
        Program program = program_of(day);
        leave_alone(program, leg_);
        budget_.spend(learn_habits(day, program, work_of_one));
        for (const auto& item : program_.fixed)
            fix(program, item);
        out_.push_back({rule, help, std::move(program)});
    }

    const Setting& now_;
    const Program& program_;
    size_t leg_;
    WorkBudget& budget_;
    std::vector<Lift> out_;
};

/// One leg when it is planned alone.
std::optional<PerHour> alone(Program program, size_t leg, const KitInUse& kit, WorkBudget& budget) {
    leave_alone(program, leg);
    const auto solution = budget.solve(program, work_of_one);
    if (!solution.any)
        return std::nullopt;
    return brought_by(decided(program, leg, solution.legs[leg], kit, 0));
}

struct Help {
    std::string rule, lift;
    double gives = 0;
};

} // namespace

std::vector<Unmet> find_unmet(const Setting& now, const Program& program, const std::vector<Decided>& legs,
                              WorkBudget& budget) {
    std::vector<Unmet> out;
    for (const auto& leg : legs) {
        const size_t index = leg.leg->leg;
        if ((leg.leg->kind != LegKind::bike && leg.leg->kind != LegKind::run) ||
            now.need.legs[index].carb_g_per_h <= 0) // nothing is needed there: a cup, if one is thirsty
            continue;
        const PerHour aim = aim_of(now, index), brought = brought_by(leg);
        std::array<bool, whats> missing{};
        for (const What what : {grams, millilitres, milligrams})
            missing[what] = is_short(now, what, aim[what], brought[what]);
        if (std::none_of(missing.begin(), missing.end(), [](bool any) { return any; }))
            continue;
        std::array<Help, whats> best;
        if (const auto usual = alone(program, index, now.kit, budget))
            for (auto& lift : Lifts(now, program, index, budget).all())
                if (const auto lifted = alone(std::move(lift.program), index, now.kit, budget))
                    for (const What what : {grams, millilitres, milligrams}) {
                        const double gives = (*lifted)[what] - std::max((*usual)[what], brought[what]);
                        if (gives >= help_share * aim[what] && gives > best[what].gives + 0.5)
                            best[what] = {lift.rule, lift.lift, gives};
                    }
        for (const What what : {grams, millilitres, milligrams}) {
            if (!missing[what])
                continue;
            const Help& help = best[what];
            Unmet unmet;
            unmet.what = static_cast<Wanted>(what);
            unmet.leg = leg.leg->kind;
            unmet.need = fmt::format("{} on the {}", words[what].need, to_string(leg.leg->kind));
            unmet.rule = help.rule.empty() ? "the rhythm, whole units and all rules together" : help.rule;
            unmet.cost_g_per_h = std::round(aim[what] - brought[what]);
            unmet.lift = help.lift.empty() ? "nothing that was tried" : help.lift;
            unmet.unit = words[what].unit;
            unmet.lift_gives = std::round(help.gives);
            out.push_back(unmet);
        }
    }
    return out;
}

} // namespace tuck::schedule
