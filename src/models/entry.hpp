// How a model enters the registry: its inputs, and a small function of them.
#pragma once

#include "tuck/model.hpp"

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace tuck::registry {

/// The checked inputs of one evaluation. The named readers refuse, with std::invalid_argument, what an
/// equation cannot be computed with.
class Given {
public:
    Given(const std::map<std::string, double>& numbers, const std::map<std::string, std::string>& words)
        : numbers_(numbers), words_(words) {}

    double operator[](const std::string& name) const { return numbers_.at(name); }
    const std::string& word(const std::string& name) const { return words_.at(name); }
    bool yes(const std::string& name) const { return word(name) == "yes"; }
    double positive(const std::string& name) const;
    double not_negative(const std::string& name) const;
    double between(const std::string& name, double low, double high) const;
    double temperature(const std::string& name) const { return between(name, -100, 200); }
    double humidity() const { return between("RH_pct", 0, 100); }

private:
    const std::map<std::string, double>& numbers_;
    const std::map<std::string, std::string>& words_;
};

inline ModelResult as_result(double value) {
    return {{{"", value}}, true, ""};
}
inline ModelResult as_result(ModelResult result) {
    return result;
}

/// A value that is flagged with a note unless `fine`.
inline ModelResult flagged(double value, bool fine, const std::string& otherwise) {
    return {{{"", value}}, fine, fine ? "" : otherwise};
}

/// Turns a function of Given (returning a number or a ModelResult) into the registry's function pointer.
template <auto Function>
ModelResult run(const std::map<std::string, double>& numbers,
                const std::map<std::string, std::string>& words) {
    return as_result(Function(Given(numbers, words)));
}

/// A number with the range in which the source holds.
inline ModelInput in(std::string name, std::string unit, double low, double high) {
    return {std::move(name), std::move(unit), low, high, {}, {}};
}
inline ModelInput word(std::string name, std::vector<std::string> words) {
    return {std::move(name), "", {}, {}, std::move(words), {}};
}
/// The same input with the value it takes when not given.
inline ModelInput or_else(ModelInput input, std::string value) {
    input.fallback = std::move(value);
    return input;
}

// The tables of the registry, one per subject.
std::vector<Model> air_models();
std::vector<Model> sweat_models();
std::vector<Model> sun_models();
std::vector<Model> heat_stress_models();
std::vector<Model> salt_models();
std::vector<Model> energy_models();
std::vector<Model> fuel_models();
std::vector<Model> label_models();
std::vector<Model> ride_models();
std::vector<Model> pace_models();
std::vector<Model> effort_models();

} // namespace tuck::registry
