// Quantities in text. Factors: NIST Special Publication 811, appendix B (from memory; pound, mile, yard and
// inch are exact there by definition, the US fluid ounce is 29.57353 ml). Sodium: standard atomic
// weight 22.98976928.
#include "io/units.hpp"

#include <catch2/catch.hpp>
#include <clocale>
#include <stdexcept>

using namespace tuck::io;

TEST_CASE("units: masses") {
    CHECK(mass_kg("68kg") == 68);
    CHECK(mass_kg("68.5 kg") == 68.5);
    CHECK(mass_kg(" 68 KG ") == 68);
    CHECK(mass_kg("150lb") == Approx(68.0388555).epsilon(1e-12));
    CHECK_THROWS_WITH(mass_kg("68"), "\"68\": give a unit, kg or lb");
    // 1 stone is 14 pounds.
    CHECK(mass_kg("11st 4lb") == Approx(158 * 0.45359237).epsilon(1e-12));
    CHECK(mass_kg("11st4") == Approx(mass_kg("158lb")).epsilon(1e-12));
    CHECK(mass_kg("11 st") == Approx(154 * 0.45359237).epsilon(1e-12));
    CHECK(mass_kg("50g") == Approx(0.05));
    CHECK(grams("40 G") == 40);
    CHECK(grams("4oz") == Approx(113.3980925));
    CHECK(milligrams("1.2g") == Approx(1200));
    for (const double mg : {1.0, 55.0, 90.0, 250.0, 455.5})
        CHECK(milligrams(std::to_string(mg) + "mg") == mg);
    CHECK(energy_kcal("900KCAL") == 900);
    CHECK(energy_kcal("4184kJ") == Approx(1000));
    for (const char* wrong : {"11st 14lb", "11st -4lb", "5kg 3g", "11lb 4st", "11st 4kg", "11st 4lb 2oz"})
        CHECK_THROWS_AS(mass_kg(wrong), std::invalid_argument);
}

TEST_CASE("2026-11 three parsers of quantities: one now, and it says what is wrong with a comma") {
    for (const char* text : {"120,5g", "68,5 kg", "0,5kg"})
        CHECK_THROWS_WITH(grams(text), Catch::Contains("the decimal sign is a point"));
    CHECK_THROWS_WITH(energy_kcal("900,5kcal"), Catch::Contains("the decimal sign is a point"));
    CHECK_THROWS_WITH(duration_s("1,5h"), Catch::Contains("the decimal sign is a point"));
    CHECK_THROWS_WITH(minutes("1,5"), Catch::Contains("the decimal sign is a point"));
    CHECK_THROWS_WITH(plain_number("9,5", "an age"), Catch::Contains("the decimal sign is a point"));
    CHECK_THROWS_WITH(volumes_ml("1,5L"), Catch::Contains("the decimal sign is a point"));
    CHECK_THROWS_WITH(volumes_ml("2x1,5L"), Catch::Contains("the decimal sign is a point"));
}

TEST_CASE("units: temperatures at the fixed points of the Fahrenheit scale") {
    CHECK(temperature_c("22C") == 22);
    CHECK(temperature_c("22 °C") == 22);
    CHECK(temperature_c("-3C") == -3);
    CHECK(temperature_c("32F") == Approx(0).margin(1e-12));
    CHECK(temperature_c("212F") == Approx(100).epsilon(1e-12));
    CHECK(temperature_c("-40°F") == Approx(-40).epsilon(1e-12));
    CHECK_THROWS(temperature_c("22"));
}

TEST_CASE("units: wind, distances, lengths, volumes") {
    CHECK(wind_m_s("36km/h") == Approx(10).epsilon(1e-12));
    CHECK(wind_m_s("10mph") == Approx(4.4704).epsilon(1e-12));
    CHECK(distance_m("10km") == 10000);
    CHECK(distance_m("26.2mi") == Approx(42164.8128).epsilon(1e-12));
    CHECK(distance_m("400yd") == Approx(365.76).epsilon(1e-12));
    CHECK(length_m("178cm") == Approx(1.78).epsilon(1e-12));
    CHECK(length_m("70in") == Approx(1.778).epsilon(1e-12));
    for (const char* text : {"5'9\"", "5' 9\"", "5ft9in", "5 ft 9 in", "5'9", "5ft 9", "5\u20329\u2033",
                             "5\u20199\u201d", "69in"})
        CHECK(length_m(text) == Approx(1.7526).epsilon(1e-12));
    CHECK(length_m("6ft") == Approx(1.8288).epsilon(1e-12));
    CHECK_THROWS_AS(length_m("5'13\""), std::invalid_argument);
    CHECK(distance_m("10k") == 10000);
    CHECK(distance_m("10K") == 10000);
    CHECK(volume_ml("24 fl oz") == Approx(709.7647).epsilon(1e-5));
    CHECK(volume_ml("24oz") == volume_ml("24 fl oz")); // what US bottles are called by
    CHECK(volume_ml("0.75L") == 750);
}

TEST_CASE("units: rates and concentrations") {
    CHECK(rate_ml_per_h("0.9L/h") == Approx(900).epsilon(1e-12));
    CHECK(rate_ml_per_h("30floz/h") == Approx(887.2059).epsilon(1e-5));
    CHECK(rate_g_per_h("60g/h") == 60);
    CHECK(sodium_mmol_per_l("45mmol/L") == 45);
    CHECK(sodium_mmol_per_l("1000mg/L") == Approx(1000 / 22.98976928).epsilon(1e-6));
    CHECK(humidity_pct("60%") == 60);
    CHECK(humidity_pct("60") == 60);
    CHECK(power_w("220") == 220);
    CHECK(power_w("220W") == 220);
}

TEST_CASE("units: times and paces") {
    CHECK(duration_s("52:30") == 3150);
    CHECK(duration_s("1:05:00") == 3900);
    CHECK(duration_s("150:00") == 9000);
    CHECK(duration_s("90min") == 5400);
    CHECK(duration_s("2.5h") == 9000);
    CHECK(duration_s("45s") == 45);
    CHECK(duration_s("1h30") == 5400);
    CHECK(duration_s("1h 30min") == 5400);
    CHECK(duration_s("90 MIN") == 5400);
    for (const char* wrong :
         {"52", "1:5", "1:60", "1:00:60", "1:2:3:4", ":30", "1:", "-5:00", "1:00 rest", "", "1e3s"})
        CHECK_THROWS_AS(duration_s(wrong), std::invalid_argument);
    CHECK(pace_s_per_km("4:45/km") == 285);
    CHECK(pace_s_per_km("8:00/mi") == Approx(480 / 1.609344).epsilon(1e-12));
    CHECK(swim_speed_m_s("1:40/100m") == 1);
    CHECK(swim_speed_m_s("1:40/100yd") == Approx(0.9144).epsilon(1e-12));
    for (const char* wrong : {"4:45", "4:45/h", "285/km", "0:00/km", "-4:45/km", "/km"})
        CHECK_THROWS_AS(pace_s_per_km(wrong), std::invalid_argument);
}

TEST_CASE("units: a written time reads back") {
    for (const double seconds : {1.0, 59.0, 60.0, 3599.0, 3600.0, 36061.0, 172800.0})
        CHECK(duration_s(duration_text(seconds)) == seconds);
    CHECK(duration_text(3900) == "1:05:00");
    CHECK(duration_text(3150) == "52:30");
}

TEST_CASE("units: clock and calendar") {
    CHECK(clock_min("07:30") == 450);
    CHECK(clock_min("7:30") == 450);
    CHECK(clock_min("00:00") == 0);
    CHECK(clock_min("23:59") == 1439);
    CHECK(clock_min("7:30am") == 450);
    CHECK(clock_min("7:30 PM") == 1170);
    CHECK(clock_min("7 am") == 420);
    CHECK(clock_min("12:15am") == 15);
    CHECK(clock_min("12pm") == 720);
    for (const char* wrong :
         {"13:00pm", "0:30am", "7:60am", "am", "24:00", "7:60", "7", "07:30:00", "half past", "-1:00"})
        CHECK_THROWS_AS(clock_min(wrong), std::invalid_argument);
    // ISO 8601; leap years of the Gregorian calendar.
    CHECK(calendar_date("2028-02-29") == "2028-02-29");
    CHECK(calendar_date("2000-02-29") == "2000-02-29");
    for (const char* wrong : {"2027-02-29", "2100-02-29", "2027-04-31", "2027-13-01", "2027-00-10",
                              "2027-6-13", "13.06.2027", ""})
        CHECK_THROWS_AS(calendar_date(wrong), std::invalid_argument);
}

TEST_CASE("units: bottles") {
    CHECK(count_and_volume("2x750ml") == std::vector<double>{750, 750});
    CHECK(volumes_ml("750ml, 500ml") == std::vector<double>{750, 500});
    CHECK(volumes_ml("2x0.5L,750ml") == std::vector<double>{500, 500, 750});
    for (const char* wrong : {"0x750ml", "x750ml", "2x", "2x750", "20x750ml", "750ml,", ",750ml", ""})
        CHECK_THROWS_AS(volumes_ml(wrong), std::invalid_argument);
}

TEST_CASE("units: no bare, odd or endless number passes") {
    for (const char* wrong :
         {"", " ", "kg", "nankg", "infkg", "-68kg", "+68kg", "68kgs.", "68kg rest", "1e3kg", "0x44kg",
          "68,5kg", "--68kg", ".5kg", "6 8kg", "68\tkg", "sixty-eight"})
        CHECK_THROWS_AS(mass_kg(wrong), std::invalid_argument);
    CHECK_THROWS_AS(mass_kg(std::string(400, '9') + "kg"), std::invalid_argument);
    CHECK_THROWS_WITH(mass_kg("68,5kg"), Catch::Contains("decimal sign is a point"));
    CHECK_THROWS_WITH(mass_kg("-68kg"), Catch::Contains("must not be negative"));
    CHECK_THROWS_WITH(mass_kg("11slugs"), Catch::Contains("kg or lb"));
    CHECK(whole_number("10000") == 10000);
    for (const char* wrong : {"", "-1", "1.5", "1e3", "99999999999", "12 days"})
        CHECK_THROWS_AS(whole_number(wrong), std::invalid_argument);
    CHECK(plain_number("34", "an age") == 34);
    CHECK_THROWS_AS(plain_number("34y", "an age"), std::invalid_argument);
}

TEST_CASE("units: the locale changes nothing") {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "C.UTF-8"})
        if (std::setlocale(LC_ALL, name))
            CHECK(mass_kg("68.5kg") == 68.5);
    std::setlocale(LC_ALL, before.c_str());
}
