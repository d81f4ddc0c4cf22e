#include "outlook/engine.hpp"

#include "outlook/physiology.hpp"

#include <algorithm>

// The same lines for every target. Vectors as wide as the processor's; floats never contracted to fused
// multiply-adds (see CMakeLists.txt: -ffp-contract=off), so that the bytes do not depend on the width.
// Only g++ switches targets inside a file; another compiler has the baseline, which is enough.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define TUCK_X86_TARGETS 1
#endif

namespace tuck::outlook {

namespace baseline {
namespace {
#define TUCK_LANES 4
#include "outlook/day_lanes.inc"
#undef TUCK_LANES
} // namespace
} // namespace baseline

#ifdef TUCK_X86_TARGETS
#pragma GCC push_options
#pragma GCC target("avx2,prefer-vector-width=256")
namespace avx2 {
namespace {
#define TUCK_LANES 8
#include "outlook/day_lanes.inc"
#undef TUCK_LANES
} // namespace
} // namespace avx2
#pragma GCC pop_options

#pragma GCC push_options
#pragma GCC target("avx512f,avx512dq,avx512bw,avx512vl,prefer-vector-width=512")
namespace avx512 {
namespace {
#define TUCK_LANES 16
#include "outlook/day_lanes.inc"
#undef TUCK_LANES
} // namespace
} // namespace avx512
#pragma GCC pop_options
#endif

namespace {

// Keeps memory level. Fresh memory costs more than the arithmetic does: with 16 the outlook took 5 ms more.
constexpr std::size_t marks_at_once = 4;

bool always() {
    return true;
}
#ifdef TUCK_X86_TARGETS
bool has_avx2() {
    return __builtin_cpu_supports("avx2");
}
bool has_avx512() {
    return __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
           __builtin_cpu_supports("avx512bw") && __builtin_cpu_supports("avx512vl");
}
#endif

std::uint64_t spread_bits(std::uint64_t z) { // finaliser of SplitMix64 (Steele, Lea & Flood 2014)
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

} // namespace

const std::vector<Target>& targets() {
    static const std::vector<Target> all{
        {"baseline", 4, always, baseline::draw, baseline::advance, baseline::finish, baseline::logs,
         baseline::exps, baseline::normals},
#ifdef TUCK_X86_TARGETS
        {"avx2", 8, has_avx2, avx2::draw, avx2::advance, avx2::finish, avx2::logs, avx2::exps, avx2::normals},
        {"avx512", 16, has_avx512, avx512::draw, avx512::advance, avx512::finish, avx512::logs, avx512::exps,
         avx512::normals},
#endif
    };
    return all;
}

const Target& best_target() {
    static const Target& best = *std::find_if(targets().rbegin(), targets().rend(),
                                              [](const Target& target) { return target.runs_here(); });
    return best;
}

void simulate(const RaceGrid& grid, DayColumns& columns, const Target& target, const AtMark& at_mark) {
    target.draw(grid, columns);
    const std::size_t n = columns.padded();
    std::vector<float> kept(at_mark ? 3 * marks_at_once * n : 0);
    std::vector<MarkColumns> marks(marks_at_once);
    for (std::size_t k = 0; at_mark && k < marks_at_once; ++k)
        marks[k] = {kept.data() + 3 * k * n, kept.data() + (3 * k + 1) * n, kept.data() + (3 * k + 2) * n};

    std::size_t first = 0, done = 0;
    while (first < grid.minutes.size()) {
        std::size_t last = first, marked = 0;
        while (last < grid.minutes.size() && marked < marks_at_once)
            marked += grid.minutes[last++].marks;
        target.advance(grid, first, last, columns, at_mark ? marks.data() : nullptr);
        for (std::size_t k = 0; at_mark && k < marked; ++k)
            at_mark(done + k, marks[k]);
        done += marked;
        first = last;
    }
    target.finish(grid, columns);
}

Key draw_key(std::uint64_t seed, std::uint32_t variable) {
    constexpr std::uint64_t odd = 0x9e3779b97f4a7c15u;
    const std::uint64_t bits = spread_bits(spread_bits(seed + odd) + (variable + 1) * odd);
    return {static_cast<std::uint32_t>(bits), static_cast<std::uint32_t>(bits >> 32)};
}

float uniform(Key key, std::uint32_t day) {
    const auto mixed = [](std::uint32_t h) {
        h = (h ^ (h >> 16)) * 0x85ebca6bu;
        h = (h ^ (h >> 13)) * 0xc2b2ae35u;
        return h ^ (h >> 16);
    };
    const std::uint32_t h = mixed(mixed(day + key.a) ^ key.b);
    return (static_cast<float>(h >> 9) + 0.5f) * 0x1p-23f;
}

} // namespace tuck::outlook
