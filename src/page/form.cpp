#include "page/form.hpp"

#include "base/clock.hpp"
#include "io/input_options.hpp"
#include "tuck/error.hpp"

#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <stdexcept>

namespace tuck::page {

namespace {

using Value = nlohmann::json;
using Form = nlohmann::ordered_json;

/// How a quantity is said. Factors are those of io/units.hpp.
struct Said {
    const char* unit;
    double per_si, offset;
    int decimals;
    double low, high, step; // of a slider, in this unit; low = high: none. Our choice of what is usual.
};
struct Quantity {
    const char* key; // end of the pointer
    Said metric, imperial;
};
constexpr double lb = 1 / 0.45359237, mile = 1 / 1.609344, floz = 1 / 29.5735;
constexpr Quantity quantities[] = {
    {"water_temperature_c", {"C", 1, 0, 1, 8, 32, 1}, {"F", 1.8, 32, 1, 46, 90, 1}},
    {"temperature_c", {"C", 1, 0, 1, 0, 42, 1}, {"F", 1.8, 32, 1, 32, 108, 1}},
    {"mass_kg", {"kg", 1, 0, 1, 40, 120, 1}, {"lb", lb, 0, 1, 90, 260, 1}},
    {"humidity_pct", {"%", 1, 0, 0, 0, 100, 5}, {"%", 1, 0, 0, 0, 100, 5}},
    {"wind_m_s", {"m/s", 1, 0, 1, 0, 12, 1}, {"mph", mile * 3.6, 0, 1, 0, 27, 1}},
    {"carb_g_per_h", {"g/h", 1, 0, 0, 0, 120, 5}, {"g/h", 1, 0, 0, 0, 120, 5}},
    {"fluid_ml_per_h", {"ml/h", 1, 0, 0, 0, 1200, 50}, {"floz/h", floz, 0, 1, 0, 40, 1}},
    {"sweat_ml_per_h", {"ml/h", 1, 0, 0, 300, 2500, 50}, {"floz/h", floz, 0, 1, 10, 85, 1}},
    {"sweat_sodium_mmol_per_l", {"mmol/L", 1, 0, 1, 0, 0, 0}, {"mmol/L", 1, 0, 1, 0, 0, 0}},
    {"threshold_power_w", {"W", 1, 0, 0, 80, 400, 5}, {"W", 1, 0, 0, 80, 400, 5}},
    {"wind_from_deg", {"deg", 1, 0, 0, 0, 360, 15}, {"deg", 1, 0, 0, 0, 360, 15}},
};

const Quantity* quantity_of(const std::string& pointer) {
    for (const auto& quantity : quantities)
        if (pointer.ends_with(std::string("/") + quantity.key))
            return &quantity;
    return nullptr;
}

double rounded(double value, int decimals) {
    const double scale = std::pow(10, decimals);
    return std::round(value * scale) / scale + 0.0;
}

std::string plain(double value) {
    return fmt::format("{}", rounded(value, 6));
}

std::string height_text(double metres, Units units) {
    if (units == Units::metric)
        return plain(rounded(metres * 100, 1)) + "cm";
    const double inches = rounded(metres / 0.0254, 0);
    return fmt::format("{:.0f}'{:.0f}\"", std::floor(inches / 12), std::fmod(inches, 12));
}

std::string distance_text(double metres) {
    return metres < 1000 ? plain(metres) + "m" : plain(metres / 1000) + "km";
}

std::string volumes_text(const Value& volumes, Units units) {
    std::vector<std::string> out;
    for (const auto& volume : volumes)
        out.push_back(units == Units::metric ? plain(volume.get<double>()) + "ml"
                                             : plain(rounded(volume.get<double>() * floz, 2)) + "floz");
    return fmt::format("{}", fmt::join(out, ","));
}

/// A text of the form, or nothing for what is no text: the reader tells the fault.
std::string text_of(const std::string& pointer, const Value& value, Units units) {
    if (value.is_string())
        return value.get<std::string>();
    if (value.is_boolean())
        return value.get<bool>() ? "yes" : "no";
    if (value.is_array()) {
        if (pointer.ends_with("bottles_ml"))
            return volumes_text(value, units);
        std::vector<std::string> out;
        for (const auto& word : value)
            if (word.is_string())
                out.push_back(word.get<std::string>());
        return fmt::format("{}", fmt::join(out, ","));
    }
    if (!value.is_number())
        return "";
    const double number = value.get<double>();
    if (pointer.ends_with("/height_m"))
        return height_text(number, units);
    if (pointer.ends_with("/threshold_run_s_per_km"))
        return units == Units::metric ? duration_text(number) + "/km" : duration_text(number / mile) + "/mi";
    if (pointer.ends_with("/critical_swim_speed_m_s"))
        return duration_text(100 / number) + "/100m";
    const auto* quantity = quantity_of(pointer);
    if (!quantity)
        return plain(number);
    const Said& said = units == Units::metric ? quantity->metric : quantity->imperial;
    return plain(rounded(number * said.per_si + said.offset, said.decimals)) + said.unit;
}

/// The sport of an option for results, "--recent-run"; they share one list.
std::string sport_of_results(const std::string& option) {
    constexpr char start[] = "--recent-";
    return option.starts_with(start) ? option.substr(sizeof start - 1) : "";
}

std::string results_text(const Value& results, const std::string& sport) {
    std::vector<std::string> out;
    for (const auto& result : results)
        if (result.is_object() && result.value("sport", "") == sport)
            out.push_back(fmt::format("{}={}{}", distance_text(result.value("distance_m", 0.0)),
                                      result.value("time", ""),
                                      result.contains("date") ? "@" + result.value("date", "") : ""));
    return fmt::format("{}", fmt::join(out, ","));
}

Form field_of(const io::InputOption& option, const Value& document, Units units) {
    Form field{{"at", option.pointer}, {"help", option.help}, {"kind", option.kind}, {"text", ""}};
    const auto sport = sport_of_results(option.option);
    const Value::json_pointer at(option.pointer);
    const Value* value = document.contains(at) ? &document.at(at) : nullptr;
    if (value)
        field["text"] = sport.empty() ? text_of(option.pointer, *value, units) : results_text(*value, sport);
    if (const auto* quantity = quantity_of(option.pointer)) {
        const Said& said = units == Units::metric ? quantity->metric : quantity->imperial;
        field["unit"] = said.unit;
        if (value && value->is_number())
            field["number"] = rounded(value->get<double>() * said.per_si + said.offset, said.decimals);
        if (said.low < said.high) {
            field["low"] = said.low;
            field["high"] = said.high;
            field["step"] = said.step;
        }
    }
    return field;
}

void erase(Value& document, const std::string& pointer) {
    const Value::json_pointer at(pointer);
    if (!document.contains(at))
        return;
    auto& parent = document.at(at.parent_pointer());
    if (parent.is_object())
        parent.erase(at.back());
    if (parent.empty() && pointer.rfind('/') > 0 && at.parent_pointer().to_string() != "/athlete")
        erase(document, at.parent_pointer().to_string());
}

/// Results of one sport leave those of the others alone.
void set_results(Value& document, const io::InputOption& option, const std::string& sport,
                 const std::string& text) {
    const Value::json_pointer at(option.pointer);
    Value kept = Value::array();
    if (document.contains(at))
        for (const auto& result : document.at(at))
            if (!result.is_object() || result.value("sport", "") != sport)
                kept.push_back(result);
    if (!text.empty())
        for (auto& result : option.read(text))
            kept.push_back(result);
    if (kept.empty())
        erase(document, option.pointer);
    else
        document[at] = kept;
}

void set(Value& document, const io::InputOption& option, const std::string& text) {
    if (const auto sport = sport_of_results(option.option); !sport.empty())
        return set_results(document, option, sport, text);
    if (text.empty())
        return erase(document, option.pointer);
    if (option.option == "--sun") // outranks what else is said of the sky
        for (const char* other : {"/weather/sun_w_m2", "/weather/cloud_pct"})
            erase(document, other);
    document[Value::json_pointer(option.pointer)] = option.read(text);
}

const io::InputOption* find(const std::string& name) {
    for (const auto* options : {&io::athlete_field_options(), &io::event_field_options()})
        for (const auto& option : *options)
            if (option.option == name)
                return &option;
    return nullptr;
}

} // namespace

Units units_of(const std::string& word) {
    if (word != "metric" && word != "imperial")
        throw Error("units", "", "\"" + word + "\" is not known; allowed: metric, imperial");
    return word == "metric" ? Units::metric : Units::imperial;
}

say::Language language_of(const Form& question) {
    return question.value("language", "en") == "de" ? say::Language::german : say::Language::english;
}

Form form_of(const Value& document, Units units) {
    Form form = Form::object();
    for (const auto* options : {&io::athlete_field_options(), &io::event_field_options()})
        for (const auto& option : *options)
            form[option.option] = field_of(option, document, units);
    return form;
}

Value with_texts(Value document, const Form& texts) {
    std::vector<Fault> faults;
    for (const auto& [name, text] : texts.items()) {
        const auto* option = find(name);
        if (!option || !text.is_string()) {
            faults.push_back({name, "", "is not a field of the form"});
            continue;
        }
        try {
            set(document, *option, text.get<std::string>());
        } catch (const std::invalid_argument& error) {
            faults.push_back({name, "", error.what()});
        } catch (const Value::exception&) {
            faults.push_back({name, "", "has no place in this document: something else stands there"});
        }
    }
    if (!faults.empty())
        throw Error(faults);
    return document;
}

} // namespace tuck::page
