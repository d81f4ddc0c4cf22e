// Whether item lines keep the rows of a leg, and how much each row has left.
#pragma once

#include "schedule/rows.hpp"

#include <vector>

namespace tuck::schedule {

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
    /// What is known to have been taken, whether it fits or not.
    void take_amounts(size_t slot, const Amounts& amounts) { add(slot, amounts); }
    void give_back_amounts(size_t slot, const Amounts& amounts) { remove(slot, amounts); }
    /// A fingerprint of all that the rows leave to slots from `slot` on.
    std::uint64_t open_from(size_t slot) const;

private:
    bool add(size_t slot, const Amounts& amounts);
    void remove(size_t slot, const Amounts& amounts);
    const LegProgram& leg_;
    const Grid& grid_;
    std::vector<std::int32_t> left_;
    std::array<std::vector<std::vector<size_t>>, resources> rows_at_; // by resource and slot
    std::vector<size_t> last_slot_;                            // by row
};

} // namespace tuck::schedule
