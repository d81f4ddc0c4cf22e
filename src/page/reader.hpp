// Who reads: in which units and which language.
#pragma once

#include "say/sentences.hpp"
#include "say/units.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <string>
#include <string_view>
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
    /// What is composed in the reader's language already.
    std::string in_own(const std::string& text) const { return miles(say::in_units(text, units)); }
    /// "km 4", "mile 2.5"
    std::string road_mark(double km) const { return miles(say::road_mark(km, units)); }
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

private:
    /// Places on the road come in English from the one that turns units.
    std::string miles(std::string text) const {
        constexpr std::string_view english = "mile ", german = "Meile ";
        if (language == say::Language::german)
            for (auto at = text.find(english); at != text.npos; at = text.find(english, at + german.size()))
                text.replace(at, english.size(), german);
        return text;
    }
};

} // namespace tuck::page
