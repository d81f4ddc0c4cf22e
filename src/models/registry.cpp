#include "models/entry.hpp"

#include "base/numbers.hpp"
#include "base/words.hpp"
#include "models/short_names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>

namespace tuck {
namespace registry {

double Given::positive(const std::string& name) const {
    if ((*this)[name] > 0) {
        return (*this)[name];
    }
    throw std::invalid_argument(fmt::format("{}: must be above 0, got {}", name, (*this)[name]));
}

double Given::not_negative(const std::string& name) const {
    if ((*this)[name] >= 0) {
        return (*this)[name];
    }
    throw std::invalid_argument(fmt::format("{}: must be 0 or more, got {}", name, (*this)[name]));
}

double Given::between(const std::string& name, double low, double high) const {
    const double value = (*this)[name];
    if (value >= low && value <= high) {
        return value;
    }
    throw std::invalid_argument(fmt::format("{}: must lie in {} to {}, got {}", name, low, high, value));
}

namespace {

std::string allowed_names(const Model& model) {
    std::vector<std::string> names;
    for (const ModelInput& input : model.inputs) {
        names.push_back(input.name);
    }
    return fmt::format("{}", fmt::join(names, ", "));
}

void refuse_unknown(const Model& model, const ModelArguments& arguments) {
    for (const auto& argument : arguments) {
        const std::string& name = argument.first;
        const auto further = [&](const ModelInput& a, const ModelInput& b) {
            return edit_distance(name, a.name) < edit_distance(name, b.name);
        };
        const auto nearest = std::min_element(model.inputs.begin(), model.inputs.end(), further);
        if (nearest == model.inputs.end()) {
            throw std::invalid_argument(fmt::format("{} takes no inputs, got '{}'", model.name, name));
        }
        if (edit_distance(name, nearest->name) > 0) {
            throw std::invalid_argument(fmt::format("{} has no input '{}'; did you mean '{}'? (inputs: {})",
                                                    model.name, name, nearest->name, allowed_names(model)));
        }
    }
}

double number_from(const ModelInput& input, const std::string& text) {
    double value = 0;
    const auto [end, error] = tuck::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) {
        throw std::invalid_argument(fmt::format("{}: '{}' is no finite number (unit: {})", input.name, text,
                                                input.unit.empty() ? "none" : input.unit));
    }
    return value;
}

const std::string& word_from(const ModelInput& input, const std::string& text) {
    if (std::find(input.words.begin(), input.words.end(), text) == input.words.end()) {
        throw std::invalid_argument(
            fmt::format("{}: '{}' is not one of {}", input.name, text, fmt::join(input.words, ", ")));
    }
    return text;
}

const std::string& text_of(const Model& model, const ModelInput& input, const ModelArguments& arguments) {
    const auto given = arguments.find(input.name);
    if (given != arguments.end()) {
        return given->second;
    }
    if (!input.fallback) {
        throw std::invalid_argument(fmt::format("{} needs '{}'{} (inputs: {})", model.name, input.name,
                                                input.unit.empty() ? "" : " in " + input.unit,
                                                allowed_names(model)));
    }
    return *input.fallback;
}

void add_note(ModelResult& result, const std::string& note) {
    result.note += (result.note.empty() ? "" : "; ") + note;
}

void flag_range(const ModelInput& input, double value, ModelResult& result) {
    if ((input.low && value < *input.low) || (input.high && value > *input.high)) {
        result.in_range = false;
        const std::string allowed = !input.high  ? fmt::format("from {}", *input.low)
                                    : !input.low ? fmt::format("up to {}", *input.high)
                                                 : fmt::format("{} to {}", *input.low, *input.high);
        add_note(result, fmt::format("{} {} lies outside {} {}", input.name, value, allowed, input.unit));
    }
}

std::vector<Model> all_models() {
    std::vector<Model> all;
    for (auto table :
         {registry::air_models, registry::sweat_models, registry::sun_models, registry::heat_stress_models,
          registry::salt_models, registry::energy_models, registry::fuel_models, registry::label_models,
          registry::ride_models, registry::pace_models, registry::effort_models}) {
        for (Model& model : table()) {
            all.push_back(std::move(model));
        }
    }
    std::sort(all.begin(), all.end(), [](const Model& a, const Model& b) { return a.name < b.name; });
    return all;
}

} // namespace
} // namespace registry

const std::vector<Model>& models() {
    static const std::vector<Model> all = registry::all_models();
    return all;
}

const Model* find_model(const std::string& name) {
    const auto& all = models();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Model& model) { return model.name == name; });
    return found == all.end() ? nullptr : &*found;
}

ModelResult run_model(const Model& model, const ModelArguments& given) {
    const ModelArguments arguments = registry::with_full_names(model, given);
    registry::refuse_unknown(model, arguments);
    std::map<std::string, double> numbers;
    std::map<std::string, std::string> words;
    for (const ModelInput& input : model.inputs) {
        const std::string& text = registry::text_of(model, input, arguments);
        if (input.words.empty()) {
            numbers[input.name] = registry::number_from(input, text);
        } else {
            words[input.name] = registry::word_from(input, text);
        }
    }
    ModelResult result = model.run(numbers, words);
    for (auto& [name, value] : result.values) {
        if (!std::isfinite(value)) {
            throw std::invalid_argument(model.name + ": no finite result with these inputs");
        }
        value += 0.0; // a negative zero becomes zero
    }
    for (const ModelInput& input : model.inputs) {
        if (input.words.empty()) {
            registry::flag_range(input, numbers[input.name], result);
        }
    }
    return result;
}

} // namespace tuck
