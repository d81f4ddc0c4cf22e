// The engine of the outlook: the same bytes on every processor, and the arithmetic of a plain double.
#include "outlook/engine.hpp"
#include "outlook/order.hpp"
#include "reference/normal_quantile.hpp"
#include "reference/outlook_reference.hpp"
#include "stage_examples.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>

using namespace tuck;
using namespace tuck::example;
using namespace tuck::outlook;

namespace {

RaceGrid grid_of(const std::string& name, double celsius, Drinking drinking = Drinking::as_lived) {
    Event event = race(name, celsius);
    event.station_policy = StationPolicy::typical;
    const Athlete person = athlete(68, Level::steady);
    const auto effort = estimate_effort(person, event);
    const auto body = describe_body(person, event, effort);
    return race_grid(person, event, effort, body, schedule_of(person, event), drinking);
}

DayColumns days_of(const RaceGrid& grid, const Target& target, std::size_t n) {
    DayColumns out(n);
    simulate(grid, out, target, [](std::size_t, const MarkColumns&) {});
    return out;
}

bool same_bytes(const DayColumns& a, const DayColumns& b) {
    const auto floats = static_cast<std::size_t>(Column::count) * a.padded();
    return std::memcmp(a[Column::air_c], b[Column::air_c], floats * sizeof(float)) == 0;
}

} // namespace

TEST_CASE("every vector width gives the same bytes", "[outlook][engine]") {
    // Odd numbers of days too: the last block is not full.
    for (const std::size_t days : {1001u, 16u, 3u})
        for (const char* name : {"standard", "long"}) {
            const RaceGrid grid = grid_of(name, 29);
            const DayColumns narrow = days_of(grid, targets().front(), days);
            for (const auto& target : targets()) {
                if (!target.runs_here()) {
                    WARN("skipped: this machine has no " << target.name);
                    continue;
                }
                INFO(target.name << " on " << name << ", " << days << " days");
                CHECK(same_bytes(days_of(grid, target, days), narrow));
            }
        }
}

TEST_CASE("a day does not depend on the days beside it", "[outlook][engine]") {
    const RaceGrid grid = grid_of("standard", 24);
    const DayColumns few = days_of(grid, best_target(), 48), many = days_of(grid, best_target(), 480);
    for (std::size_t c = 0; c < static_cast<std::size_t>(Column::count); ++c)
        for (std::size_t d = 0; d < few.days(); ++d)
            CHECK(few[static_cast<Column>(c)][d] == many[static_cast<Column>(c)][d]);
}

TEST_CASE("own logarithm, exponential and normal quantile", "[outlook][engine]") {
    // Against libm and against AS 241 in double. Claimed: 2e-7 relative; the quantile of 7 figures 1e-6.
    constexpr std::size_t n = 1 << 16;
    std::vector<float> x(n), out(n);
    for (const auto& target : targets()) {
        if (!target.runs_here())
            continue;
        double worst = 0;
        for (std::size_t i = 0; i < n; ++i)
            x[i] = std::exp(-40 + 80 * static_cast<float>(i) / n);
        target.logs(x.data(), n, out.data());
        for (std::size_t i = 0; i < n; ++i) {
            const double exact = std::log(static_cast<double>(x[i]));
            worst = std::max(worst,
                             std::abs(static_cast<double>(out[i]) - exact) / std::max(1e-3, std::abs(exact)));
        }
        CHECK(worst < 2e-7);
        worst = 0;
        for (std::size_t i = 0; i < n; ++i)
            x[i] = -60 + 120 * static_cast<float>(i) / n;
        target.exps(x.data(), n, out.data());
        for (std::size_t i = 0; i < n; ++i)
            worst = std::max(worst,
                             std::abs(static_cast<double>(out[i]) / std::exp(static_cast<double>(x[i])) - 1));
        CHECK(worst < 2e-7);
        worst = 0;
        const Key key = draw_key(5, 5);
        target.normals(key, n, out.data());
        for (std::size_t i = 0; i < n; ++i) {
            const double exact =
                reference::normal_quantile(static_cast<double>(uniform(key, static_cast<std::uint32_t>(i))));
            worst = std::max(worst, std::abs(static_cast<double>(out[i]) - exact));
        }
        CHECK(worst < 3e-6);
    }
}

TEST_CASE("ten thousand days agree with plain double precision, day by day", "[outlook][engine]") {
    // 1 ml, 1 mg of sodium, 0.05 g of glycogen, 0.01 mmol/L; a flag may differ
    // only that close to its limit.
    for (const auto& [name, celsius] : {std::pair{"standard", 31.0}, {"long", 22.0}, {"super-sprint", 8.0}})
        for (const auto drinking : {Drinking::as_lived, Drinking::whole}) {
            const RaceGrid grid = grid_of(name, celsius, drinking);
            const DayColumns days = days_of(grid, best_target(), 10000);
            double water = 0, mass = 0, sodium = 0, glycogen = 0, serum = 0;
            int flags = 0;
            for (std::size_t d = 0; d < days.days(); ++d) {
                const auto judge = reference::simulate_day(grid, static_cast<std::uint32_t>(d));
                const auto value = [&](Column c) { return static_cast<double>(days[c][d]); };
                const auto off = [](double a, double b, double& worst) {
                    worst = std::max(worst, std::abs(a - b));
                };
                off(judge.water_ml, value(Column::water_ml), water);
                off(judge.urine_ml, value(Column::urine_ml), water);
                off(judge.mass_g, value(Column::mass_g), mass);
                off(judge.sodium_mg, value(Column::sodium_mg), sodium);
                off(judge.muscle_g + judge.liver_g, value(Column::muscle_g) + value(Column::liver_g),
                    glycogen);
                off(judge.serum_sodium, value(Column::serum_sodium), serum);
                const auto differs = [&](double a, double b, double limit, double near) {
                    flags += (a > limit) != (b > limit) && std::abs(a - limit) > near;
                };
                differs(judge.water_ml, value(Column::water_ml), 0, 1);
                differs(judge.mass_g, value(Column::mass_g), 0, 1);
                for (const double pct : {-0.02, -0.04})
                    differs(judge.water_ml, value(Column::water_ml), pct * static_cast<double>(grid.mass_g),
                            1);
                differs(judge.serum_sodium, value(Column::serum_sodium), 135, 0.01);
                differs(judge.muscle_g + judge.liver_g, value(Column::muscle_g) + value(Column::liver_g),
                        0.1 * static_cast<double>(grid.muscle_g + grid.liver_g), 0.05);
                CHECK(judge.missed_feeds == value(Column::missed_feeds));
                CHECK(judge.late_feeds == value(Column::late_feeds));
                CHECK(judge.missed_stations == value(Column::missed_stations));
                differs(judge.fullest_ml, value(Column::fullest_ml), 0, 1);
            }
            INFO(name << " " << celsius);
            CHECK(water < 1);
            CHECK(mass < 1);
            CHECK(sodium < 1);
            CHECK(glycogen < 0.05);
            CHECK(serum < 0.01);
            CHECK(flags == 0);
        }
}

TEST_CASE("percentiles are those of sorting", "[outlook][order]") {
    Picker picker;
    std::vector<float> found;
    for (const std::size_t n : {1u, 2u, 3u, 10u, 1000u, 9999u}) {
        std::vector<float> values(n + lane_block);
        best_target().normals(draw_key(3, static_cast<std::uint32_t>(n)),
                              n / lane_block * lane_block + lane_block, values.data());
        values.resize(n);
        for (std::size_t i = 0; i < n; i += 3)
            values[i] = 0; // many equal ones, as empty stores are
        if (n > 5)
            values[5] = 1e6f; // and one far away
        const std::vector<std::size_t> ranks{rank_of(0.05, n), rank_of(0.5, n), rank_of(0.95, n)};
        picker.pick(values.data(), n, ranks, found);
        std::sort(values.begin(), values.end());
        for (std::size_t k = 0; k < ranks.size(); ++k)
            CHECK(found[k] == values[ranks[k]]);
    }
    const std::vector<float> same(100, 7.0f);
    picker.pick(same.data(), same.size(), {4, 50, 94}, found);
    CHECK(found == std::vector<float>{7, 7, 7});
}

TEST_CASE("draws depend on their three numbers and on nothing else", "[outlook][engine]") {
    CHECK(uniform(draw_key(1, 3), 2) == uniform(draw_key(1, 3), 2));
    CHECK(uniform(draw_key(1, 3), 2) != uniform(draw_key(2, 3), 2));
    CHECK(uniform(draw_key(1, 3), 2) != uniform(draw_key(1, 3), 3));
    CHECK(uniform(draw_key(1, 3), 2) != uniform(draw_key(1, 4), 2));
    // The lanes draw what the scalar function says.
    std::vector<float> z(lane_block);
    best_target().normals(draw_key(9, 9), lane_block, z.data());
    for (std::uint32_t d = 0; d < lane_block; ++d)
        CHECK(
            static_cast<double>(z[d]) ==
            Approx(reference::normal_quantile(static_cast<double>(uniform(draw_key(9, 9), d)))).margin(3e-6));
}

TEST_CASE("draws are uniform, normal and independent", "[outlook][engine]") {
    // Of n = 131,072: standard errors 0.0008 (mean of uniform), 0.0028 (mean of normal), 0.0039 (its
    // variance), 0.0028 (a correlation). Five of them; the seed is fixed, so this cannot fail by chance.
    constexpr std::size_t n = 1 << 17;
    std::vector<float> z(n), w(n), other_seed(n);
    best_target().normals(draw_key(7, 2), n, z.data());
    best_target().normals(draw_key(7, 3), n, w.data());
    best_target().normals(draw_key(8, 2), n, other_seed.data());
    double sum = 0, z_sum = 0, squares = 0, across = 0, along = 0, seeds = 0;
    int tail = 0;
    for (std::size_t d = 0; d < n; ++d) {
        const double u = static_cast<double>(uniform(draw_key(7, 1), static_cast<std::uint32_t>(d)));
        REQUIRE(u > 0);
        REQUIRE(u < 1);
        const double here = static_cast<double>(z[d]);
        sum += u;
        z_sum += here;
        squares += here * here;
        across += here * static_cast<double>(w[d]);
        seeds += here * static_cast<double>(other_seed[d]);
        along += d > 0 ? here * static_cast<double>(z[d - 1]) : 0;
        tail += here > 2;
    }
    CHECK(sum / n == Approx(0.5).margin(5 * 0.0008));
    CHECK(z_sum / n == Approx(0).margin(5 * 0.0028));
    CHECK(squares / n == Approx(1).margin(5 * 0.0039));
    CHECK(across / n == Approx(0).margin(5 * 0.0028));
    CHECK(along / n == Approx(0).margin(5 * 0.0028));
    CHECK(seeds / n == Approx(0).margin(5 * 0.0028));
    CHECK(tail / static_cast<double>(n) == Approx(0.02275).margin(5 * 0.0004)); // 1 - Phi(2)
}

TEST_CASE("the normal quantile of the judge is AS 241's", "[outlook][engine]") {
    // Wichura 1988 claims about 1e-16 relative. Values: statistics.NormalDist().inv_cdf of Python 3.11.
    struct Value {
        double p, z;
    };
    for (const auto& [p, z] : {Value{1e-300, -37.0470962993612},
                               {1e-10, -6.361340902404056},
                               {1e-5, -4.2648907939228256},
                               {0.001, -3.090232306167813},
                               {0.025, -1.9599639845400538},
                               {0.075, -1.4395314709384557},
                               {0.1, -1.2815515655446008},
                               {0.25, -0.6744897501960817},
                               {0.75, 0.6744897501960817},
                               {0.95, 1.6448536269514715},
                               {0.999, 3.090232306167813},
                               {0.99999, 4.26489079392384}}) {
        INFO("p " << p);
        CHECK(reference::normal_quantile(p) == Approx(z).epsilon(4e-15));
    }
    CHECK(reference::normal_quantile(0.5) == 0);
}
