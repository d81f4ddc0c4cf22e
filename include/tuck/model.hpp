// The registry of published models behind `tuck model` and the published checks.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tuck {

/// One input of a model. A numeric input has a unit and the range in which the source holds; a word input
/// has the words it may take.
struct ModelInput {
    std::string name; // as in the check files: "mass_kg", "Ta_C"
    std::string unit;
    std::optional<double> low, high;     // range of validity: outside, the result is flagged
    std::vector<std::string> words;      // not empty: a word input
    std::optional<std::string> fallback; // value when not given; absent: required
};

/// Values by input name, as text ("70", "1.75", "sitting").
using ModelArguments = std::map<std::string, std::string>;

struct ModelResult {
    std::vector<std::pair<std::string, double>> values; // one with an empty name, or several named ones
    bool in_range = true;
    std::string note; // what lies outside its range, or what the value cannot say
};

struct Model {
    std::string name;
    std::string what; // one sentence
    std::string unit; // of the value, or of the first value
    std::vector<ModelInput> inputs;
    std::string source;
    ModelResult (*run)(const std::map<std::string, double>& numbers,
                       const std::map<std::string, std::string>& words) = nullptr;
};

/// All models, sorted by name.
const std::vector<Model>& models();
const Model* find_model(const std::string& name);

/// Checks and converts the arguments, fills in the fallbacks, evaluates. Symbols that the literature uses for
/// an input ("CdA", "t200", "accl") are taken too. Throws std::invalid_argument (one line: what is wrong,
/// what is allowed) on an unknown or missing argument, on text that is no finite number, and on a value with
/// which the equation cannot be computed.
ModelResult run_model(const Model& model, const ModelArguments& arguments);

} // namespace tuck
