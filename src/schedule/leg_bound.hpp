// What the rest of a leg costs at least.
#pragma once

#include "schedule/moves.hpp"
#include "schedule/room.hpp"

#include <limits>
#include <span>
#include <unordered_map>
#include <vector>

namespace tuck::schedule {

inline constexpr Cost no_cost = std::numeric_limits<Cost>::max() / 4;
inline constexpr std::int32_t out_of_reach = std::numeric_limits<std::int32_t>::max() / 4; // in the tables

/// The feeds of the last hour or so, which may still speak against the next ones. 0: none that matter. Foods
/// that bring about the same stand in it as one, with the least of what each of them brings.
using Tail = std::uint32_t;

/// What the rest of a leg costs at least after a tail: exact but for rows that span more than the last hour,
/// for kinds of food after the first, and for carbohydrate in steps of `step_mg`. Built backwards over the
/// slots, for every amount of carbohydrate eaten so far and, on the run, every number of items taken from the
/// belt.
class LegBound {
public:
    struct Precision {
        int step_mg = 1000;
        bool tails = true; // false: every line may follow every other
    };

    LegBound(const LegProgram& leg, const Grid& grid, const DrinkLine& drink, const Rows& rows,
             const Moves& moves, const std::vector<FixedItem>& fixed, Precision precision);

    /// The whole leg.
    Cost least() const;

    /// Lines of a food from a slot that no row forbids by themselves.
    std::span<const Move* const> moves(size_t slot, int food) const;
    /// Whether a line gets on with the tail after a line that ended at `last`.
    bool may_follow(Tail tail, size_t last, const Move& move) const;
    /// The tail after a line that may follow.
    Tail tail_after(Tail tail, const Move& move) const;
    /// After a line that ends at `last`; checkpoints after it not yet counted.
    Cost after(size_t last, Tail tail, std::int64_t carb_mg, int items) const;
    /// From any line of `food` that starts at `slot`, without its kind and the checkpoints before it.
    Cost starting(size_t slot, int food, std::int64_t carb_mg, int items) const;
    /// Checkpoints that lie just before `slot`, for exactly `carb_mg` of items.
    Cost passing(size_t slot, std::int64_t carb_mg) const;
    /// A line with the checkpoints between its slots, without its kind.
    Cost cost_of(const Move& move, std::int64_t carb_mg) const;

    /// Steps of arithmetic that it took to build: the same on every machine.
    long long work() const { return work_; }

private:
    using Column = std::vector<std::int32_t>; // by step of carbohydrate, and one more
    using Columns = Column;                   // one after the other, by items taken from the belt
    struct Fed {
        size_t slot;
        size_t like; // index into likes_
    };
    using Feeds = std::vector<Fed>; // in order of time
    struct TailRecord {
        Feeds feeds;
        Columns least;
        std::vector<std::uint8_t>
            fits; // by slot after the last one and group: feeds of such a line that get on
    };
    /// Lines of one group that end while the hour before them may still matter, and all longer ones together.
    struct Starts {
        std::vector<Columns> single; // by line
        Columns rest;
        bool any_rest = false;
    };

    void place_checkpoints(const std::vector<FixedItem>& fixed);
    void collect_moves(const Moves& moves);
    void liken_foods();
    void link_slots(const Rows& rows);
    void build();
    void start(size_t slot);
    std::uint8_t fitting(const Move& longest, size_t reach);
    Feeds feeds_after(const Feeds& before, const Move& move) const;
    std::uint64_t key_of(size_t last, const Feeds& feeds) const;
    Tail tail_of(size_t last, const Feeds& feeds); // made if it is new
    void fill(size_t last, TailRecord& record);
    void follow(size_t last, size_t slot, size_t reach, TailRecord& record, const Column& paused);
    const Columns& columns_of(size_t last, Tail tail) const;
    void relax(size_t slot, const Move& move, const Columns& then, Columns& best);
    void lower(Columns& out, const Column& paused, const Columns& by);
    Cost look_up(const Columns& columns, std::int64_t carb_mg, int items) const;
    Columns nothing_yet() const;

    const LegProgram& leg_;
    const Grid& grid_;
    const DrinkLine& drink_;
    Precision precision_;
    Room room_;
    size_t steps_ = 0, wide_ = 0, levels_ = 1, groups_ = 1;
    std::vector<std::vector<std::pair<Checkpoint, std::int64_t>>>
        points_;                  // by slot: checkpoint, base of others
    std::vector<Column> passing_; // empty: no checkpoint there
    std::vector<Amounts> likes_;
    std::vector<size_t> like_of_;               // by food
    std::vector<size_t> reaches_;               // by slot: the last one that shares an hour with it
    std::vector<Columns> free_;                 // by slot: any line may start
    std::vector<std::vector<Columns>> starts_;  // by slot and food
    std::vector<std::vector<Starts>> by_group_; // by slot and group
    std::vector<const Move*> moves_;            // that no row forbids
    std::vector<size_t> moves_from_;            // by slot and food: its first one
    std::vector<TailRecord> tails_;             // 0 unused
    std::unordered_map<std::uint64_t, Tail> known_;
    Column scratch_;
    long long work_ = 0;
};

} // namespace tuck::schedule
