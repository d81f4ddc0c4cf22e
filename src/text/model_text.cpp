#include "text/model_text.hpp"

#include "text/layout.hpp"
#include "tuck/figures.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace tuck::faces {

namespace {

using Json = nlohmann::ordered_json;

std::string range_text(const ModelInput& input) {
    if (!input.words.empty())
        return fmt::format("{}", fmt::join(input.words, "|"));
    std::string text = input.unit;
    if (input.low && input.high)
        text += fmt::format("{}{:g} to {:g}", text.empty() ? "" : ", ", *input.low, *input.high);
    else if (input.low)
        text += fmt::format("{}from {:g}", text.empty() ? "" : ", ", *input.low);
    else if (input.high)
        text += fmt::format("{}to {:g}", text.empty() ? "" : ", ", *input.high);
    return text;
}

Json input_json(const ModelInput& input) {
    Json out{{"name", input.name}, {"unit", input.unit}};
    if (input.low)
        out["low"] = *input.low;
    if (input.high)
        out["high"] = *input.high;
    if (!input.words.empty())
        out["words"] = input.words;
    if (input.fallback)
        out["default"] = *input.fallback;
    return out;
}

Json value_json(const ModelResult& result) {
    if (result.values.size() == 1 && result.values.front().first.empty())
        return result.values.front().second;
    Json out = Json::object();
    for (const auto& [name, value] : result.values)
        out[name] = value;
    return out;
}

} // namespace

std::string model_list_text(const std::vector<Model>& models) {
    std::string out;
    const auto put = [&out](const std::string& first, const std::string& text) {
        for (const auto& row : wrap(text, 80, first))
            out += row + "\n";
    };
    for (const auto& model : models) {
        out += model.name + (model.unit.empty() ? "" : " [" + model.unit + "]") + "\n";
        put("  ", model.what);
        for (const auto& input : model.inputs)
            put("    " + padded(input.name, 20) + " ",
                range_text(input) +
                    (input.fallback ? fmt::format(" (if not given: {})", *input.fallback) : ""));
        put("  Source: ", model.source);
    }
    return out;
}

std::string model_list_json(const std::vector<Model>& models) {
    Json out = Json::array();
    for (const auto& model : models) {
        Json inputs = Json::array();
        for (const auto& input : model.inputs)
            inputs.push_back(input_json(input));
        out.push_back({{"model", model.name},
                       {"what", model.what},
                       {"unit", model.unit},
                       {"inputs", inputs},
                       {"source", model.source}});
    }
    return out.dump(2) + "\n";
}

std::string model_result_text(const Model& model, const ModelResult& result) {
    std::string out;
    for (const auto& [name, value] : result.values)
        out += fmt::format("{}{:.6g}{}\n", name.empty() ? "" : name + " ", value,
                           name.empty() && !model.unit.empty() ? " " + model.unit : "");
    if (!result.in_range)
        out += "outside the range of its source\n";
    if (!result.note.empty())
        out += result.note + "\n";
    return out + "Source: " + model.source + "\n";
}

std::string model_result_json(const Model& model, const ModelArguments& arguments,
                              const ModelResult& result) {
    Json out{{"model", model.name}};
    out["inputs"] = Json::object();
    for (const auto& [key, value] : arguments)
        out["inputs"][key] = value;
    out["value"] = value_json(result);
    out["unit"] = model.unit;
    out["in_range"] = result.in_range;
    out["source"] = model.source;
    if (!result.note.empty())
        out["note"] = result.note;
    return out.dump(2) + "\n";
}

std::string figures_text() {
    std::string out;
    const auto put = [&out](const std::string& first, const std::string& text) {
        for (const auto& row : wrap(text, 80, first))
            out += row + "\n";
    };
    for (const auto& f : figures())
        put("",
            fmt::format("{} = {:.6g}{}{} [{}; {}]{}{}", f.id, f.value, f.unit == "1" ? "" : " ",
                        f.unit == "1" ? "" : f.unit, f.source, f.where, f.note.empty() ? "" : ": ", f.note));
    out += "\n";
    for (const auto& s : sources()) {
        const auto year = s.year > 0 ? fmt::format(" {}", s.year) : std::string();
        const auto title =
            s.title.empty() ? std::string() : fmt::format("{}{}", s.authors.empty() ? "" : ": ", s.title);
        put("",
            fmt::format("{}: {}{}{}{} ({})", s.key, s.authors, year, title,
                        s.doi.empty() ? std::string() : fmt::format(", doi {}", s.doi), to_string(s.seen)));
    }
    return out;
}

std::string figures_json() {
    Json out{{"figures", Json::array()}, {"sources", Json::array()}};
    for (const auto& f : figures())
        out["figures"].push_back({{"id", f.id},
                                  {"value", f.value},
                                  {"unit", f.unit},
                                  {"source", f.source},
                                  {"where", f.where},
                                  {"note", f.note}});
    for (const auto& s : sources()) {
        Json row{{"key", s.key},
                 {"authors", s.authors},
                 {"title", s.title},
                 {"doi", s.doi},
                 {"seen", to_string(s.seen)}};
        if (s.year > 0)
            row["year"] = s.year;
        out["sources"].push_back(std::move(row));
    }
    return out.dump(2) + "\n";
}

} // namespace tuck::faces
