// Fields of an input out of JSON.
#pragma once

#include "io/athlete_file.hpp"
#include "io/fields.hpp"
#include "io/json_reader.hpp"
#include "io/own_lines.hpp"
#include "io/units.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <optional>
#include <stdexcept>

namespace tuck::io {

class FieldReader {
public:
    using ReadText = double (*)(const std::string&);

    explicit FieldReader(Node& node) : node_(node) {}

    template <class Number>
    void number(const Field& f, Number& value, ReadText, const Range& r, Need need) {
        if (need == Need::required)
            value = node_.required_number(f.key, r.low, r.high, r.unit);
        else
            value = node_.number(f.key, r.low, r.high, r.unit).value_or(value);
    }
    template <class Number>
    void number(const Field& f, std::optional<Number>& value, ReadText, const Range& r) {
        value = node_.number(f.key, r.low, r.high, r.unit);
    }
    void whole(const Field& f, int& value, const Range& r, Need need = Need::optional) {
        value = read_whole(f, r).value_or(value);
        miss(f, need);
    }
    void whole(const Field& f, std::optional<int>& value, const Range& r) { value = read_whole(f, r); }
    void seed(const Field& f, unsigned long long& value) {
        if (const auto given = node_.whole(f.key, 0, 2147483647))
            value = static_cast<unsigned long long>(*given);
    }
    void flag(const Field& f, bool& value) { value = node_.flag(f.key).value_or(value); }
    void words(const Field& f, std::string& value, std::size_t longest = longest_words,
               Need need = Need::optional) {
        value = node_.text(f.key, longest).value_or("");
        miss(f, need);
    }
    template <typename T>
    void choice(const Field& f, T& value, const Words<T>& words, Need need = Need::optional) {
        value = node_.choice<T>(f.key, words).value_or(value);
        miss(f, need);
    }
    template <typename T>
    void choice(const Field& f, std::optional<T>& value, const Words<T>& words) {
        value = node_.choice<T>(f.key, words);
    }
    void list(const Field& f, std::vector<std::string>& value, const std::vector<std::string>& known,
              std::size_t most = most_words, Need need = Need::optional) {
        value = node_.texts(f.key, most);
        if (need == Need::required && !node_.has(f.key)) // silence about allergens is not "none"
            node_.fault(f.key, "is missing; write [] for none");
        for (std::size_t i = 0; i < value.size() && !known.empty(); ++i) {
            if (const auto meant = meant_word(value[i], known); !meant.empty()) {
                value[i] = meant;
                continue;
            }
            const std::string hint = value[i] == "lactose"     ? " (lactose is in milk: say milk)"
                                     : value[i] == "shellfish" ? " (say crustaceans, molluscs)"
                                                               : "";
            node_.faults().push_back({node_.file(), fmt::format("{}/{}/{}", node_.pointer(), f.key, i),
                                      fmt::format("\"{}\" is not known{}", value[i], hint),
                                      fmt::format("{}", fmt::join(known, ", ")),
                                      nearest_word(value[i], known)});
        }
    }
    void volumes(const Field& f, std::optional<std::vector<double>>& value, const Range& r, std::size_t most,
                 Need need = Need::optional) {
        const auto given = node_.numbers(f.key, r.low, r.high, r.unit, most);
        if (node_.has(f.key))
            value = given;
        miss(f, need);
    }
    void time(const Field& f, std::optional<double>& value, double longest_s) {
        value = time_in(node_, f.key, longest_s);
    }
    void clock(const Field& f, std::optional<int>& value) {
        const auto text = node_.text(f.key);
        if (!text)
            return;
        try {
            value = clock_min(*text);
        } catch (const std::invalid_argument& error) {
            node_.fault(f.key, error.what());
        }
    }
    /// "2:30" on the clock of a leg.
    void moment(const Field& f, std::optional<Seconds>& value) {
        std::optional<int> min;
        clock(f, min);
        if (min)
            value = *min * 60.0;
    }
    void own_lines(const Field& f, Event& event) {
        const auto lines = node_.texts(f.key, most_own_lines);
        for (std::size_t i = 0; i < lines.size(); ++i)
            try {
                add_own_line(lines[i], event);
            } catch (const std::invalid_argument& error) {
                node_.faults().push_back(
                    {node_.file(), fmt::format("{}/{}/{}", node_.pointer(), f.key, i), error.what()});
            }
    }
    /// A word for the sky, or W/m2 with their unit: it outranks `sun_w_m2`.
    void sun(const Field& f, Weather& weather) {
        const auto text = node_.text(f.key);
        if (!text)
            return;
        try {
            const auto light = sun_light(*text);
            weather.sun_share = light.share;
            weather.sun_w_m2 = light.w_m2;
            if (light.w_m2 && *light.w_m2 > any_sun_w_m2.high)
                node_.fault(f.key, fmt::format("{:g} is out of range; allowed 0 to {:g} W/m2", *light.w_m2,
                                               any_sun_w_m2.high));
        } catch (const std::invalid_argument& error) {
            node_.fault(f.key, error.what());
        }
    }
    void day(const Field& f, std::optional<std::string>& value) { value = day_in(node_, f.key); }

    template <typename T>
    void object(const Field& f, T& value) {
        if (auto node = node_.object(f.key)) {
            FieldReader inner(*node);
            visit_fields(value, inner);
            node->finish();
        }
    }
    template <typename T>
    void object(const Field& f, std::optional<T>& value) {
        if (auto node = node_.object(f.key)) {
            FieldReader inner(*node);
            visit_fields(value.emplace(), inner);
            node->finish();
        }
    }
    template <typename T>
    void objects(const Field& f, std::vector<T>& value, std::size_t most) {
        for (auto& node : node_.objects(f.key, most)) {
            FieldReader inner(node);
            visit_fields(value.emplace_back(), inner);
            node.finish();
        }
    }
    void results(const Field& f, std::vector<RecentResult>& value) { value = results_in(node_, f.key); }

protected:
    Node& node_;

private:
    void miss(const Field& f, Need need) {
        if (need == Need::required && !node_.has(f.key))
            node_.missing(f.key);
    }
    std::optional<int> read_whole(const Field& f, const Range& r) {
        return node_.whole(f.key, static_cast<int>(r.low), static_cast<int>(r.high));
    }
};

} // namespace tuck::io
