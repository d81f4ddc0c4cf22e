// What a diary teaches: closed forms, simulated athletes, and the step rules.
#include "diary/learning.hpp"
#include "diary/session.hpp"
#include "diary/update.hpp"
#include "diary/weighing.hpp"
#include "tuck/diary.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace tuck;
using namespace tuck::diary;

namespace {

DiaryEntry entry(int id, const std::string& date, decltype(DiaryEntry::what) what) {
    DiaryEntry out;
    out.id = id;
    out.date = date;
    out.what = std::move(what);
    return out;
}

SweatTest usual_test(double temperature_c = 24) {
    SweatTest test;
    test.before_kg = 70;
    test.minutes = 90;
    test.temperature_c = temperature_c;
    test.humidity_pct = 50;
    test.wind_m_s = 2;
    test.power_w = 190;
    test.scale_kg = 0.05;
    test.drank_ml = 600;
    return test;
}

/// A test whose weighing gives this rate, read on its scale.
SweatTest with_rate(SweatTest test, double ml_per_h, double energy_kcal) {
    const double lost_kg = ml_per_h * test.minutes / 60 / 1000 + not_sweat_g(energy_kcal) / 1000;
    const double after_kg = test.before_kg + test.drank_ml / 1000 - lost_kg;
    test.after_kg = std::round(after_kg / test.scale_kg) * test.scale_kg;
    test.energy_kcal = energy_kcal;
    return test;
}

RehearsalRecord rehearsal(double carb_g_per_h, int worst, bool with_run = true, double taken = 10) {
    RehearsalRecord r;
    r.bike.minutes = 150;
    r.bike.carb_g = carb_g_per_h * 2.5;
    r.bike.fluid_ml = 1250;
    r.bike.symptoms["nausea"] = worst;
    if (with_run) {
        r.run.minutes = 20;
        r.run.carb_g = 10;
    }
    r.feeds_planned = 10;
    r.feeds_taken = taken;
    return r;
}

Learned after(const std::vector<RehearsalRecord>& sessions, const Athlete& athlete = {}) {
    std::vector<DiaryEntry> entries;
    for (const auto& session : sessions) {
        const int n = static_cast<int>(entries.size()) + 1;
        entries.push_back(entry(n, "2027-05-" + std::to_string(9 + n), session));
    }
    return learn(entries, athlete);
}

} // namespace

TEST_CASE("one unknown: the update is normal-normal conjugacy in closed form") {
    // Textbook form (Gelman et al., Bayesian Data Analysis, 2.5): precisions add, means are weighted by them.
    std::mt19937 random(7);
    std::normal_distribution<double> normal;
    Belief<1> belief;
    belief.mean = {-0.3};
    belief.covariance[0][0] = 0.17;
    double precision = 1 / 0.17, weighted = -0.3 / 0.17;
    for (int i = 0; i < 20; ++i) {
        const double y = normal(random), variance = 0.02 + 0.01 * i;
        belief.observe({1}, y, variance);
        precision += 1 / variance;
        weighted += y / variance;
        CHECK(belief.mean[0] == Approx(weighted / precision).epsilon(1e-12));
        CHECK(belief.covariance[0][0] == Approx(1 / precision).epsilon(1e-12));
    }
}

TEST_CASE("three unknowns: the same as solving the whole least-squares problem") {
    // Posterior precision = prior precision + sum of w w' / variance, solved here by Cramer's rule.
    const auto prior = believe({}, 20, Sport::bike);
    auto belief = prior;
    double a[3][3] = {}, b[3] = {};
    for (std::size_t i = 0; i < 3; ++i) {
        a[i][i] = 1 / prior.covariance[i][i];
        b[i] = prior.mean[i] / prior.covariance[i][i];
    }
    const std::array<double, 3> weights[] = {{1, 0.4, 0}, {1, -1.2, 1}, {1, 0, 1}, {1, 0.9, 0}};
    const double values[] = {0.2, 0.5, -0.1, 0.3}, variances[] = {0.03, 0.05, 0.02, 0.04};
    for (int k = 0; k < 4; ++k) {
        belief.observe(weights[k], values[k], variances[k]);
        for (std::size_t i = 0; i < 3; ++i) {
            b[i] += weights[k][i] * values[k] / variances[k];
            for (std::size_t j = 0; j < 3; ++j)
                a[i][j] += weights[k][i] * weights[k][j] / variances[k];
        }
    }
    const auto det = [](double m[3][3]) {
        return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
               m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
               m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
    };
    for (int c = 0; c < 3; ++c) {
        double m[3][3];
        for (int i = 0; i < 3; ++i)
            for (int j = 0; j < 3; ++j)
                m[i][j] = j == c ? b[i] : a[i][j];
        CHECK(belief.mean[static_cast<std::size_t>(c)] == Approx(det(m) / det(a)).epsilon(1e-9));
    }
}

TEST_CASE("no test: the field's own spread") {
    const auto learned = learn({}, {});
    CHECK(learned.sweat_factor.tests == 0);
    // Barnes 2019: SD 45 % of the mean; the mean multiple is 1, so the median lies below.
    const double log_sd = std::sqrt(std::log(1 + 0.45 * 0.45));
    CHECK(learned.sweat_factor.log_sd == Approx(log_sd));
    CHECK(learned.sweat_factor.median == Approx(std::exp(-log_sd * log_sd / 2)));
    CHECK(!with_learned({}, learned).learned_sweat);
}

TEST_CASE("simulated athletes: the 90 % interval covers the truth, and no filter could do much better",
          "[slow]") {
    // The world: factors by the field's spread (Barnes 2019); a day adds 0.15 L/h (Smith 2021); the scale
    // rounds; the drink and the correction are a little off. The ideal filter knows the world and integrates
    // Bayes' rule over a grid.
    const Athlete athlete;
    const auto shape = usual_test();
    const auto model = model_session(athlete, shape);
    const double log_sd = std::sqrt(std::log(1 + 0.45 * 0.45));
    const double noise =
        std::hypot(150, sweat_sd_ml_per_h(with_rate(shape, 900, model.energy_kcal), model.energy_kcal));
    const auto usual = reading_of(athlete, with_rate(shape, 900, model.energy_kcal));
    constexpr int athletes = 4000, grid = 400;
    std::vector<double> log_factor(grid), prior(grid);
    for (int g = 0; g < grid; ++g) {
        log_factor[g] = -log_sd * log_sd / 2 + log_sd * (-4.5 + 9.0 * g / (grid - 1));
        const double z = (log_factor[g] + log_sd * log_sd / 2) / log_sd;
        prior[g] = -z * z / 2;
    }
    std::mt19937_64 random(20270501);
    std::normal_distribution<double> normal;
    const int counts[] = {1, 2, 4, 8};
    double covered[4] = {}, squared[4] = {}, ideal_squared[4] = {};
    for (int n = 0; n < athletes; ++n) {
        const double truth = std::exp(-log_sd * log_sd / 2 + log_sd * normal(random));
        std::vector<SweatReading> readings;
        auto posterior = prior;
        int at = 0;
        for (int k = 1; k <= 8; ++k) {
            const double rate = truth * model.sweat_ml_per_h + noise * normal(random);
            const auto test = with_rate(shape, std::max(50.0, rate), model.energy_kcal);
            const double seen = sweat_ml(test, model.energy_kcal) * 60 / test.minutes;
            readings.push_back(usual); // only the measured rate differs
            readings.back().measured = seen;
            for (int g = 0; g < grid; ++g) {
                const double z = (seen - std::exp(log_factor[g]) * model.sweat_ml_per_h) / noise;
                posterior[g] -= z * z / 2;
            }
            if (k != counts[at])
                continue;
            const auto belief = believe(readings, shape.temperature_c, Sport::bike);
            const auto known = known_from(belief.mean[0], belief.covariance[0][0], k);
            double sum = 0, mean = 0, top = *std::max_element(posterior.begin(), posterior.end());
            for (int g = 0; g < grid; ++g) {
                const double p = std::exp(posterior[g] - top);
                sum += p;
                mean += p * log_factor[g];
            }
            covered[at] += truth >= known.low && truth <= known.high;
            squared[at] += std::pow(belief.mean[0] - std::log(truth), 2);
            ideal_squared[at] += std::pow(mean / sum - std::log(truth), 2);
            ++at;
        }
    }
    for (int i = 0; i < 4; ++i) {
        INFO(counts[i] << " tests: covered " << covered[i] / athletes << ", error "
                       << std::sqrt(squared[i] / athletes) << ", ideal "
                       << std::sqrt(ideal_squared[i] / athletes));
        CHECK(covered[i] / athletes > 0.88);
        CHECK(covered[i] / athletes < 0.92);
        CHECK(std::sqrt(squared[i] / ideal_squared[i]) < 1.05);
    }
}

TEST_CASE("a test in unlike weather or another sport counts less") {
    const Athlete athlete;
    const double kcal = model_session(athlete, usual_test()).energy_kcal;
    const auto log_sd_for = [&](double temperature_c, Sport sport) {
        return learn({entry(1, "2027-05-01", with_rate(usual_test(), 1000, kcal))}, athlete,
                     {temperature_c, sport})
            .sweat_factor.log_sd;
    };
    CHECK(log_sd_for(24, Sport::bike) < log_sd_for(34, Sport::bike));
    CHECK(log_sd_for(34, Sport::bike) < log_sd_for(4, Sport::bike));
    CHECK(log_sd_for(24, Sport::bike) < log_sd_for(24, Sport::run));
    CHECK(log_sd_for(4, Sport::run) < learn({}, athlete).sweat_factor.log_sd);
}

TEST_CASE("the plan takes the learned sweat and the spread that is left") {
    const Athlete athlete;
    const auto shape = usual_test();
    const auto model = model_session(athlete, shape);
    std::vector<DiaryEntry> tests;
    for (int i = 1; i <= 4; ++i)
        tests.push_back(entry(i, "2027-05-0" + std::to_string(i),
                              with_rate(shape, 1.5 * model.sweat_ml_per_h, model.energy_kcal)));
    const auto learned = learn(tests, athlete);
    const auto taught = with_learned(athlete, learned);
    REQUIRE(taught.learned_sweat);
    CHECK(taught.learned_sweat->factor == Approx(1.5).epsilon(0.08));
    const auto session = effort_of_session(athlete, shape);
    const auto plain = describe_body(athlete, session.event, session.effort);
    const auto own = describe_body(taught, session.event, session.effort);
    CHECK(own.sweat_measured);
    CHECK(own.sweat_log_sd == Approx(learned.sweat_day_log_sd));
    CHECK(own.sweat_log_sd < plain.sweat_log_sd);
    CHECK(own.legs[0].sweat_ml_per_h ==
          Approx(taught.learned_sweat->factor * model.sweat_ml_per_h).epsilon(1e-9));
}

TEST_CASE("a wild test is kept, weighs what it weighs, and is named") {
    const Athlete athlete;
    const auto shape = usual_test();
    const auto model = model_session(athlete, shape);
    std::vector<DiaryEntry> tests;
    for (int i = 1; i <= 5; ++i)
        tests.push_back(entry(i, "2027-05-0" + std::to_string(i),
                              with_rate(shape, i == 3 ? 3000.0 : 900.0, model.energy_kcal)));
    const auto learned = learn(tests, athlete);
    CHECK(learned.sweat_factor.tests == 5);
    REQUIRE(!learned.warnings.empty());
    CHECK(learned.warnings[0].code == "odd_sweat_test");
    CHECK(learned.warnings[0].text.find("line 3") != std::string::npos);
}

TEST_CASE("sodium: the field first, then the tests; a patch weighs less than the whole body") {
    auto test = usual_test();
    test.after_kg = 69.5;
    test.sodium = SodiumTest{70, ""};
    const auto body = learn({entry(1, "2027-05-01", test)}, {}).sodium_mmol_per_l;
    CHECK(body.median > 60);
    CHECK(body.median < 70);
    test.sodium = SodiumTest{(70 - 11.05) / 0.57, "forearm"}; // reads 70 for the whole body
    const auto patch = learn({entry(1, "2027-05-01", test)}, {}).sodium_mmol_per_l;
    CHECK(patch.median < body.median);
    CHECK(patch.log_sd > body.log_sd);
    // The simulated days spread as much as is still unknown, not as if a laboratory had said it.
    const auto taught = with_learned({}, learn({entry(1, "2027-05-01", test)}, {}));
    CHECK(*taught.sweat_sodium_log_sd > patch.log_sd);
    const auto session = effort_of_session(taught, test);
    CHECK(describe_body(taught, session.event, session.effort).sodium_log_sd == *taught.sweat_sodium_log_sd);
}

TEST_CASE("corrections replace, withdrawals remove, and nothing else does") {
    auto right = rehearsal(60, 0);
    auto first = entry(1, "2027-05-01", rehearsal(40, 0));
    auto other = entry(2, "2027-04-01", rehearsal(45, 0));
    auto fix = entry(3, "2027-05-01", right);
    fix.corrects = 1;
    auto again = entry(4, "2027-05-02", right);
    again.corrects = 3;
    CHECK(standing_entries({first, other}).front().id == 2); // by date
    auto standing = standing_entries({first, other, fix, again});
    REQUIRE(standing.size() == 2);
    CHECK(standing[1].id == 4);
    auto gone = entry(5, "2027-05-02", right);
    gone.corrects = 4;
    gone.withdrawn = true;
    standing = standing_entries({first, other, fix, again, gone});
    REQUIRE(standing.size() == 1);
    CHECK(standing[0].id == 2);
}

// The step rules are common practice, no source.
TEST_CASE("gut: a step up of 5 to 10 g/h only after two good sessions with the run") {
    CHECK(after({}).bike.next_carb_g_per_h == 0);
    CHECK(after({rehearsal(60, 1)}).bike.next_carb_g_per_h == 60);
    CHECK(after({rehearsal(60, 1), rehearsal(60, 0)}).bike.next_carb_g_per_h == 70);
    CHECK(after({rehearsal(60, 1), rehearsal(60, 3)}).bike.next_carb_g_per_h == 65);
    CHECK(after({rehearsal(60, 1), rehearsal(60, 1, false)}).bike.next_carb_g_per_h == 60);
    CHECK(after({rehearsal(60, 1), rehearsal(60, 1, true, 8)}).bike.next_carb_g_per_h == 60);
    auto easy = rehearsal(60, 0);
    easy.race_effort = false;
    CHECK(after({easy, easy}).bike.carb_g_per_h == 0);
}

TEST_CASE("gut: hold at 4 or 5, down at 6 or more, stop at vomiting or blood") {
    CHECK(after({rehearsal(60, 1), rehearsal(60, 1), rehearsal(70, 4)}).bike.next_carb_g_per_h == 70);
    CHECK(after({rehearsal(60, 1), rehearsal(60, 1), rehearsal(70, 5)}).bike.carb_g_per_h == Approx(60));
    const auto down = after({rehearsal(60, 1), rehearsal(60, 1), rehearsal(70, 6)});
    CHECK(down.bike.next_carb_g_per_h == 60);
    CHECK(down.bike.carb_g_per_h <= 60);
    auto vomited = rehearsal(70, 2);
    vomited.vomited = true;
    const auto stop = after({rehearsal(60, 1), vomited});
    CHECK(stop.bike.stop);
    CHECK(stop.bike.next_carb_g_per_h == 0);
    REQUIRE(!stop.warnings.empty());
    CHECK(stop.warnings[0].text.find("doctor") != std::string::npos);
}

TEST_CASE("gut: never above 90 without declared gut training, and no steps for minors") {
    CHECK(after({rehearsal(90, 0), rehearsal(90, 0)}).bike.next_carb_g_per_h == 90);
    Athlete trained;
    trained.rehearsed.gut_trained = true;
    CHECK(after({rehearsal(90, 0), rehearsal(90, 0)}, trained).bike.next_carb_g_per_h == 100);
    CHECK(after({rehearsal(120, 0), rehearsal(120, 0)}, trained).bike.next_carb_g_per_h == 120);
    Athlete minor;
    minor.age_y = 16;
    CHECK(after({rehearsal(60, 0), rehearsal(60, 0)}, minor).bike.next_carb_g_per_h == 0);
}

TEST_CASE("paces: a run off the bike is made a run alone; hills and heat teach no pace") {
    RaceRecord race;
    race.temperature_c = 18;
    race.legs = {
        {Sport::swim, 1500, 1900, 0, 0}, {Sport::bike, 40000, 4800, 0, 100}, {Sport::run, 10000, 3000, 0, 0}};
    auto learned = learn({entry(1, "2027-06-01", race)}, {});
    REQUIRE(learned.paces.size() == 3);
    CHECK(learned.paces[0].time_s < 1900); // open water is slower than the pool
    CHECK(learned.paces[1].time_s == 4800);
    CHECK(learned.paces[2].time_s < 3000);
    CHECK(learned.paces[2].time_s > 3000 / 1.12); // no more than the factor of a beginner
    race.legs[1].ascent_m = 600;
    CHECK(learn({entry(1, "2027-06-01", race)}, {}).paces.size() == 2);
    race.temperature_c = 30;
    CHECK(learn({entry(1, "2027-06-01", race)}, {}).paces.empty());
}

TEST_CASE("past eating disorder: no prompt for a scale") {
    Athlete athlete;
    athlete.health.past_eating_disorder = true;
    for (const auto& next : learn({}, athlete).next)
        CHECK(next.text.find("weat test") == std::string::npos);
    CHECK(learn({}, {}).next.front().text.find("sweat test") != std::string::npos);
}
