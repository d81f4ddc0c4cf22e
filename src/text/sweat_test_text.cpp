#include "text/sweat_test_text.hpp"

#include "say/units.hpp"
#include "text/page.hpp"

#include <cmath>
#include <fmt/format.h>

namespace tuck::faces {

namespace {

const char* mark_of(Severity severity) {
    return severity == Severity::danger ? "  !! " : severity == Severity::caution ? "  !  " : "     ";
}

/// Its sentences, and not its numbers.
SweatTestResult in_units_of(SweatTestResult result, Units units) {
    for (auto& warning : result.warnings)
        warning.text = say::in_units(warning.text, units);
    for (auto& reason : result.because)
        reason.text = say::in_units(reason.text, units);
    for (auto* texts : {&result.advice, &result.assumptions})
        for (auto& text : *texts)
            text = say::in_units(text, units);
    return result;
}

void write_result(const SweatTest& test, const SweatTestResult& r, Units units, TextPage& page) {
    const auto line = [&](const std::string& text) { page.line(say::in_units(text, units)); };
    page.head(say::in_units(fmt::format("SWEAT TEST   {}, {:.0f} min at {:g} C", to_string(test.sport),
                                        test.minutes, test.temperature_c),
                            units));
    line(fmt::format("  sweat            {:.0f} ml, {:.2f} L/h, give or take {:.2f} L/h", r.sweat_ml,
                     r.sweat_ml_per_h / 1000, r.error_ml_per_h / 1000));
    line(fmt::format("  drunk            {:.0f} ml, {:.0f} % of the sweat", test.drank_ml,
                     100 * r.replaced_share));
    line(fmt::format("  body mass        {:+.2f} kg ({:+.1f} %)", r.mass_change_kg, r.mass_change_pct));
    line(fmt::format("  body water       {:+.0f} ml ({:+.1f} % of mass)", r.water_change_ml,
                     r.water_change_pct));
    line(fmt::format("  not sweat        {:.0f} g of breath and burnt fuel, taken off", r.not_sweat_g));
    if (r.sodium_mmol_per_l)
        line(fmt::format("  sweat sodium     {:.0f} mmol/L, give or take {:.0f}, whole body",
                         *r.sodium_mmol_per_l, r.sodium_error_mmol_per_l));
    line(fmt::format("  the model says   {:.2f} L/h for this session; people differ by 45 %",
                     r.modelled_ml_per_h / 1000));
}

std::string outlook_row(const SweatOutlook& day, Units units) {
    if (units == Units::metric)
        return fmt::format("  {:<5} at {:>3.0f} C     {:>4.2f} L/h, {:.2f} to {:.2f}         {:>4.2f} L/h",
                           to_string(day.sport), day.temperature_c, day.sweat_ml_per_h / 1000,
                           day.sweat_low_ml_per_h / 1000, day.sweat_high_ml_per_h / 1000,
                           std::floor(day.drink_up_to_ml_per_h / 10) / 100);
    return fmt::format(
        "  {:<5} at {:>5}   {:>4.0f} fl oz/h, {:.0f} to {:.0f}        {}/h", to_string(day.sport),
        say::temperature(day.temperature_c, units), say::volume_in(day.sweat_ml_per_h, units),
        say::volume_in(day.sweat_low_ml_per_h, units), say::volume_in(day.sweat_high_ml_per_h, units),
        say::ceiling(day.drink_up_to_ml_per_h, units));
}

void write_outlook(const SweatTestResult& r, Units units, TextPage& page) {
    page.head("ON A RACE DAY      likely sweat, on 90 days in 100    drink up to, to thirst");
    for (const auto& day : r.outlook)
        page.line(outlook_row(day, units));
    const auto limit = [units](double ml) {
        return units == Units::metric ? fmt::format("{:g} L/h", ml / 1000) : say::ceiling(ml, units) + "/h";
    };
    page.item("  ",
              fmt::format("Over four hours; the other sport at the effort of your level, and less sure. One "
                          "test is one day, so it is drawn a little towards the model. A ceiling is no "
                          "target: less is fine. Over {} only once rehearsed, never over {}.",
                          limit(800), limit(1420)));
}

} // namespace

std::string sweat_test_text(const SweatTest& test, const SweatTestResult& given, Units units) {
    TextPage page;
    const auto result = in_units_of(given, units);
    write_result(test, result, units, page);
    write_outlook(result, units, page);
    if (!result.warnings.empty())
        page.head("TAKE CARE");
    for (const auto& warning : result.warnings)
        page.item(mark_of(warning.severity), warning.text);
    page.list("THE NEXT TEST", result.advice);
    page.head("WHY");
    for (const auto& reason : result.because)
        page.item("  - ", fmt::format("{} [{}]", reason.text, reason.source));
    page.list("ASSUMED", result.assumptions);
    page.item("\nNo scales, or rather none? ", "\"tuck sweat-test --no-scales\" tells the other way.");
    page.item("", "Not medical advice. Kidney, heart, diuretics, pregnancy: ask your doctor first.");
    return page.text();
}

std::string without_scales_text() {
    TextPage page;
    page.list("WITHOUT SCALES: THIRST AND A BOTTLE LOG", sweat_without_scales());
    return page.text();
}

} // namespace tuck::faces
