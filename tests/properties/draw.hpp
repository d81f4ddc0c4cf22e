// Random draws that are the same on every machine, and the fields of an input drawn with them: keys, words
// and ranges come from the tables that the readers use, so no edge is copied here.
#pragma once

#include "io/athlete_fields.hpp"
#include "io/event_fields.hpp"
#include "io/json_reader.hpp"
#include "tuck/food.hpp"

#include <cmath>
#include <cstdint>
#include <fmt/format.h>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace tuck::properties {

enum class Kind { plausible, extreme };

/// SplitMix64 (Steele, Lea & Flood 2014).
class Draw {
public:
    explicit Draw(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next() {
        std::uint64_t z = state_ += 0x9e3779b97f4a7c15ULL;
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
        return z ^ (z >> 31);
    }
    double between(double low, double high) {
        return low + (high - low) * (static_cast<double>(next() >> 11) * 0x1p-53);
    }
    /// Evenly by the logarithm; low > 0.
    double scaled(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }
    std::size_t below(std::size_t count) { return count == 0 ? 0 : next() % count; }
    int whole(int low, int high) {
        return low + static_cast<int>(below(static_cast<std::size_t>(high - low) + 1));
    }
    bool chance(double of_1) { return between(0, 1) < of_1; }
    template <typename List>
    auto pick(const List& list) {
        return *(std::begin(list) + static_cast<std::ptrdiff_t>(below(std::size(list))));
    }

private:
    std::uint64_t state_;
};

/// A visitor of visit_fields (see io/fields.hpp) that writes an object of the document.
class Drawer {
public:
    using Json = io::Json;
    using Field = io::Field;
    using Range = io::Range;
    using ReadText = double (*)(const std::string&);

    Drawer(Draw& draw, Kind kind, const Pantry& pantry) : draw_(draw), kind_(kind), pantry_(pantry) {}
    Json out = Json::object();
    /// Of the leg whose time is drawn; 0: not known.
    Sport sport = Sport::bike;
    double distance_m = 0;
    bool transition = false;

    template <class Number>
    void number(const Field& f, Number&, ReadText, const Range& r, io::Need need) {
        if (need == io::Need::required || wanted(f))
            out[f.key] = value(f, r);
    }
    template <class Number>
    void number(const Field& f, std::optional<Number>&, ReadText, const Range& r) {
        if (wanted(f))
            out[f.key] = value(f, r);
    }
    void whole(const Field& f, int&, const Range& r, io::Need need = io::Need::optional) {
        if (need == io::Need::required || wanted(f))
            out[f.key] = static_cast<int>(std::lround(value(f, r)));
    }
    void whole(const Field& f, std::optional<int>&, const Range& r) {
        if (wanted(f))
            out[f.key] = static_cast<int>(std::lround(value(f, r)));
    }
    void seed(const Field& f, unsigned long long&) { out[f.key] = draw_.below(2147483647); }
    void flag(const Field& f, bool&) {
        if (wanted(f))
            out[f.key] = true;
    }
    void words(const Field& f, std::string&, std::size_t longest = io::longest_words,
               io::Need = io::Need::optional) {
        static const std::vector<std::string> letters{"W", "i", "\u00fc", "\u0141", "'", "&", " x"};
        std::string text = "Mire Example";
        if (kind_ == Kind::extreme)
            for (text = draw_.pick(letters); text.size() + 2 < longest;)
                text += draw_.pick(letters);
        if (wanted(f))
            out[f.key] = text.substr(0, std::min(longest, text.size()));
    }
    template <typename T>
    void choice(const Field& f, std::optional<T>&, const io::Words<T>& words) {
        if (wanted(f))
            out[f.key] = draw_.pick(words).first;
    }
    template <typename T>
    void choice(const Field& f, T&, const io::Words<T>& words, io::Need = io::Need::optional) {
        if (wanted(f))
            out[f.key] = draw_.pick(words).first;
    }
    void list(const Field& f, std::vector<std::string>&, const std::vector<std::string>& known,
              std::size_t most = io::most_words, io::Need = io::Need::optional) {
        if (!wanted(f))
            return;
        const std::size_t usual = kind_ == Kind::plausible || draw_.chance(0.7) ? 3 : most;
        out[f.key] = Json::array();
        for (auto n = 1 + draw_.below(std::min(usual, most)); n > 0; --n)
            out[f.key].push_back(known.empty() ? food_word(f.key == std::string("serves"))
                                               : draw_.pick(known));
    }
    void volumes(const Field& f, std::optional<std::vector<double>>&, const Range& r, std::size_t most,
                 io::Need need = io::Need::optional) {
        if (need == io::Need::optional && !wanted(f))
            return;
        out[f.key] = Json::array();
        for (auto n = draw_.below(1 + (kind_ == Kind::plausible ? 3 : most)); n > 0; --n)
            out[f.key].push_back(value(f, r));
    }
    /// The time of a leg agrees with its length; any other is free.
    void time(const Field& f, std::optional<double>&, double longest_s) {
        const bool of_leg = f.key == std::string("time");
        if (!wanted(f) || (of_leg && distance_m <= 0 && !transition))
            return;
        const bool plain = kind_ == Kind::plausible;
        if (!of_leg || transition)
            out[f.key] = text_of(draw_.scaled(plain ? 45 : 1, plain && transition ? 600 : longest_s));
        else
            out[f.key] = text_of(believable_s());
    }
    void clock(const Field& f, std::optional<int>&) {
        if (wanted(f))
            out[f.key] = fmt::format("{:02}:{:02}", draw_.below(24), draw_.below(60));
    }
    void moment(const Field& f, std::optional<Seconds>&) {
        if (wanted(f))
            out[f.key] = fmt::format("{}:{:02}", draw_.below(6), draw_.below(60));
    }
    void own_lines(const Field& f, Event&);
    void sun(const Field& f, Weather&) {
        static const std::vector<std::string> skies{"none", "hazy", "half", "full", "1W/m2", "1300W/m2"};
        if (wanted(f))
            out[f.key] = draw_.pick(skies);
    }
    void day(const Field& f, std::optional<std::string>&) {
        if (wanted(f))
            out[f.key] = fmt::format("2027-{:02}-{:02}", draw_.whole(1, 12), draw_.whole(1, 28));
    }
    template <typename T>
    void object(const Field& f, T&) {
        if (wanted(f))
            out[f.key] = drawn(T{});
    }
    template <typename T>
    void object(const Field& f, std::optional<T>&) {
        if (wanted(f))
            out[f.key] = drawn(T{});
    }
    template <typename T>
    void objects(const Field& f, std::vector<T>&, std::size_t most) {
        if (!wanted(f))
            return;
        out[f.key] = Json::array();
        for (auto n = 1 + draw_.below(kind_ == Kind::plausible ? 5 : most); n > 0; --n)
            out[f.key].push_back(drawn(T{}));
    }
    void results(const Field& f, std::vector<RecentResult>&);

    template <typename T>
    Json drawn(T any) {
        Drawer inner(draw_, kind_, pantry_);
        io::visit_fields(any, inner);
        return inner.out;
    }
    /// A time over `distance_m` that the readers believe.
    double believable_s();
    static std::string text_of(double seconds);

private:
    bool wanted(const Field& f);
    double value(const Field& f, const Range& legal);
    std::string food_word(bool one_food);

    Draw& draw_;
    Kind kind_;
    const Pantry& pantry_;
};

} // namespace tuck::properties
