// The simulated days: speed beside a plain double loop and beside bare arithmetic, one whole outlook, memory,
// and 500 days through the full body. Fails when a figure does not hold. Build as Release.
#include "io/pantry.hpp"
#include "outlook/engine.hpp"
#include "reference/full_body.hpp"
#include "tuck/compose.hpp"
#include "tuck/outlook.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <fmt/format.h>
#include <sys/resource.h>

using namespace tuck;
using namespace tuck::outlook;

namespace {

constexpr std::size_t days = 10000;
constexpr double most_ms = 16, least_faster = 4, most_bare_ratio = 2, most_mb = 64;
bool all_hold = true;

void hold(bool holds, const std::string& text) {
    all_hold = all_hold && holds;
    fmt::print("{}  {}\n", holds ? "holds " : "MISSED", text);
}

template <typename Round>
double best_ms(int rounds, const Round& round) {
    double best = 1e99;
    for (int i = 0; i < rounds; ++i) {
        const auto start = std::chrono::steady_clock::now();
        round();
        const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
        best = std::min(best, took.count());
    }
    return best;
}

reference::Race race_of(const std::string& name, double celsius) {
    reference::Race r;
    r.athlete.mass_kg = 70;
    r.athlete.level = Level::keen;
    r.event.preset = name;
    r.event.legs = preset_legs(name);
    r.event.weather.temperature_c = celsius;
    r.event.weather.humidity_pct = 60;
    r.event.weather.water_temperature_c = 20;
    r.event.station_policy = StationPolicy::typical;
    r.effort = estimate_effort(r.athlete, r.event);
    r.body = describe_body(r.athlete, r.event, r.effort);
    static const Pantry pantry = io::load_pantry(TUCK_FOODS_DIR);
    r.schedule = make_schedule(r.athlete, r.event, r.effort, r.body,
                               state_need(r.athlete, r.event, r.effort, r.body), pantry);
    return r;
}

RaceGrid grid_of(const reference::Race& r) {
    return race_grid(r.athlete, r.event, r.effort, r.body, r.schedule, Drinking::as_lived);
}

// ---- bare arithmetic of the same size ----

// A simulated minute without a feed: 63 multiplications and 72 additions, minima and maxima in day_lanes.inc,
// and one division; an exponential only where a leg starts (counted by hand). Here: 64 multiply-adds that are
// not fused, in 16 chains that do not wait for each other.
constexpr int chains = 16, rounds_per_minute = 4;

template <typename Vector>
[[gnu::always_inline]] inline void bare_loop(std::size_t minutes, float* out) {
    Vector x[chains];
    for (int c = 0; c < chains; ++c)
        x[c] = Vector{} + static_cast<float>(c);
    for (std::size_t i = 0; i < minutes * rounds_per_minute; ++i)
        for (int c = 0; c < chains; ++c)
            x[c] = x[c] * 0.999f + 0.5f;
    for (int c = 0; c < chains; ++c)
        __builtin_memcpy(out + static_cast<std::size_t>(c) * sizeof(Vector) / 4, &x[c], sizeof(Vector));
}

typedef float F4 __attribute__((vector_size(16)));
typedef float F8 __attribute__((vector_size(32)));
typedef float F16 __attribute__((vector_size(64)));

[[gnu::noinline]] void bare_4(std::size_t minutes, float* out) {
    bare_loop<F4>(minutes, out);
}
#ifdef __x86_64__
[[gnu::noinline, gnu::target("avx2")]] void bare_8(std::size_t minutes, float* out) {
    bare_loop<F8>(minutes, out);
}
[[gnu::noinline, gnu::target("avx512f")]] void bare_16(std::size_t minutes, float* out) {
    bare_loop<F16>(minutes, out);
}
#endif

double bare_ns_per_minute(int lanes) {
    constexpr std::size_t minutes = 200000;
    float sink[chains * 16];
    const double ms = best_ms(7, [&] {
#ifdef __x86_64__
        if (lanes == 16)
            return bare_16(minutes, sink);
        if (lanes == 8)
            return bare_8(minutes, sink);
#endif
        bare_4(minutes, sink);
    });
    return ms * 1e6 / static_cast<double>(minutes) / lanes + 0 * static_cast<double>(sink[0]);
}

void speed(const std::string& name) {
    const auto r = race_of(name, 25);
    const RaceGrid grid = grid_of(r);
    DayColumns columns(days);
    double sum = 0;
    const double plain_ms = best_ms(3, [&] {
        for (std::uint32_t d = 0; d < days; ++d)
            sum += reference::simulate_day(grid, d).water_ml;
    });
    const auto minutes = static_cast<double>(grid.minutes.size() * days);
    fmt::print("\n{}: {} minutes, {} days; plain double loop {:.1f} ms, {:.1f} ns a minute\n", name,
               grid.minutes.size(), days, plain_ms, plain_ms * 1e6 / minutes);
    for (const auto& target : targets()) {
        if (!target.runs_here()) {
            fmt::print("skipped: this machine has no {}\n", target.name);
            continue;
        }
        const double ms = best_ms(9, [&] { simulate(grid, columns, target); });
        const double ns = ms * 1e6 / minutes, bare = bare_ns_per_minute(target.lanes);
        const auto text =
            fmt::format("{:9} {:6.2f} ms, {:5.2f} ns a minute, {:4.1f} x the plain loop, {:.2f} x bare "
                        "arithmetic ({:.2f} ns)",
                        target.name, ms, ns, plain_ms / ms, ns / bare, bare);
        if (&target == &best_target())
            hold(plain_ms / ms >= least_faster && ns / bare <= most_bare_ratio, text);
        else
            fmt::print("        {}\n", text);
    }
    if (sum == 0)
        fmt::print("nothing was simulated\n");
}

void one_outlook() {
    const auto r = race_of("standard", 25);
    PlanOutlook out;
    const double ms =
        best_ms(15, [&] { out = look_ahead(r.athlete, r.event, r.effort, r.body, r.schedule); });
    fmt::print("\n");
    hold(ms < most_ms, fmt::format("one outlook at standard distance: {:.1f} ms (aim {:.0f}), {} bands", ms,
                                   most_ms, out.bands.size()));
    const Pantry pantry = io::load_pantry(TUCK_FOODS_DIR);
    const double plan = best_ms(3, [&] { compose_plan(r.athlete, r.event, pantry); });
    fmt::print("        the whole plan around it: {:.1f} ms\n", plan);
    const auto l = race_of("long", 25);
    fmt::print("        one outlook at long distance: {:.1f} ms\n",
               best_ms(5, [&] { look_ahead(l.athlete, l.event, l.effort, l.body, l.schedule); }));
}

void memory() {
    auto r = race_of("long", 25);
    r.event.preset.clear();
    r.event.legs = {Leg{}};
    r.event.legs[0].kind = LegKind::bike;
    r.event.legs[0].distance_m = 1200e3;
    r.event.legs[0].time_s = 72 * 3600;
    r.effort = estimate_effort(r.athlete, r.event);
    r.body = describe_body(r.athlete, r.event, r.effort);
    r.schedule.feeds.clear();
    look_ahead(r.athlete, r.event, r.effort, r.body, r.schedule);
    rusage use{};
    getrusage(RUSAGE_SELF, &use);
    const double mb = static_cast<double>(use.ru_maxrss) / 1024;
    hold(mb < most_mb,
         fmt::format("most memory so far, 72 h ride included: {:.0f} MB (aim {:.0f})", mb, most_mb));
}

void through_the_body(const std::string& name, double celsius) {
    constexpr std::size_t few = 500;
    const auto r = race_of(name, celsius);
    const RaceGrid grid = grid_of(r);
    DayColumns fast(few);
    simulate(grid, fast, best_target());
    std::vector<double> full[4], slope[4];
    for (std::uint32_t d = 0; d < few; ++d) {
        const auto day = reference::full_body_day(r, grid, d);
        const auto value = [&](Column c) { return static_cast<double>(fast[c][d]); };
        const double pct = 100 / static_cast<double>(grid.mass_g);
        const double a[4] = {pct * day.mass_g, pct * day.water_ml, day.serum_sodium,
                             day.muscle_g + day.liver_g};
        const double b[4] = {pct * value(Column::mass_g), pct * value(Column::water_ml),
                             value(Column::serum_sodium), value(Column::muscle_g) + value(Column::liver_g)};
        for (int i = 0; i < 4; ++i) {
            full[i].push_back(a[i]);
            slope[i].push_back(b[i]);
        }
    }
    const char* names[4] = {"mass, %", "water, %", "serum sodium, mmol/L", "glycogen, g"};
    for (int i = 0; i < 4; ++i) {
        std::sort(full[i].begin(), full[i].end());
        std::sort(slope[i].begin(), slope[i].end());
        for (const double p : {0.05, 0.5, 0.95}) {
            const double se = std::sqrt(p * (1 - p) / few);
            const auto at = [&](const std::vector<double>& v, double q) {
                return v[static_cast<std::size_t>(q * (few - 1))];
            };
            const double error = (at(full[i], p + se) - at(full[i], p - se)) / 2,
                         off = at(slope[i], p) - at(full[i], p);
            hold(std::abs(off) <= error + 1e-9,
                 fmt::format(
                     "{} {:.0f} C, {:21} p{:02.0f}: full body {:8.3f}, slopes {:+.3f}, Monte Carlo error "
                     "{:.3f}",
                     name, celsius, names[i], 100 * p, at(full[i], p), off, error));
        }
    }
}

} // namespace

int main() {
    speed("standard");
    speed("long");
    one_outlook();
    memory();
    fmt::print("\n500 days with the same draws, through the full body and along its slopes\n");
    through_the_body("standard", 12);
    through_the_body("standard", 33);
    through_the_body("long", 24);
    return all_hold ? 0 : 1;
}
