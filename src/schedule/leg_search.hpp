// The best item lines of one leg under one drink line, by branch and bound.
#pragma once

#include "schedule/rows.hpp"

#include <limits>
#include <vector>

namespace tuck::schedule {

inline constexpr Cost no_cost = std::numeric_limits<Cost>::max() / 4;

/// Whether item lines keep the rows, and how much each row has left.
class Room {
public:
    Room(const Rows& rows, const LegProgram& leg, const Grid& grid);
    /// False, and nothing changed, if a row would break.
    bool take(const ItemLine& line);
    void give_back(const ItemLine& line);
    /// One feed of a line; what `take_feed` took goes back with `give_back_feed`. False, and nothing changed, if a
    /// row would break.
    bool take_feed(size_t slot, int food);
    void give_back_feed(size_t slot, int food);
    /// Whether one more feed would keep the rows.
    bool fits(size_t slot, int food) const;
    /// A fingerprint of all that the rows leave to slots from `slot` on.
    std::uint64_t open_from(size_t slot) const;

private:
    bool add(size_t slot, const Amounts& amounts);
    void remove(size_t slot, const Amounts& amounts);
    const LegProgram& leg_;
    const Grid& grid_;
    std::vector<std::int32_t> left_;
    std::vector<std::vector<std::pair<int, size_t>>> by_slot_; // resource, row
    std::vector<size_t> last_slot_;                            // by row
};

/// What the rest of a leg costs at least, whatever came before: exact but for rows that span more than one line
/// and the first feed of the next, and for carbohydrate in steps of `step_mg`. Built backwards over the slots, for
/// every amount of carbohydrate eaten so far and, on the run, every number of items taken from the belt.
class LowerBound {
public:
    /// A line that no row forbids by itself.
    struct Move {
        ItemLine line;
        Cost points = 0; // without its kind
        int items = 0;   // from the belt
        std::int64_t carb_mg = 0;
        size_t meets = 0; // which lines may follow, see `Meeting`
    };

    LowerBound(const LegProgram& leg, const Grid& grid, const DrinkLine& drink, const Rows& rows,
               const std::vector<ItemLine>& lines, const std::vector<FixedItem>& fixed, int step_mg, bool with_meetings);

    /// The whole leg.
    Cost least() const;
    /// After a line; checkpoints after it not yet counted. `carb_mg`, `items`: with those of the line.
    Cost after(const Move& move, std::int64_t carb_mg, int items) const;
    /// Whether a line of `food` may start at `slot` after this one, as far as their meeting shows.
    bool may_follow(const Move& move, size_t slot, int food) const;
    /// From a line of `food` that starts at `slot`, without its kind and the checkpoints before it.
    Cost starting(size_t slot, int food, std::int64_t carb_mg, int items) const;
    /// Checkpoints that lie just before `slot`, for exactly `carb_mg` of items.
    Cost passing(size_t slot, std::int64_t carb_mg) const;
    const std::vector<Move>& moves(size_t slot, int food) const { return moves_[slot][static_cast<size_t>(food)]; }

private:
    using Column = std::vector<std::int32_t>; // by step of carbohydrate, saturated, and one more
    using Columns = std::vector<Column>;      // by items taken from the belt
    /// What follows a line that ends at a slot: bit (slot - last - 1) * foods + food tells what may start there.
    /// Lines with the same bits share it.
    struct Meeting {
        std::uint64_t bits = 0;
        Columns least;
    };
    size_t reach(size_t last) const; // slots after `last` that an hour can hold together with it
    std::uint64_t bits_after(size_t last, const Room& room_left) const;
    void place_checkpoints(const std::vector<FixedItem>& fixed);
    void collect_moves(const std::vector<ItemLine>& lines, Room& room_left);
    void keep(const ItemLine& line, const Room& room_left);
    void build();
    void start(size_t slot);
    void meet(size_t last, Meeting& meeting);
    void relax(size_t slot, const Move& move, Columns& best);
    Cost look_up(const Columns& columns, std::int64_t carb_mg, int items) const;

    const LegProgram& leg_;
    const Grid& grid_;
    const DrinkLine& drink_;
    int step_mg_;
    bool with_meetings_;
    size_t steps_ = 0, levels_ = 1;
    std::vector<std::vector<std::pair<Checkpoint, std::int64_t>>> points_; // by slot: checkpoint, base of others
    std::vector<Column> passing_;                                          // empty: no checkpoint there
    std::vector<Columns> free_;                                            // by slot: any line may start
    std::vector<std::vector<Columns>> starts_;                             // by slot and food
    std::vector<std::vector<Meeting>> meetings_;                           // by slot
    std::vector<std::vector<std::vector<Move>>> moves_;                    // by slot and food
    Column scratch_;
};

} // namespace tuck::schedule
