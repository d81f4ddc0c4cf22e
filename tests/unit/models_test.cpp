// The registry refuses what it must, and the models behave as bodies and bicycles do.
#include "body/energy.hpp"
#include "body/heat.hpp"
#include "body/sweat.hpp"
#include "body/water.hpp"
#include "effort/power.hpp"
#include "effort/scaling.hpp"
#include "tuck/model.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>
#include <set>

using namespace tuck;

namespace {

ModelResult run(const std::string& name, const ModelArguments& arguments) {
    const Model* model = find_model(name);
    REQUIRE(model != nullptr);
    return run_model(*model, arguments);
}

double value(const std::string& name, const ModelArguments& arguments) {
    return run(name, arguments).values.at(0).second;
}

std::string refusal(const std::string& name, const ModelArguments& arguments) {
    try {
        run(name, arguments);
    } catch (const std::invalid_argument& fault) {
        return fault.what();
    }
    return "";
}

// Arguments from the middle of every range, the first of every list of words.
ModelArguments middle_of(const Model& model) {
    ModelArguments arguments;
    for (const ModelInput& input : model.inputs) {
        if (!input.words.empty()) {
            arguments[input.name] = input.words.front();
        } else if (input.low) {
            arguments[input.name] = fmt::format("{}", 0.5 * (*input.low + *input.high));
        }
    }
    return arguments;
}

} // namespace

TEST_CASE("every model is described, unique and finite in the middle of its range", "[models]") {
    std::set<std::string> names;
    CHECK(models().size() > 50);
    for (const Model& model : models()) {
        INFO(model.name);
        CHECK(names.insert(model.name).second);
        CHECK_FALSE(model.what.empty());
        CHECK_FALSE(model.source.empty());
        CHECK_FALSE(model.unit.empty());
        for (const ModelInput& input : model.inputs) {
            INFO(input.name);
            CHECK(input.unit.empty() != input.words.empty());
            CHECK(input.low.has_value() == input.high.has_value());
            if (input.low) {
                CHECK(*input.low < *input.high);
            }
        }
        const ModelResult result = run_model(model, middle_of(model));
        CHECK_FALSE(result.values.empty());
        for (const auto& named : result.values) {
            CHECK(std::isfinite(named.second));
        }
    }
    CHECK(find_model("no_such_model") == nullptr);
}

TEST_CASE("a model refuses arguments it cannot use, and says what is allowed", "[models]") {
    CHECK_THAT(refusal("dew_point", {{"Ta_C", "20"}, {"RH_pc", "50"}}),
               Catch::Contains("did you mean 'RH_pct'"));
    CHECK_THAT(refusal("dew_point", {{"Ta_C", "20"}}), Catch::Contains("needs 'RH_pct' in %"));
    for (const char* text : {"", "abc", "1,5", "5 ", "nan", "inf", "-inf", "1e999", "0x10", "20C"}) {
        INFO(text);
        CHECK_THAT(refusal("dew_point", {{"Ta_C", text}, {"RH_pct", "50"}}),
                   Catch::Contains("no finite number"));
    }
    CHECK_THAT(refusal("body_surface", {{"mass_kg", "70"}, {"height_m", "1.8"}, {"formula", "du_bois"}}),
               Catch::Contains("dubois, takahira"));
    CHECK_THAT(refusal("dew_point", {{"Ta_C", "20"}, {"RH_pct", "0"}}), Catch::Contains("RH_pct"));
    CHECK_THAT(refusal("dew_point", {{"Ta_C", "20"}, {"RH_pct", "101"}}), Catch::Contains("RH_pct"));
    CHECK_THAT(refusal("body_surface", {{"mass_kg", "-70"}, {"height_m", "1.8"}}),
               Catch::Contains("mass_kg"));
    CHECK_THAT(refusal("serum_sodium",
                       {{"Na0_mmol_L", "140"}, {"TBW_L", "40"}, {"dNaK_mmol", "0"}, {"dWater_L", "-40"}}),
               Catch::Contains("dWater_L"));
    CHECK_THAT(refusal("run_least_cost", {{"grade", "0"}}), Catch::Contains("takes no inputs"));
    CHECK_THAT(refusal("dew_point", {}), !Catch::Contains("\n"));
}

TEST_CASE("whatever number it is given, a model refuses in one line or returns finite numbers",
          "[models][slow]") {
    for (const Model& model : models()) {
        for (const ModelInput& input : model.inputs) {
            if (!input.words.empty()) {
                continue;
            }
            for (const char* text :
                 {"-1e300", "-1e6", "-300", "-1", "-0", "0", "1e-300", "1", "1e6", "1e300"}) {
                ModelArguments arguments = middle_of(model);
                arguments[input.name] = text;
                INFO(model.name << " " << input.name << "=" << text);
                try {
                    for (const auto& named : run_model(model, arguments).values) {
                        CHECK(std::isfinite(named.second));
                        CHECK_FALSE((named.second == 0 && std::signbit(named.second)));
                    }
                } catch (const std::invalid_argument& fault) {
                    CHECK_THAT(fault.what(), !Catch::Contains("\n"));
                }
            }
        }
    }
}

TEST_CASE("outside its range a model computes and says so", "[models]") {
    const ModelResult inside = run("run_sweat", {{"mass_kg", "70"}, {"speed_kmh", "10"}, {"Ta_C", "20"}});
    CHECK(inside.in_range);
    CHECK(inside.note.empty());
    const ModelResult outside = run("run_sweat", {{"mass_kg", "70"}, {"speed_kmh", "18"}, {"Ta_C", "20"}});
    CHECK_FALSE(outside.in_range);
    CHECK_THAT(outside.note, Catch::Contains("speed_kmh 18 lies outside 8.5 to 15 km/h"));
}

TEST_CASE("no model returns a negative zero", "[models]") {
    CHECK_FALSE(std::signbit(value("run_sweat", {{"mass_kg", "50"}, {"speed_kmh", "0"}, {"Ta_C", "-20"}})));
    CHECK_FALSE(std::signbit(value("not_sweat", {{"energy_kcal", "0"}})));
    CHECK_FALSE(std::signbit(body::land_sweat_l_per_h({100, 0, 70, 1.75, 0, 50, 5})));
}

TEST_CASE("drinking more lowers serum sodium, losing salt lowers it, losing water raises it", "[models]") {
    double last = 1000;
    for (double litres = -3; litres <= 3; litres += 0.25) {
        const double sodium = body::serum_sodium_mmol_per_l(140, 42, 0, litres);
        CHECK(sodium < last);
        last = sodium;
    }
    CHECK(body::serum_sodium_mmol_per_l(140, 42, -100, 0) < 140);
    CHECK(body::serum_sodium_mmol_per_l(140, 42, 0, 0) == Approx(140));
    // The same overdrinking hurts a small body more.
    CHECK(body::serum_sodium_mmol_per_l(140, 30, 0, 2) < body::serum_sodium_mmol_per_l(140, 45, 0, 2));
}

TEST_CASE("a salty sweater in an ultra can end lighter and low in sodium (Montain 2006, abstract)",
          "[models]") {
    // 90 kg, 45 L of water, 12 h, 1.04 L/h sweat with 79 mmol/L of sodium and potassium, 0.8 L/h water.
    const double hours = 12;
    const double sweat_l = 1.04 * hours;
    const double drink_l = 0.8 * hours;
    CHECK(drink_l < sweat_l);
    CHECK(body::serum_sodium_mmol_per_l(140, 45, -79 * sweat_l, drink_l - sweat_l) < 135);
}

TEST_CASE("the heat balance follows the air", "[models]") {
    const auto sweat = [](double air_c, double humidity_pct, double air_speed_m_s) {
        return body::land_sweat_l_per_h({1000, 200, 70, 1.75, air_c, humidity_pct, air_speed_m_s});
    };
    for (double air_c = 0; air_c < 40; air_c += 1) {
        INFO(air_c);
        CHECK(sweat(air_c + 1, 50, 5) >= sweat(air_c, 50, 5));
        CHECK(body::run_sweat_l_per_h(70, 1.75, 12, air_c + 1) >=
              body::run_sweat_l_per_h(70, 1.75, 12, air_c));
    }
    CHECK(sweat(25, 30, 10) < sweat(25, 30, 3)); // wind cools below skin temperature
    CHECK(sweat(46, 10, 10) > sweat(46, 10, 3)); // and heats above
    for (double humidity = 0; humidity < 100; humidity += 5) {
        CHECK(sweat(30, humidity + 5, 3) >= sweat(30, humidity, 3));
    }
    CHECK(sweat(30, 30, 5) > 0);
    CHECK(std::isfinite(sweat(50, 100, 0)));
}

TEST_CASE("heat strain and outdoor WBGT follow the weather", "[models]") {
    const auto strain = [](const char* air_c, const char* pa_kpa) {
        return value("predicted_heat_strain", {{"acclimatised", "yes"},
                                               {"posture", "standing"},
                                               {"Ta_C", air_c},
                                               {"Pa_kPa", pa_kpa},
                                               {"Tr_C", "35"},
                                               {"Va_m_s", "0.5"},
                                               {"Met_W_m2", "200"},
                                               {"Icl_clo", "0.5"}});
    };
    CHECK(strain("38", "3.5") > strain("34", "3.5"));
    CHECK(strain("36", "4.5") > strain("36", "3.5"));
    const auto wbgt = [](const char* solar, const char* wind, const char* humidity, const char* cos_zenith) {
        return value("wbgt_outdoors", {{"Ta_C", "28"},
                                       {"RH_pct", humidity},
                                       {"v10_m_s", wind},
                                       {"solar_W_m2", solar},
                                       {"direct_fraction", "0.6"},
                                       {"cos_zenith", cos_zenith}});
    };
    CHECK(wbgt("800", "3", "50", "0.8") > wbgt("200", "3", "50", "0.8"));
    CHECK(wbgt("800", "1", "50", "0.8") > wbgt("800", "6", "50", "0.8"));
    CHECK(wbgt("800", "3", "80", "0.8") > wbgt("800", "3", "40", "0.8"));
    CHECK(std::isfinite(wbgt("0", "3", "50", "-0.2")));
    // A sun at the horizon cannot give 600 W/m2: it is held to what the zenith lets through, and cannot make
    // more heat than the same radiation from a sun that stands high enough for it.
    for (const char* low : {"0.009", "0.02", "0.1"})
        CHECK(wbgt("600", "3", "50", low) < wbgt("600", "3", "50", "0.6"));
}

TEST_CASE("swim sweat rises with the water and never vanishes", "[models]") {
    CHECK(body::swim_sweat_l_per_h(1000, 28) > body::swim_sweat_l_per_h(1000, 20));
    for (double water_c = 0; water_c < 40; water_c += 0.5)
        CHECK(body::swim_sweat_l_per_h(1000, water_c + 0.5) >= body::swim_sweat_l_per_h(1000, water_c));
    CHECK(body::swim_sweat_l_per_h(1000, 0) > 0);
    CHECK(body::swim_sweat_l_per_h(1200, 25) > body::swim_sweat_l_per_h(1000, 25)); // harder
}

TEST_CASE("ride speed is the inverse of ride power", "[models]") {
    for (double grade : {-0.08, -0.03, 0.0, 0.02, 0.1}) {
        for (double wind_m_s : {-12.0, -3.0, 0.0, 3.0, 8.0}) {
            for (double power_w : {60.0, 150.0, 280.0}) {
                effort::Ride ride;
                ride.mass_kg = 82;
                ride.grade = grade;
                ride.wind_m_s = wind_m_s;
                const double speed = effort::ride_speed_m_s(ride, power_w);
                INFO(grade << " " << wind_m_s << " " << power_w << " -> " << speed);
                CHECK(effort::ride_power_w(ride, speed) == Approx(power_w).margin(1e-6));
                CHECK(effort::ride_speed_m_s(ride, power_w + 10) > speed);
            }
        }
    }
    effort::Ride downhill;
    downhill.mass_kg = 82;
    downhill.grade = -0.05;
    const double coasting = effort::ride_speed_m_s(downhill, 0);
    CHECK(coasting > 5);
    CHECK(effort::ride_power_w(downhill, coasting) == Approx(0).margin(1e-6));
    CHECK(effort::ride_power_w(downhill, coasting / 2) < 0);
    CHECK_THROWS_AS(effort::ride_speed_m_s(downhill, -1), std::invalid_argument);
    CHECK_THROWS_AS(effort::ride_speed_m_s(downhill, std::nan("")), std::invalid_argument);
}

TEST_CASE("riding out and back in wind is slower than in calm air", "[models]") {
    effort::Ride calm;
    calm.mass_kg = 80;
    effort::Ride against = calm;
    against.wind_m_s = 4;
    effort::Ride with = calm;
    with.wind_m_s = -4;
    const double out_and_back =
        1 / effort::ride_speed_m_s(against, 180) + 1 / effort::ride_speed_m_s(with, 180);
    CHECK(out_and_back > 2 / effort::ride_speed_m_s(calm, 180));
}

TEST_CASE("swim power never falls to zero at a slow speed", "[models]") {
    CHECK(body::swim_metabolic_power_w(0.5, 70) > 0);
    CHECK(body::swim_metabolic_power_w(0.8, 70) ==
          Approx(body::swim_vo2_l_per_min(0.8, 70) * body::joule_per_l_o2 / 60));
    CHECK(body::swim_metabolic_power_w(0.5, 70) < body::swim_metabolic_power_w(0.8, 70));
}

TEST_CASE("shares of carbohydrate stay between nothing and everything", "[models]") {
    CHECK(body::carb_share_from_rq(0.5) == 0);
    CHECK(body::carb_share_from_rq(1.2) == 1);
    double last = 0;
    for (double x = 0.2; x < 1; x += 0.05) {
        CHECK(body::carb_share_from_intensity(x) > last);
        last = body::carb_share_from_intensity(x);
    }
    CHECK(last < 1);
}

TEST_CASE("going there and back along the power law is going nowhere", "[models]") {
    const double time_s = effort::riegel_time_s(2400, 10, 21.0975, 1.06);
    CHECK(effort::riegel_time_s(time_s, 21.0975, 10, 1.06) == Approx(2400));
    CHECK(value("riegel_distance",
                {{"T1_s", "2400"}, {"D1_km", "10"}, {"T2_s", fmt::format("{}", time_s)}}) == Approx(21.0975));
    CHECK_THROWS_AS(effort::critical_speed_m_s(3000, 700, 5000, 700), std::invalid_argument);
}

TEST_CASE("wet bulb lies between dew point and air", "[models]") {
    for (double air_c : {10.0, 20.0, 30.0}) {
        for (double humidity : {30.0, 60.0, 90.0}) {
            CHECK(body::wet_bulb_stull_c(air_c, humidity) < air_c);
            CHECK(body::wet_bulb_stull_c(air_c, humidity) > body::dew_point_c(air_c, humidity));
        }
    }
}

TEST_CASE("caffeine limits never exceed a cautious reading of EFSA 2015", "[models]") {
    const ModelResult minor = run("caffeine_limit", {{"who", "minor"}, {"mass_kg", "40"}});
    CHECK(minor.values.at(1).second == 120);
    CHECK_FALSE(minor.note.empty());
    CHECK(run("caffeine_limit", {{"who", "pregnant"}}).values.at(1).second == 200);
}

TEST_CASE("the literature's own symbols are taken for inputs", "[models]") {
    const auto value = [](const char* name, const ModelArguments& arguments) {
        return run_model(*find_model(name), arguments).values.front().second;
    };
    // Martin 1998, worked example: 158.8 W of air resistance.
    CHECK(value("aerodynamic_power",
                {{"rho", "1.2234"}, {"CdA", "0.2565"}, {"Fw", "0.0044"}, {"Va", "10.91"}, {"Vg", "8.36"}}) ==
          Approx(158.8).margin(0.1));
    // Wakayoshi 1993: 200 m in 3:00, 400 m in 6:20.
    CHECK(value("critical_swim_speed", {{"t200", "180"}, {"t400", "380"}}) == Approx(1.0).margin(1e-6));
    CHECK_THROWS_AS(value("critical_swim_speed", {{"t200", "180"}, {"t200_s", "180"}, {"t400", "380"}}),
                    std::invalid_argument);
}
