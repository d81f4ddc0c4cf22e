// What a field of an input is, said once: visitors make of it the reader, the writer, the options, the
// columns of a roster and the JSON Schema. A new field is a member of its struct and one line in its
// visit_fields.
//
// visit_fields(T&, V& v) calls one member of the visitor for each field, always with the Field first:
//   number(N&, read, Range, Need)            N: double or a Quantity; read: from an option's text
//   number(std::optional<N>&, read, Range)
//   whole(int&, Range, Need), whole(std::optional<int>&, Range), flag(bool&)
//   words(std::string&, longest)
//   choice(T&, Words<T>), choice(std::optional<T>&, Words<T>)
//   list(std::vector<std::string>&, known, most)   known: the words allowed; empty: any
//   volumes(std::optional<std::vector<double>>&, Range, most, Need)
//   time(std::optional<double>&, longest_s), clock(std::optional<int>&), moment(std::optional<Seconds>&)
//   day(std::optional<std::string>&), sun(Weather&)
//   object(T&), object(std::optional<T>&), objects(std::vector<T>&, most)   T has its own visit_fields
// and what only one input has: see diary_fields.hpp and athlete_fields.hpp.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace tuck::io {

struct Field {
    const char* key;              // in the file
    const char* option = nullptr; // nullptr: set by other means
    const char* about = "";       // what it is
    const char* example = "";     // of the option's text
    const char* kind = "TEXT";    // of value, for the help: "MASS"
    const char* column = nullptr; // of a roster; nullptr: none
};

struct Range {
    double low, high;
    const char* unit;
};

enum class Need { required, optional };

inline constexpr std::size_t most_words = 50;     // of a list
inline constexpr std::size_t longest_words = 500; // of a remark

template <typename T>
using Words = std::vector<std::pair<std::string, T>>;

inline constexpr Range any_percent{0, 100, "%"}, any_air_c{-20, 50, "C"}, any_wind_m_s{0, 25, "m/s"},
    any_direction_deg{0, 360, "degrees"}, any_water_c{0, 35, "C"}, any_sun_w_m2{0, 1300, "W/m2"},
    body_kg{25, 250, "kg"};

} // namespace tuck::io
