// The engine: one day a lane, on the widest vectors that the machine has.
#pragma once

#include "outlook/day_columns.hpp"
#include "outlook/race_grid.hpp"

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace tuck::outlook {

/// One way to compile the same arithmetic. All give the same bytes: additions and multiplications are never
/// fused, exponential and logarithm are our own, and lanes do not know of each other.
struct Target {
    const char* name; // "baseline", "avx2", "avx512"
    int lanes;
    bool (*runs_here)();
    void (*draw)(const RaceGrid&, DayColumns&);
    void (*advance)(const RaceGrid&, std::size_t first, std::size_t last, DayColumns&, const MarkColumns*);
    void (*finish)(const RaceGrid&, DayColumns&);
    // For tests: each number of `x`, which has a multiple of lane_block.
    void (*logs)(const float* x, std::size_t n, float* out);
    void (*exps)(const float* x, std::size_t n, float* out);
    void (*normals)(Key key, std::size_t n, float* out);
};

/// Every target that this build has, narrowest first.
const std::vector<Target>& targets();
/// The widest that runs here.
const Target& best_target();

/// Runs all days of `columns` through the race. `at_mark(k, marks)` is called at each mark in order of time,
/// with the values of all days; leave it empty if nobody looks. Memory does not grow with the race.
using AtMark = std::function<void(std::size_t mark, const MarkColumns& values)>;
void simulate(const RaceGrid& grid, DayColumns& columns, const Target& target, const AtMark& at_mark = {});

/// Uniform in (0, 1) on a grid of 2^-23, a pure function of the key and the day.
Key draw_key(std::uint64_t seed, std::uint32_t variable);
float uniform(Key key, std::uint32_t day);

} // namespace tuck::outlook
