// What is printed for readers of US customary units. Factors: NIST SP 811 (2008), Appendix B.8: 1 fl oz (US)
// 29.57353 ml, 1 mile 1.609344 km, 1 yd 0.9144 m, 1 lb 0.4535924 kg; t/F = 1.8 t/C + 32.
#include "say/units.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace tuck;
using say::in_units;

namespace {
std::string us(const std::string& metric) {
    return in_units(metric, Units::imperial);
}
} // namespace

TEST_CASE("an amount is told in its reader's units", "[units]") {
    CHECK(us("750 ml bottle") == "25 fl oz bottle");
    CHECK(us("Drink with it: 310 to 430 ml in all.") == "Drink with it: 10 to 15 fl oz in all.");
    CHECK(us("200 ml/h less than aimed for") == "6.8 fl oz/h less than aimed for");
    CHECK(us("never over 1.42 L/h.") == "never over 48 fl oz/h.");
    CHECK(us("WBGT near 29 C (28 C or more; ACSM 2007)") == "WBGT near 84 F (82 F or more; ACSM 2007)");
    CHECK(us("Water of -3 C, wind 4 m/s") == "Water of 27 F, wind 8.9 mph");
    CHECK(us("air 33 °C") == "air 91 °F");
    CHECK(us("km 80 120 140") == "mile 49.7 74.6 87");
    CHECK(us("every 2nd station from km 5 to km 30") == "every 2nd station from mile 3.1 to mile 18.6");
    CHECK(us("about every 7 km.") == "about every 4.3 miles.");
    CHECK(us("a mass of 70 kg") == "a mass of 154 lb");
}

TEST_CASE("what is no amount of these units stays to the letter", "[units]") {
    for (const char* text :
         {"50 g iso drink", "480 mg sodium", "every 15': 3 swallows B1", "40 mmol/L assumed", "B2", "60 g/h",
          "1:20:26", "Burke 2011", "3 x Isotonic gel", "10 % of days", "1500 m", "2 Cups", "", "km", "0:30"})
        CHECK(us(text) == text);
    CHECK(in_units("750 ml", Units::metric) == "750 ml");
}

TEST_CASE("a ceiling is never rounded up", "[units]") {
    for (int ml = 0; ml <= 2000; ++ml) {
        const double ounces = std::stod(say::ceiling(ml, Units::imperial));
        CHECK(ounces * 29.5735295625 <= ml);
        CHECK(ounces * 29.5735295625 > ml - 29.58);
    }
    CHECK(say::ceiling(800, Units::metric) == "800 ml");
}

TEST_CASE("roads and days in miles and Fahrenheit", "[units]") {
    CHECK(say::distance(1500, Units::imperial) == "1640 yd");
    CHECK(say::distance(40000, Units::imperial) == "24.9 mi");
    CHECK(say::distance(42195, Units::imperial) == "26.2 mi");
    CHECK(say::distance(750, Units::metric) == "750 m");
    CHECK(say::temperature(33, Units::imperial) == "91 F");
    CHECK(say::temperature(-17.8, Units::imperial) == "0 F");
    CHECK(say::road_mark(4, Units::imperial) == "mile 2.5");
}
