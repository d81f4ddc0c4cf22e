#include "say/units.hpp"

#include "base/numbers.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>
#include <string_view>

namespace tuck::say {

namespace {

constexpr double ml_per_floz = 29.5735295625, km_per_mile = 1.609344, m_per_yard = 0.9144,
                 m_per_foot = 0.3048, kg_per_lb = 0.45359237, mph_per_m_s = 3.6 / km_per_mile;
constexpr double yards_up_to_m = 2414; // a mile and a half: our choice

double fahrenheit(double celsius) {
    return celsius * 9 / 5 + 32;
}

/// To `decimals` at most, without zeros at the end and without a negative zero.
std::string number(double value, int decimals) {
    const double scale = std::pow(10, decimals);
    return fmt::format("{:g}", std::round(value * scale) / scale + 0.0);
}

/// How a metric amount is told in US customary units; its decimals follow the size of the number.
struct Told {
    std::string_view metric;
    const char* customary;
    double times, plus;
};

constexpr std::array<Told, 9> told{{{"ml/h", "fl oz/h", 1 / ml_per_floz, 0},
                                    {"L/h", "fl oz/h", 1000 / ml_per_floz, 0},
                                    {"ml", "fl oz", 1 / ml_per_floz, 0},
                                    {"km/h", "mph", 1 / km_per_mile, 0},
                                    {"km", "miles", 1 / km_per_mile, 0},
                                    {"kg", "lb", 1 / kg_per_lb, 0},
                                    {"m/s", "mph", mph_per_m_s, 0},
                                    {"L", "fl oz", 1000 / ml_per_floz, 0},
                                    {"C", "F", 1.8, 32}}};

std::string told_number(const Told& unit, double metric) {
    const double value = metric * unit.times + unit.plus;
    return number(value, unit.metric != "C" && std::abs(value) < 10 ? 1 : 0);
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// One pass over a sentence.
class Teller {
public:
    explicit Teller(std::string_view text) : text_(text) {}

    std::string all() {
        while (at_ < text_.size())
            if (!road_marks() && !amount())
                out_ += text_[at_++];
        return out_;
    }

private:
    bool starts_word() const {
        const char before = at_ == 0 ? ' ' : text_[at_ - 1];
        return !is_letter(before) && !is_digit(before) && before != '.' && before != '/';
    }

    struct Number {
        double value;
        std::size_t end;
    };
    // cppcheck-suppress syntaxError ; it takes the template for a comparison
    std::optional<Number> number_at(std::size_t at) const {
        const bool minus = at < text_.size() && text_[at] == '-';
        if (at + minus >= text_.size() || !is_digit(text_[at + minus]))
            return std::nullopt;
        double value = 0;
        const auto [end, error] = from_chars(text_.data() + at, text_.data() + text_.size(), value,
                                             fast_float::chars_format::fixed);
        std::size_t after = static_cast<std::size_t>(end - text_.data());
        if (text_[after - 1] == '.') // the end of a sentence
            --after;
        return error == std::errc() ? std::optional(Number{value, after}) : std::nullopt;
    }

    /// "km 4", "km 80 120 140": the word, then numbers.
    bool road_marks() {
        constexpr std::string_view word = "km ";
        if (!starts_word() || !text_.substr(at_).starts_with(word))
            return false;
        auto next = number_at(at_ + word.size());
        if (!next)
            return false;
        out_ += "mile";
        at_ += 2;
        while (next) {
            out_ += " " + road_number(next->value, Units::imperial);
            at_ = next->end;
            next = at_ < text_.size() && text_[at_] == ' ' ? number_at(at_ + 1) : std::nullopt;
        }
        return true;
    }

    /// "750 ml", "310 to 430 ml", "0.4-0.8 L/h".
    bool amount() {
        if (!starts_word())
            return false;
        const auto low = number_at(at_);
        if (!low)
            return false;
        for (const std::string_view between : {"", " to ", "-", " - ", " and "}) {
            const auto high = between.empty() ? low
                              : text_.substr(low->end).starts_with(between)
                                  ? number_at(low->end + between.size())
                                  : std::nullopt;
            if (high && told_as(*low, *high, between))
                return true;
        }
        out_ += text_.substr(at_, low->end - at_);
        at_ = low->end;
        return true;
    }

    bool told_as(const Number& low, const Number& high, std::string_view between) {
        std::size_t at = high.end;
        if (at < text_.size() && text_[at] == ' ')
            ++at;
        constexpr std::string_view degree = "°";
        const bool with_degree = text_.substr(at).starts_with(degree);
        at += with_degree ? degree.size() : 0;
        for (const Told& unit : told) {
            const std::size_t end = at + unit.metric.size();
            const char next = end < text_.size() ? text_[end] : ' ';
            if (!text_.substr(at).starts_with(unit.metric) || is_letter(next) || is_digit(next) ||
                next == '/' || next == '-')
                continue;
            if (!between.empty())
                out_ += told_number(unit, low.value) + std::string(between);
            out_ += told_number(unit, high.value) + (with_degree ? " °" : " ") + unit.customary;
            at_ = end;
            return true;
        }
        return false;
    }

    std::string_view text_;
    std::string out_;
    std::size_t at_ = 0;
};

} // namespace

std::string volume(double ml, Units units) {
    return fmt::format("{:.0f} {}", volume_in(ml, units) + 0.0, volume_unit(units));
}

std::string ceiling(double ml, Units units) {
    return units == Units::metric ? volume(ml, units)
                                  : fmt::format("{:.0f} fl oz", std::floor(volume_in(ml, units)) + 0.0);
}

std::string volume_unit(Units units) {
    return units == Units::metric ? "ml" : "fl oz";
}

double volume_in(double ml, Units units) {
    return units == Units::metric ? ml : ml / ml_per_floz;
}

std::string temperature(double celsius, Units units) {
    return units == Units::metric ? number(celsius, 1) + " C" : number(fahrenheit(celsius), 0) + " F";
}

std::string distance(double m, Units units) {
    if (units == Units::metric)
        return m < 1000 ? fmt::format("{:.0f} m", m) : number(m / 1000, 1) + " km";
    return m < yards_up_to_m ? fmt::format("{:.0f} yd", m / m_per_yard)
                             : number(m / 1000 / km_per_mile, 1) + " mi";
}

std::string height(double m, Units units) {
    return units == Units::metric ? fmt::format("{:.0f} m", m) : fmt::format("{:.0f} ft", m / m_per_foot);
}

double road_in(double km, Units units) {
    return units == Units::metric ? km : km / km_per_mile;
}

double speed_in(double m_per_s, Units units) {
    return road_in(m_per_s * 3.6, units);
}

std::string road_number(double km, Units units) {
    return number(road_in(km, units), 1);
}

std::string road_mark(double km, Units units) {
    return (units == Units::metric ? "km " : "mile ") + road_number(km, units);
}

std::string in_units(const std::string& sentence, Units units) {
    return units == Units::metric ? sentence : Teller(sentence).all();
}

Plan in_own_units(const Plan& given) {
    Plan plan = given;
    const auto tell = [&](std::string& text) { text = in_units(text, plan.units); };
    const auto tell_reasons = [&](std::vector<Reason>& reasons) {
        for (Reason& reason : reasons)
            tell(reason.text);
    };
    const auto tell_each = [&](auto& items) {
        for (auto& item : items)
            tell(item.text);
    };
    if (plan.units == Units::metric)
        return plan;
    for (auto* texts : {&plan.still_matters, &plan.assumptions, &plan.cautions})
        for (std::string& text : *texts)
            tell(text);
    for (std::string* text : {&plan.clock_note, &plan.refill_note, &plan.stop_line, &plan.outlook.sentence})
        tell(*text);
    tell_reasons(plan.fuelling_because);
    for (LegNeed& need : plan.needs)
        tell_reasons(need.because);
    for (Trace& trace : plan.traces)
        tell_reasons(trace.because);
    for (Unmet& unmet : plan.unmet) {
        tell(unmet.rule);
        tell(unmet.lift);
    }
    tell_each(plan.carry);
    tell_each(plan.mix);
    tell_each(plan.shopping);
    tell_each(plan.special_needs);
    tell_each(plan.before);
    tell_each(plan.after);
    tell_each(plan.if_then);
    tell_each(plan.broken_rules);
    tell_each(plan.warnings);
    return plan;
}

} // namespace tuck::say
