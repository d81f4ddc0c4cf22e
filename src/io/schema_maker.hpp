// Fields of an input as JSON Schema (draft 2020-12).
#pragma once

#include "io/fields.hpp"
#include "io/own_lines.hpp"
#include "tuck/athlete.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>

namespace tuck::io {

using Schema = nlohmann::ordered_json;

class SchemaMaker {
public:
    using ReadText = double (*)(const std::string&);

    /// The object so far: its properties, what it requires, and nothing beside.
    Schema object() const {
        Schema out{{"type", "object"}, {"additionalProperties", false}};
        if (!required_.empty())
            out["required"] = required_;
        out["properties"] = properties_;
        return out;
    }
    const Schema& properties() const { return properties_; }
    const Schema& required() const { return required_; }

    template <class Number>
    void number(const Field& f, Number&, ReadText, const Range& r, Need need) {
        put(f, number_in(r), need);
    }
    template <class Number>
    void number(const Field& f, std::optional<Number>&, ReadText, const Range& r) {
        put(f, number_in(r));
    }
    void whole(const Field& f, int&, const Range& r, Need need = Need::optional) {
        put(f, whole_in(r), need);
    }
    void whole(const Field& f, std::optional<int>&, const Range& r) { put(f, whole_in(r)); }
    void seed(const Field& f, unsigned long long&) { put(f, whole_in({0, 2147483647, ""})); }
    void flag(const Field& f, bool&) { put(f, {{"type", "boolean"}}); }
    void words(const Field& f, std::string&, std::size_t longest = longest_words,
               Need need = Need::optional) {
        put(f, {{"type", "string"}, {"maxLength", longest}}, need);
    }
    template <typename T>
    void choice(const Field& f, std::optional<T>&, const Words<T>& words) {
        T any{};
        choice(f, any, words);
    }
    template <typename T>
    void choice(const Field& f, T&, const Words<T>& words, Need need = Need::optional) {
        Schema known = Schema::array();
        for (const auto& [word, meaning] : words)
            known.push_back(word);
        put(f, {{"enum", known}}, need);
    }
    void list(const Field& f, std::vector<std::string>&, const std::vector<std::string>& known,
              std::size_t most = most_words, Need need = Need::optional) {
        Schema item{{"type", "string"}, {"minLength", 1}};
        if (!known.empty())
            item = {{"enum", known}};
        put(f, {{"type", "array"}, {"maxItems", most}, {"items", item}}, need);
    }
    void volumes(const Field& f, std::optional<std::vector<double>>&, const Range& r, std::size_t most,
                 Need need = Need::optional) {
        put(f, {{"type", "array"}, {"maxItems", most}, {"items", number_in(r)}}, need);
    }
    void time(const Field& f, std::optional<double>&, double) { put(f, {{"$ref", "#/$defs/time"}}); }
    void clock(const Field& f, std::optional<int>&) { put(f, {{"$ref", "#/$defs/clock"}}); }
    void moment(const Field& f, std::optional<Seconds>&) {
        put(f, {{"type", "string"}, {"pattern", "^[0-2]?[0-9]:[0-5][0-9]$"}});
    }
    void own_lines(const Field& f, Event&) {
        put(f, {{"type", "array"}, {"maxItems", most_own_lines}, {"items", {{"type", "string"}}}});
    }
    void sun(const Field& f, Weather&) {
        put(f, {{"type", "string"}, {"pattern", "^(none|hazy|half|full|[0-9.]+ ?[Ww]/m2)$"}});
    }
    void day(const Field& f, std::optional<std::string>&) { put(f, day_schema()); }
    template <typename T>
    void object(const Field& f, T& value) {
        SchemaMaker inner;
        visit_fields(value, inner);
        put(f, inner.object());
    }
    template <typename T>
    void object(const Field& f, std::optional<T>& value) {
        object(f, value.emplace());
    }
    template <typename T>
    void objects(const Field& f, std::vector<T>&, std::size_t most) {
        T any;
        SchemaMaker inner;
        visit_fields(any, inner);
        put(f, {{"type", "array"}, {"maxItems", most}, {"items", inner.object()}});
    }
    void results(const Field& f, std::vector<RecentResult>&);

    /// A property that no visitor makes.
    void put(const Field& f, Schema schema, Need need = Need::optional) {
        if (need == Need::required)
            required_.push_back(f.key);
        if (*f.about) {
            std::string text = f.about;
            text[0] = text[0] >= 'a' && text[0] <= 'z' ? static_cast<char>(text[0] - 'a' + 'A') : text[0];
            schema["description"] = text + ".";
        }
        properties_[f.key] = std::move(schema);
    }

    static Schema number_in(const Range& r) {
        return {{"type", "number"}, {"minimum", plain(r.low)}, {"maximum", plain(r.high)}};
    }
    static Schema whole_in(const Range& r) {
        return {{"type", "integer"}, {"minimum", plain(r.low)}, {"maximum", plain(r.high)}};
    }
    static Schema day_schema() {
        return {{"type", "string"}, {"pattern", "^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"}};
    }

protected:
    /// Whole numbers without a point.
    static Schema plain(double value) {
        const auto whole = static_cast<long long>(value);
        return static_cast<double>(whole) == value ? Schema(whole) : Schema(value);
    }

    Schema properties_ = Schema::object(), required_ = Schema::array();
};

} // namespace tuck::io
