// Who reads: in which units and which language.
#pragma once

#include "say/sentences.hpp"
#include "say/units.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace tuck::page {

struct Reader {
    using Json = nlohmann::ordered_json;

    Units units = Units::metric;
    say::Language language = say::Language::english;

    std::string fluid(double ml) const {
        return units == Units::imperial || ml < 1000 ? say::volume(ml, units)
                                                     : fmt::format("{:.1f} L", ml / 1000);
    }
    std::string sentence(const std::string& text) const {
        return say::told(say::in_units(text, units), language).text;
    }
    /// With its language, which a screen reader has to know.
    static Json json(const say::Told& said) {
        return {{"text", said.text}, {"lang", said.language == say::Language::german ? "de" : "en"}};
    }
    Json told(const std::string& text) const { return json(say::told(say::in_units(text, units), language)); }
    Json told(const std::vector<std::string>& texts) const {
        Json out = Json::array();
        for (const auto& text : texts)
            out.push_back(told(text));
        return out;
    }
    /// "a; b"
    Json told_each(const std::string& texts) const { return json(say::told_each(texts, language)); }
    /// A fault as faults of inputs are: numbers in the units of the file.
    Json told(const Fault& fault) const { return json(say::told_fault(fault, language)); }
};

} // namespace tuck::page
