#include "schedule/solver.hpp"

#include "schedule/leg_search.hpp"

#include <algorithm>
#include <memory>
#include <unordered_map>

namespace tuck::schedule {

namespace {

constexpr int coarse_mg = 4000, fine_mg = 1000;

/// One rhythm and one drink line of a leg, and what the leg costs at least with them.
struct Way {
    size_t grid = 0;
    DrinkLine drink;
    Cost least = 0;
    std::unique_ptr<LowerBound> bound; // made when it is needed
};

struct LegWays {
    std::vector<Way> ways; // cheapest first
    std::vector<std::vector<ItemLine>> lines; // by grid
    Rule broken = Rule::none;                 // of the first way, if none keeps the rules
};

class Search {
public:
    Search(const Program& program, long long work) : program_(program), work_left_(work), work_(work) {
        fixed_ = fixed_others(program);
    }

    Solution run() {
        list_ways();
        least_after_.assign(program_.legs.size() + 1, 0);
        for (size_t leg = program_.legs.size(); leg-- > 0;)
            least_after_[leg] = least_after_[leg + 1] + least_of(leg);
        best_.bound = least_after_[0];
        if (best_.bound < no_cost) {
            current_.assign(program_.legs.size(), {});
            one_leg_ = false;
            best_.points = no_cost;
            work_left_ = work_;
            leg(0, fixed_, -1, 0);
            used_ += work_ - work_left_;
        }
        Solution out = best_;
        out.work = used_;
        if (!out.any)
            out.broken = broken_;
        else if (work_left_ > 0)
            out.bound = out.points;
        return out;
    }

private:
    bool feeds(size_t leg) const { return !program_.legs[leg].grids.empty(); }

    Rows rows(size_t leg, const Way& way, const std::vector<Other>& others) const {
        const auto& l = program_.legs[leg];
        return rows_of(program_, l, l.grids[way.grid], way.drink, others);
    }

    std::unique_ptr<LowerBound> bound(size_t leg, const Way& way, const Rows& r, int step_mg) {
        const auto& l = program_.legs[leg];
        const auto& lines = ways_[leg].lines[way.grid];
        work_left_ -= static_cast<long long>(lines.size()) * 200'000 / step_mg;
        return std::make_unique<LowerBound>(l, l.grids[way.grid], way.drink, r, lines, program_.fixed, step_mg,
                                            step_mg == fine_mg);
    }

    Cost set_up(size_t leg, const Way& way) const { // before any item
        return program_.legs[leg].grids[way.grid].points + way.drink.points;
    }

    void list_ways() {
        ways_.resize(program_.legs.size());
        for (size_t leg = 0; leg < program_.legs.size(); ++leg) {
            auto& list = ways_[leg];
            for (size_t grid = 0; grid < program_.legs[leg].grids.size(); ++grid) {
                list.lines.push_back(item_lines(program_.legs[leg], grid));
                for (const auto& drink : drink_lines(program_.legs[leg], grid)) {
                    Way way{grid, drink, 0, nullptr};
                    way.least = set_up(leg, way);
                    list.ways.push_back(std::move(way));
                }
            }
            sort(list);
        }
    }

    static void sort(LegWays& list) {
        std::stable_sort(list.ways.begin(), list.ways.end(),
                         [](const Way& a, const Way& b) { return a.least < b.least; });
    }

    /// What a leg costs at least when nothing but fixed items comes before it: its own optimum.
    Cost least_of(size_t leg) {
        if (!feeds(leg))
            return 0;
        auto& list = ways_[leg];
        std::vector<Way> kept;
        for (auto& way : list.ways) {
            const Rows r = rows(leg, way, fixed_);
            if (r.broken) {
                list.broken = list.broken == Rule::none ? r.broken_rule : list.broken;
                continue;
            }
            way.least = set_up(leg, way) + bound(leg, way, r, coarse_mg)->least();
            kept.push_back(std::move(way));
        }
        list.ways = std::move(kept);
        sort(list);
        if (list.ways.empty()) {
            broken_ = list.broken;
            return no_cost;
        }
        best_.points = no_cost;
        one_leg_ = true;
        current_.assign(program_.legs.size(), {});
        work_left_ = work_ / 4;
        this->leg(leg, fixed_, -1, 0);
        sort(list);
        const Cost least = work_left_ > 0 ? best_.points : list.ways.front().least;
        used_ += work_ / 4 - work_left_;
        best_.any = false;
        return least;
    }

    /// All ways of a leg, with everything before it decided.
    void leg(size_t index, const std::vector<Other>& before, int drink, Cost cost) {
        if (index == program_.legs.size())
            return finish(cost);
        if (!feeds(index))
            return leg(index + 1, before, drink, cost);
        const Cost after = one_leg_ ? 0 : least_after_[index + 1];
        for (auto& way : ways_[index].ways) {
            if (work_left_ <= 0)
                return;
            if (cost + way.least + after >= best_.points)
                continue;
            const bool bottles = program_.legs[index].bottles && way.drink.drink >= 0;
            if (bottles && drink >= 0 && drink != way.drink.drink)
                continue; // all own bottles hold the same drink
            if (!way.bound) {
                way.bound = bound(index, way, rows(index, way, fixed_), fine_mg);
                way.least = set_up(index, way) + way.bound->least();
                if (cost + way.least + after >= best_.points)
                    continue;
            }
            const Rows r = rows(index, way, before);
            work_left_ -= 500;
            if (r.broken)
                continue;
            const auto& l = program_.legs[index];
            Room left(r, l, l.grids[way.grid]);
            Step step{index, &way, &left, &before, bottles ? way.drink.drink : drink, {}, {}};
            Node node;
            node.cost = cost + set_up(index, way);
            items(step, node);
        }
    }

    struct Step {
        size_t leg;
        const Way* way;
        Room* left;
        const std::vector<Other>* before;
        int drink;
        std::vector<ItemLine> chosen;
        std::unordered_map<std::uint64_t, Cost> seen; // cheapest way so far into a state
    };

    /// Everything that what comes later can depend on.
    std::uint64_t state(const Step& step, size_t slot, std::int64_t carb_mg, std::uint32_t kinds) const {
        std::uint64_t hash = step.left->open_from(slot);
        const auto mix = [&hash](std::uint64_t word) {
            hash = (hash ^ word) * 1099511628211u;
            hash ^= hash >> 31;
        };
        mix(slot);
        mix(static_cast<std::uint64_t>(carb_mg));
        mix(kinds);
        mix(step.chosen.size());
        if (!one_leg_) { // the next leg sees the last hour of this one, and all that was drunk
            const auto& l = program_.legs[step.leg];
            const auto& grid = l.grids[step.way->grid];
            std::uint64_t water = 0;
            for (const auto& line : step.chosen)
                for (const size_t i : slots_of(grid, line)) {
                    water += static_cast<std::uint64_t>(
                        l.foods[static_cast<size_t>(line.food)].amounts[fluid]);
                    if (grid.slots[i].at_s > grid.slots[std::min(slot, grid.regular - 1)].at_s - 3700)
                        mix(i * 64 + static_cast<std::uint64_t>(line.food));
                }
            mix(water);
        }
        return hash;
    }

    /// What was chosen so far on a leg.
    struct Node {
        const LowerBound::Move* line = nullptr; // the last one
        std::int64_t carb_mg = 0;
        int items = 0; // from the belt
        std::uint32_t kinds = 0;
        Cost cost = 0; // without the checkpoints after the last line
    };

    /// All ways to go on: one more line, or none.
    void items(Step& step, const Node& node) {
        --work_left_;
        const auto& l = program_.legs[step.leg];
        const auto& bound = *step.way->bound;
        const Cost after = one_leg_ ? 0 : least_after_[step.leg + 1];
        const auto hopeless = [&](Cost least) { return least + after >= best_.points || work_left_ <= 0; };
        const size_t begin = node.line ? static_cast<size_t>(node.line->line.last + 1) : 0, end = l.grids[step.way->grid].regular;
        if (node.line) {
            if (hopeless(node.cost + bound.after(*node.line, node.carb_mg, node.items)))
                return;
            const auto [at, fresh] = step.seen.try_emplace(state(step, begin, node.carb_mg, node.kinds), node.cost);
            if (!fresh && at->second <= node.cost)
                return;
            at->second = node.cost;
        }
        struct Choice {
            Cost least, paused;
            const LowerBound::Move* move;
        };
        std::vector<Choice> choices;
        const bool full = step.way->drink.lines + static_cast<int>(step.chosen.size()) >= l.max_lines;
        Cost paused = node.cost;
        for (size_t slot = begin; slot < end; ++slot) {
            paused += bound.passing(slot, node.carb_mg);
            for (int food = 0; !full && food < static_cast<int>(l.foods.size()); ++food) {
                const Cost kind = node.kinds >> food & 1u ? 0 : l.foods[static_cast<size_t>(food)].points;
                if ((node.line && !bound.may_follow(*node.line, slot, food)) ||
                    hopeless(paused + kind + bound.starting(slot, food, node.carb_mg, node.items)))
                    continue;
                for (const auto& move : bound.moves(slot, food)) {
                    const Cost own = paused + kind + cost_of(step, move, node.carb_mg);
                    const Cost least = own + bound.after(move, node.carb_mg + move.carb_mg, node.items + move.items);
                    if (!hopeless(least))
                        choices.push_back({least, own, &move});
                }
            }
        }
        paused += bound.passing(end, node.carb_mg);
        if (!hopeless(paused))
            choices.push_back({paused, paused, nullptr});
        std::stable_sort(choices.begin(), choices.end(),
                         [](const Choice& a, const Choice& b) { return a.least < b.least; });
        for (const auto& choice : choices) {
            if (hopeless(choice.least))
                return;
            if (!choice.move) {
                close(step, choice.paused);
                continue;
            }
            const auto& move = *choice.move;
            if (!step.left->take(move.line))
                continue;
            step.chosen.push_back(move.line);
            items(step, {&move, node.carb_mg + move.carb_mg, node.items + move.items,
                         node.kinds | 1u << move.line.food, choice.paused});
            step.chosen.pop_back();
            step.left->give_back(move.line);
        }
    }

    /// A line with the checkpoints between its slots, without its kind.
    Cost cost_of(const Step& step, const LowerBound::Move& move, std::int64_t carb_mg) const {
        const auto& l = program_.legs[step.leg];
        const auto& grid = l.grids[step.way->grid];
        const auto& line = move.line;
        Cost cost = move.points;
        for (int i = line.first; i < line.last; ++i) {
            const bool on_beat = (i - line.first) % line.step == 0;
            if (on_beat && (grid.slots[static_cast<size_t>(i)].foods >> line.food & 1u))
                carb_mg += l.foods[static_cast<size_t>(line.food)].amounts[carb];
            cost += step.way->bound->passing(static_cast<size_t>(i) + 1, carb_mg);
        }
        return cost;
    }

    void close(const Step& step, Cost cost) {
        const auto& l = program_.legs[step.leg];
        current_[step.leg] = {step.way->grid, step.way->drink, step.chosen};
        if (one_leg_)
            return finish(cost);
        auto before = *step.before;
        const auto own = taken(l, l.grids[step.way->grid], step.way->drink, step.chosen);
        before.insert(before.end(), own.begin(), own.end());
        leg(step.leg + 1, before, step.drink, cost);
    }

    void finish(Cost cost) {
        if (cost >= best_.points)
            return;
        best_.any = true;
        best_.points = cost;
        best_.legs = current_;
    }

    const Program& program_;
    std::vector<Other> fixed_;
    std::vector<LegWays> ways_;
    std::vector<Cost> least_after_;
    std::vector<LegSolution> current_;
    Solution best_;
    Rule broken_ = Rule::none;
    bool one_leg_ = false;
    long long work_left_, work_, used_ = 0;
};

} // namespace

Solution solve(const Program& program, long long work) {
    return Search(program, work).run();
}

} // namespace tuck::schedule
