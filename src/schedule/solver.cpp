#include "schedule/solver.hpp"

#include "schedule/rows.hpp"

#include <algorithm>
#include <iterator>
#include <limits>
#include <map>
#include <tuple>

namespace tuck::schedule {

namespace {

constexpr Cost no_cost = std::numeric_limits<Cost>::max() / 4;
constexpr long long work_of_rows = 2000, work_of_check = 20;
constexpr size_t usual_slots = 72; // twelve hours of every ten minutes

/// An item line with all that does not hang on the drink.
struct Move {
    ItemLine line;
    Cost points = 0;
    std::int64_t carb_mg = 0, sodium_mg = 0;
    std::vector<std::int64_t> by_hour; // carbohydrate in each priced hour
};

/// Item lines of one clock that cost and bring the same.
struct Kind {
    int food = 0;
    bool soft = false;
    Cost points = 0;
    std::int64_t carb_mg = 0, sodium_mg = 0;
    std::vector<size_t> moves;
};

/// One clock and one drink line.
struct Way {
    size_t grid = 0;
    DrinkLine drink;
    Cost set_up = 0;                         // clock and drink
    Cost least = 0;                          // of the leg with them
    std::int64_t carb_mg = 0, sodium_mg = 0; // drunk, and fixed
    std::vector<std::int64_t> by_hour;
};

class LegSearch {
public:
    LegSearch(const Program& program, const LegProgram& leg, const std::vector<Other>& others, int bottles,
              long long work)
        : program_(program), leg_(leg), others_(others), bottles_(bottles), work_left_(work) {
        for (const auto& grid : leg.grids)
            longer_ = std::max(longer_, static_cast<long long>(grid.slots.size() / usual_slots));
        for (size_t i = 0; i < leg.foods.size(); ++i) {
            const auto& food = leg.foods[i];
            const Cost habit = usual(leg, static_cast<int>(i)) ? price::unusual : 0;
            largest_mg_ = std::max<std::int64_t>(largest_mg_, food.amounts[carb]);
            least_line_ = std::min(least_line_, price::line + food.points - habit);
            least_item_ = std::min(least_item_, food.item_points);
        }
    }

    void run() {
        list_moves();
        list_ways();
        for (const Way& way : ways_) {
            if (way.least >= points)
                break;
            const bool tired =
                work_left_ <= 0 && points < no_cost; // there is a plan, and no time for a better one
            if (!tired)
                search(way);
            if (tired || work_left_ <= 0)
                bound = std::min(bound, way.least);
            if (tired)
                break;
        }
        bound = std::min(bound, points);
    }

    Cost points = no_cost, bound = no_cost;
    LegSolution best;
    Rule broken = Rule::none; // of the first way that breaks one
    long long work_left() const { return work_left_; }

private:
    std::vector<std::int64_t> hours_of(const LegSolution& choice) const {
        std::vector<std::int64_t> out(leg_.hours.size());
        for (const auto& taking : takings(program_, leg_, choice))
            for (size_t h = 0; h < out.size(); ++h)
                if (leg_.hours[h].holds(taking.at_s))
                    out[h] += taking.carb_mg;
        return out;
    }

    void list_moves() {
        moves_.resize(leg_.grids.size());
        for (size_t grid = 0; grid < leg_.grids.size(); ++grid) {
            const auto hours = hours_of_slots(leg_.grids[grid]);
            for (const auto& line : item_lines(leg_, grid)) {
                const auto& food = leg_.foods[static_cast<size_t>(line.food)].amounts;
                Move move{line, price_of(leg_, leg_.grids[grid], line), std::int64_t{food[carb]} * line.feeds,
                          std::int64_t{food[sodium]} * line.feeds,
                          std::vector<std::int64_t>(leg_.hours.size())};
                for (const size_t slot : slots_of(leg_.grids[grid], line))
                    for (const size_t h : hours[slot])
                        move.by_hour[h] += food[carb];
                moves_[grid].push_back(std::move(move));
            }
            if (longer_ > 1)
                work_left_ -= longer_ * std::ssize(moves_[grid]);
        }
        kinds_.resize(leg_.grids.size());
        for (size_t grid = 0; grid < leg_.grids.size(); ++grid)
            kinds_[grid] = kinds_of(moves_[grid]);
    }

    /// The priced hours in which each slot lies; the last one overlaps.
    std::vector<std::vector<size_t>> hours_of_slots(const Grid& grid) const {
        std::vector<std::vector<size_t>> out(grid.slots.size());
        for (size_t slot = 0; slot < grid.regular; ++slot)
            for (size_t h = 0; h < leg_.hours.size(); ++h)
                if (leg_.hours[h].holds(grid.slots[slot].at_s))
                    out[slot].push_back(h);
        return out;
    }

    /// By what they cost.
    std::vector<Kind> kinds_of(const std::vector<Move>& moves) const {
        std::map<std::tuple<Cost, int, std::int64_t>, Kind> kinds;
        for (size_t i = 0; i < moves.size(); ++i) {
            const Move& move = moves[i];
            Kind& kind = kinds[{move.points, move.line.food, move.carb_mg}];
            if (kind.moves.empty())
                kind = {move.line.food, leg_.foods[static_cast<size_t>(move.line.food)].amounts[gel] > 0,
                        move.points,    move.carb_mg,
                        move.sodium_mg, {}};
            kind.moves.push_back(i);
        }
        std::vector<Kind> out;
        for (auto& [key, kind] : kinds)
            out.push_back(std::move(kind));
        return out;
    }

    void list_ways() {
        for (size_t grid = 0; grid < leg_.grids.size(); ++grid)
            for (const auto& drink : drink_lines(leg_, grid)) {
                const bool held = !leg_.bottles || bottles_ < 0 || drink.drink < 0 || drink.drink == bottles_;
                if (drink.lines > leg_.max_lines || !held)
                    continue;
                Way way{grid, drink, leg_.grids[grid].points + drink.points, 0, 0, 0, {}};
                const LegSolution alone{grid, drink, {}};
                for (const auto& taking : takings(program_, leg_, alone)) {
                    way.carb_mg += taking.carb_mg;
                    way.sodium_mg += taking.sodium_mg;
                }
                way.by_hour = hours_of(alone);
                way.least = way.set_up + least_of_items(way.carb_mg);
                ways_.push_back(std::move(way));
            }
        std::stable_sort(ways_.begin(), ways_.end(),
                         [](const Way& x, const Way& y) { return x.least < y.least; });
    }

    /// What items and carbohydrate off the aim cost at least: by what one feed can bring.
    Cost least_of_items(std::int64_t known_mg) const {
        const Cost more_lines = std::min<Cost>(0, least_line_ * std::max(0, leg_.max_item_lines - 1));
        Cost least = carb_off(leg_.aim, known_mg) + std::min<Cost>(0, least_line_) + more_lines;
        for (std::int64_t feeds = 1; largest_mg_ > 0 && known_mg < leg_.aim.carb_mg; ++feeds) {
            const std::int64_t eaten_mg = std::min(feeds * largest_mg_, leg_.aim.carb_mg - known_mg);
            least = std::min(least, least_line_ + more_lines + least_item_ * feeds +
                                        carb_off(leg_.aim, known_mg + eaten_mg));
            if (eaten_mg < feeds * largest_mg_)
                break;
        }
        return least;
    }

    /// What a way costs with up to two item lines.
    Cost cost_with(const Way& way, const Move* one, const Move* two) const {
        std::int64_t carb_mg = way.carb_mg, sodium_mg = way.sodium_mg;
        Cost cost = way.set_up + (two ? price_of_both(leg_, one->line.food, two->line.food) : 0);
        for (const Move* move : {one, two})
            if (move) {
                carb_mg += move->carb_mg;
                sodium_mg += move->sodium_mg;
                cost += move->points;
            }
        cost += carb_off(leg_.aim, carb_price_, carb_mg) + sodium_off(leg_, sodium_mg);
        for (size_t h = 0; h < leg_.hours.size() && cost < points; ++h)
            cost += hour_off(leg_.hours[h],
                             way.by_hour[h] + (one ? one->by_hour[h] : 0) + (two ? two->by_hour[h] : 0));
        return cost;
    }

    void search(const Way& way) {
        const Grid& grid = leg_.grids[way.grid];
        const Rows rows = rows_of(program_, leg_, grid, way.drink, others_);
        work_left_ -= longer_ * work_of_rows;
        if (rows.broken) {
            broken = broken == Rule::none ? rows.broken_rule : broken;
            return;
        }
        offer(way, rows, nullptr, nullptr);
        const int room = std::min(leg_.max_item_lines, leg_.max_lines - way.drink.lines);
        if (room < 1)
            return;
        for (const auto& kind : kinds_[way.grid])
            if (price_of_kinds(way, kind, nullptr) < points)
                for (const size_t i : kind.moves)
                    if (const Move& move = moves_[way.grid][i]; in_rhythm(leg_, way.drink, move.line))
                        offer(way, rows, &move, nullptr);
        if (room >= 2)
            search_pairs(way, rows);
    }

    /// Two item lines. Lines that differ only in when they begin cost the same but for the hours: they are
    /// priced as one, and looked at one by one only where that price beats the best so far.
    void search_pairs(const Way& way, const Rows& rows) {
        const Grid& grid = leg_.grids[way.grid];
        const auto& moves = moves_[way.grid];
        const auto& kinds = kinds_[way.grid];
        std::vector<signed char> alone(moves.size(), -1); // in rhythm and within the rows; -1: not yet asked
        const auto fits = [&](size_t i) {
            if (alone[i] < 0) {
                work_left_ -= longer_ * work_of_check;
                alone[i] =
                    in_rhythm(leg_, way.drink, moves[i].line) && keeps(rows, leg_, grid, {moves[i].line}) ? 1
                                                                                                          : 0;
            }
            return alone[i] == 1;
        };
        for (const auto& one : kinds) {
            if (way.set_up + one.points + kinds.front().points >= points)
                break; // kinds go by price
            for (const auto& two : kinds) {
                if (way.set_up + one.points + two.points >= points || work_left_ <= 0)
                    break;
                work_left_ -= 1;
                if (one.food == two.food || !two.soft || price_of_kinds(way, one, &two) >= points)
                    continue;
                for (const size_t i : one.moves) {
                    if (!fits(i))
                        continue;
                    for (const size_t j : two.moves)
                        if (may_follow(leg_, grid, moves[i].line, moves[j].line) &&
                            cost_with(way, &moves[i], &moves[j]) < points && fits(j))
                            offer(way, rows, &moves[i], &moves[j]);
                    work_left_ -= longer_ * std::ssize(two.moves) / 4;
                }
            }
        }
    }

    /// What any lines of these kinds cost at least: all but the hours.
    Cost price_of_kinds(const Way& way, const Kind& one, const Kind* two) const {
        const std::int64_t carb_mg = way.carb_mg + one.carb_mg + (two ? two->carb_mg : 0);
        const std::int64_t sodium_mg = way.sodium_mg + one.sodium_mg + (two ? two->sodium_mg : 0);
        return way.set_up + one.points + (two ? two->points + price_of_both(leg_, one.food, two->food) : 0) +
               carb_off(leg_.aim, carb_price_, carb_mg) + sodium_off(leg_, sodium_mg);
    }

    void offer(const Way& way, const Rows& rows, const Move* one, const Move* two) {
        const Cost cost = cost_with(way, one, two);
        if (cost >= points)
            return;
        LegSolution choice{way.grid, way.drink, {}};
        for (const Move* move : {one, two})
            if (move)
                choice.items.push_back(move->line);
        work_left_ -= longer_ * work_of_check;
        if (!keeps(rows, leg_, leg_.grids[way.grid], choice.items))
            return;
        points = cost;
        best = std::move(choice);
    }

    const Program& program_;
    const LegProgram& leg_;
    const std::vector<Other>& others_;
    int bottles_;
    long long work_left_;
    long long longer_ = 1; // how much more a look costs on a leg of more slots than usual
    CarbPrice carb_price_ = carb_price(leg_.aim);
    std::int64_t largest_mg_ = 0;
    Cost least_line_ = no_cost, least_item_ = no_cost;
    std::vector<std::vector<Move>> moves_; // by grid
    std::vector<std::vector<Kind>> kinds_; // by grid
    std::vector<Way> ways_;                // by what they cost at least
};

} // namespace

Solution solve(const Program& program, long long work) {
    Solution out;
    out.legs.resize(program.legs.size());
    auto others = fixed_others(program);
    int bottles = -1; // what all own bottles hold; -1: not yet chosen
    long long left = work;
    for (size_t i = 0; i < program.legs.size(); ++i) {
        const auto& leg = program.legs[i];
        if (leg.grids.empty())
            continue;
        LegSearch search(program, leg, others, leg.bottles ? bottles : -1, left);
        search.run();
        out.work += left - search.work_left();
        left = std::max<long long>(search.work_left(), work / 16); // a later leg always gets a look
        if (search.points >= no_cost) {
            out.broken = search.broken;
            return out;
        }
        out.points += search.points;
        out.bound += search.bound;
        out.legs[i] = search.best;
        if (leg.bottles && search.best.drink.drink >= 0)
            bottles = search.best.drink.drink;
        const auto own = taken(leg, search.best);
        others.insert(others.end(), own.begin(), own.end());
    }
    out.any = true;
    return out;
}

} // namespace tuck::schedule
