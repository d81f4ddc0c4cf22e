#include "schedule/solver.hpp"

#include "schedule/leg_bound.hpp"

#include <algorithm>
#include <memory>
#include <queue>
#include <unordered_map>

namespace tuck::schedule {

namespace {

/// How closely a way is bounded, one after the other: most ways are out of the question early.
constexpr LegBound::Precision precisions[] = {{1000, false}, {4000, true}, {1000, true}};
constexpr long long work_of_rows = 100;
constexpr size_t closest = std::size(precisions);

/// One rhythm and one drink line of a leg, and what the leg costs at least with them.
struct Way {
    size_t grid = 0;
    DrinkLine drink;
    Cost least = 0;
    Cost after = -1;   // what the legs that follow cost at least under this drink; -1: not yet asked
    size_t looked = 0; // precisions used up
    std::unique_ptr<LegBound> bound; // the closest one
};

struct LegWays {
    std::vector<Way> ways;    // by the price of their drink
    std::vector<Moves> moves; // by grid
    Rule broken = Rule::none; // of the first way, if none keeps the rules
};

class Search {
public:
    Search(const Program& program, long long work) : program_(program), work_left_(work), work_(work) {
        fixed_ = fixed_others(program);
    }

    Solution run() {
        list_ways();
        least_after_.assign(program_.legs.size() + 1, 0);
        Alone first; // of the legs that feed, looked at alone
        for (size_t leg = program_.legs.size(); leg-- > 0;) {
            if (feeds(leg))
                first = alone(leg, fixed_, -1, work_ / 4);
            least_after_[leg] = least_after_[leg + 1] + (feeds(leg) ? first.least : 0);
        }
        best_.bound = least_after_[0];
        if (best_.bound >= no_cost)
            for (const auto& list : ways_)
                broken_ = broken_ == Rule::none ? list.broken : broken_;
        else {
            best_.points = no_cost;
            start_leg_by_leg(first);
            current_.assign(program_.legs.size(), {});
            one_leg_ = false;
            leg(0, fixed_, -1, 0);
        }
        Solution out = best_;
        out.work = work_ - work_left_;
        if (!out.any)
            out.broken = broken_;
        else
            out.bound = work_left_ > 0 ? out.points : std::max(out.bound, least_open());
        return out;
    }

private:
    bool feeds(size_t leg) const { return !program_.legs[leg].grids.empty(); }

    Rows rows(size_t leg, const Way& way, const std::vector<Other>& others) const {
        const auto& l = program_.legs[leg];
        return rows_of(program_, l, l.grids[way.grid], way.drink, others);
    }

    /// Bounds a way one step more closely.
    void look_closer(size_t leg, Way& way) {
        const Rows r = rows(leg, way, fixed_);
        if (r.broken) {
            auto& broken = ways_[leg].broken;
            broken = broken == Rule::none ? r.broken_rule : broken;
            way.least = no_cost;
            return;
        }
        const auto& l = program_.legs[leg];
        auto bound =
            std::make_unique<LegBound>(l, l.grids[way.grid], way.drink, r, ways_[leg].moves[way.grid],
                                       program_.fixed, precisions[way.looked]);
        work_left_ -= bound->work();
        way.least = std::max(way.least, set_up(leg, way) + bound->least());
        if (++way.looked == closest)
            way.bound = std::move(bound);
    }

    Cost set_up(size_t leg, const Way& way) const { // before any item
        return program_.legs[leg].grids[way.grid].points + way.drink.points;
    }

    /// What items and the end of the leg cost at least: by how much one feed can bring.
    Cost least_of_items(size_t leg, const Way& way) const {
        const auto& l = program_.legs[leg];
        const Grid& grid = l.grids[way.grid];
        if (l.checkpoints.empty() || grid.regular == 0)
            return 0;
        std::int64_t known_mg = 0; // drunk, and fixed
        for (size_t i = 0; i < grid.regular; ++i)
            if (way.drink.feeds(grid, i))
                known_mg += std::int64_t{l.drink_at(way.drink, i).amounts[carb]} * way.drink.sips;
        for (const auto& item : program_.fixed)
            known_mg += item.leg == l.leg ? item.amounts[carb] : 0;
        std::int64_t largest_mg = 0;
        Cost kind = no_cost;
        for (const auto& food : l.foods) {
            largest_mg = std::max<std::int64_t>(largest_mg, food.amounts[carb]);
            kind = std::min(kind, food.points);
        }
        const Checkpoint& end = l.checkpoints.back();
        const std::int64_t missing_mg = end.carb_mg - known_mg;
        Cost least = carb_off(end, missing_mg);
        for (std::int64_t feeds = 1; largest_mg > 0 && missing_mg > 0; ++feeds) {
            const std::int64_t eaten_mg = std::min(feeds * largest_mg, missing_mg);
            least = std::min(least,
                             price::line + kind + price::item * feeds + carb_off(end, missing_mg - eaten_mg));
            if (eaten_mg < feeds * largest_mg)
                break;
        }
        return least;
    }

    void list_ways() {
        ways_.resize(program_.legs.size());
        for (size_t leg = 0; leg < program_.legs.size(); ++leg) {
            auto& list = ways_[leg];
            for (size_t grid = 0; grid < program_.legs[leg].grids.size(); ++grid) {
                list.moves.emplace_back(program_.legs[leg], program_.legs[leg].grids[grid]);
                for (const auto& drink : drink_lines(program_.legs[leg], grid)) {
                    if (drink.lines > program_.legs[leg].max_lines)
                        continue;
                    Way way;
                    way.grid = grid;
                    way.drink = drink;
                    way.least = set_up(leg, way) + least_of_items(leg, way);
                    list.ways.push_back(std::move(way));
                }
            }
            std::stable_sort(list.ways.begin(), list.ways.end(),
                             [](const Way& x, const Way& y) { return x.least < y.least; });
        }
    }

    /// What the day costs at least by what is known of the ways of the first leg that feeds.
    Cost least_open() const {
        size_t first = 0;
        while (!feeds(first))
            ++first;
        Cost least = best_.points;
        for (const auto& way : ways_[first].ways)
            least = std::min(least, way.least < no_cost ? least_with(first, way) : no_cost);
        return least;
    }

    /// One leg after all that came before, as if none followed.
    struct Alone {
        Cost least = 0;
        Solution found; // of that leg only
    };

    Alone alone(size_t leg, const std::vector<Other>& before, int drink, long long work) {
        const Solution best = best_;
        const auto current = current_;
        const bool one_leg = one_leg_;
        const auto left = work_left_, share = std::min(left, work);
        best_.points = no_cost;
        one_leg_ = true;
        current_.assign(program_.legs.size(), {});
        work_left_ = share;
        best_.any = false;
        this->leg(leg, before, drink, 0);
        Alone out{best_.points, best_};
        if (work_left_ <= 0)
            for (const auto& way : ways_[leg].ways)
                out.least = std::min(out.least, way.least);
        best_ = best;
        current_ = current;
        one_leg_ = one_leg;
        work_left_ += left - share;
        return out;
    }

    /// Something to begin with: each leg as if none followed. A search that runs out of work has a plan,
    /// then.
    void start_leg_by_leg(const Alone& first) {
        Solution out;
        out.any = true;
        out.legs.assign(program_.legs.size(), {});
        auto before = fixed_;
        int drink = -1;
        bool begun = false;
        for (size_t leg = 0; leg < program_.legs.size(); ++leg) {
            if (!feeds(leg))
                continue;
            const Alone one = begun ? alone(leg, before, drink, work_ / 16) : first;
            begun = true;
            if (!one.found.any)
                return;
            const auto& l = program_.legs[leg];
            const auto& chosen = out.legs[leg] = one.found.legs[leg];
            out.points += one.found.points;
            const auto own = taken(l, l.grids[chosen.grid], chosen.drink, chosen.items);
            before.insert(before.end(), own.begin(), own.end());
            if (l.bottles && chosen.drink.drink >= 0)
                drink = chosen.drink.drink;
        }
        out.bound = best_.bound;
        best_ = out;
    }

    /// What the legs after this one cost at least once this one's drink is chosen.
    void ask_after(size_t leg, Way& way) {
        const auto& l = program_.legs[leg];
        auto others = fixed_;
        const auto own = taken(l, l.grids[way.grid], way.drink, {});
        others.insert(others.end(), own.begin(), own.end());
        way.after = 0;
        for (size_t next = leg + 1; next < program_.legs.size(); ++next)
            if (feeds(next))
                way.after += std::max(alone(next, others, -1, work_ / 32).least,
                                      least_after_[next] - least_after_[next + 1]);
    }

    /// What a way and all that follows cost at least.
    Cost least_with(size_t leg, const Way& way) const {
        return one_leg_ ? way.least : way.least + std::max(way.after, least_after_[leg + 1]);
    }

    /// All ways of a leg, the most promising first, with everything before it decided.
    void leg(size_t index, const std::vector<Other>& before, int drink, Cost cost) {
        if (index == program_.legs.size())
            return finish(cost);
        if (!feeds(index))
            return leg(index + 1, before, drink, cost);
        using Promise = std::pair<Cost, size_t>; // least, place in the list
        std::priority_queue<Promise, std::vector<Promise>, std::greater<>> open;
        auto& ways = ways_[index].ways;
        for (size_t i = 0; i < ways.size(); ++i)
            open.push({least_with(index, ways[i]), i});
        for (auto left = open; one_leg_ && !best_.any && !left.empty(); left.pop())
            if (const Way& way = ways[left.top().second]; may_hold(index, way, drink))
                guess(index, way, before, drink, cost);
        while (!open.empty() && work_left_ > 0 && cost + open.top().first < best_.points) {
            Way& way = ways[open.top().second];
            const size_t place = open.top().second;
            open.pop();
            if (!may_hold(index, way, drink))
                continue;
            if (way.looked < closest || (!one_leg_ && way.after < 0)) {
                if (way.looked < closest)
                    look_closer(index, way);
                else
                    ask_after(index, way);
                if (way.least < no_cost)
                    open.push({least_with(index, way), place});
                continue;
            }
            search_way(index, way, before, drink, cost);
        }
    }

    /// All own bottles hold the same drink; -1: not yet chosen.
    bool may_hold(size_t index, const Way& way, int drink) const {
        return !program_.legs[index].bottles || drink < 0 || way.drink.drink < 0 || drink == way.drink.drink;
    }

    void search_way(size_t index, const Way& way, const std::vector<Other>& before, int drink, Cost cost) {
        const Rows r = rows(index, way, before);
        work_left_ -= work_of_rows;
        if (r.broken)
            return;
        const auto& l = program_.legs[index];
        Room left(r, l, l.grids[way.grid]);
        if (l.bottles && way.drink.drink >= 0)
            drink = way.drink.drink;
        Step step{index, &way, &left, &before, drink, least_with(index, way) - way.least, {}, {}};
        Node node;
        node.cost = cost + set_up(index, way);
        items(step, node);
    }

    /// Any plan with this way, found by its loosest bound: to begin with.
    void guess(size_t index, const Way& way, const std::vector<Other>& before, int drink, Cost cost) {
        const auto& l = program_.legs[index];
        const Rows r = rows(index, way, before);
        if (r.broken)
            return;
        Way copy;
        copy.grid = way.grid;
        copy.drink = way.drink;
        copy.least = way.least;
        copy.bound = std::make_unique<LegBound>(l, l.grids[way.grid], way.drink, r,
                                                ways_[index].moves[way.grid], program_.fixed, precisions[0]);
        work_left_ -= copy.bound->work();
        any_will_do_ = true;
        search_way(index, copy, before, drink, cost);
        any_will_do_ = false;
    }

    struct Step {
        size_t leg;
        const Way* way;
        Room* left;
        const std::vector<Other>* before;
        int drink;
        Cost after; // what the legs after this one cost at least
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
                    water +=
                        static_cast<std::uint64_t>(l.foods[static_cast<size_t>(line.food)].amounts[fluid]);
                    if (grid.slots[i].at_s > grid.slots[std::min(slot, grid.regular - 1)].at_s - 3700)
                        mix(i * 64 + static_cast<std::uint64_t>(line.food));
                }
            mix(water);
        }
        return hash;
    }

    /// What was chosen so far on a leg.
    struct Node {
        const Move* line = nullptr; // the last one
        std::int64_t carb_mg = 0;
        int items = 0; // from the belt
        Tail tail = 0;
        std::uint32_t kinds = 0;
        Cost cost = 0; // without the checkpoints after the last line
    };

    /// All ways to go on: one more line, or none.
    void items(Step& step, const Node& node) {
        --work_left_;
        const auto& l = program_.legs[step.leg];
        const auto& bound = *step.way->bound;
        const Cost after = step.after;
        const auto hopeless = [&](Cost least) {
            return least + after >= best_.points || (any_will_do_ ? best_.any : work_left_ <= 0);
        };
        const size_t begin = node.line ? static_cast<size_t>(node.line->line.last + 1) : 0,
                     end = l.grids[step.way->grid].regular;
        if (node.line) {
            if (hopeless(node.cost + bound.after(begin - 1, node.tail, node.carb_mg, node.items)))
                return;
            const auto [at, fresh] =
                step.seen.try_emplace(state(step, begin, node.carb_mg, node.kinds), node.cost);
            if (!fresh && at->second <= node.cost)
                return;
            at->second = node.cost;
        }
        struct Choice {
            Cost least, paused;
            const Move* move;
            Tail tail;
        };
        std::vector<Choice> choices;
        const bool full = step.way->drink.lines + static_cast<int>(step.chosen.size()) >= l.max_lines;
        Cost paused = node.cost;
        for (size_t slot = begin; slot < end; ++slot) {
            paused += bound.passing(slot, node.carb_mg);
            for (int food = 0; !full && food < static_cast<int>(l.foods.size()); ++food) {
                const Cost kind = node.kinds >> food & 1u ? 0 : l.foods[static_cast<size_t>(food)].points;
                if (hopeless(paused + kind + bound.starting(slot, food, node.carb_mg, node.items)))
                    continue;
                for (const Move* at : bound.moves(slot, food)) {
                    const auto& move = *at;
                    --work_left_;
                    if (node.line && !bound.may_follow(node.tail, begin - 1, move))
                        continue;
                    const Tail tail = bound.tail_after(node.tail, move);
                    const size_t last = static_cast<size_t>(move.line.last);
                    const Cost own = paused + kind + bound.cost_of(move, node.carb_mg);
                    const std::int64_t carb_mg = node.carb_mg + move.carb_mg;
                    const Cost least = own + bound.after(last, tail, carb_mg, node.items + move.items);
                    if (!hopeless(least))
                        choices.push_back({least, own, &move, tail});
                }
            }
        }
        paused += bound.passing(end, node.carb_mg);
        if (!hopeless(paused))
            choices.push_back({paused, paused, nullptr, 0});
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
            items(step, {&move, node.carb_mg + move.carb_mg, node.items + move.items, choice.tail,
                         node.kinds | 1u << move.line.food, choice.paused});
            step.chosen.pop_back();
            step.left->give_back(move.line);
        }
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
    bool one_leg_ = false, any_will_do_ = false;
    long long work_left_, work_;
};

} // namespace

Solution solve(const Program& program, long long work) {
    return Search(program, work).run();
}

} // namespace tuck::schedule
