#include "properties/faces.hpp"

#include "card/card.hpp"
#include "card/card_check.hpp"
#include "card/card_text.hpp"
#include "paper/pdf_read.hpp"
#include "say/units.hpp"
#include "sheet/sheet.hpp"
#include "text/plan_json.hpp"
#include "text/plan_text.hpp"

#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <sstream>

namespace tuck::properties {

namespace {

using Json = nlohmann::json;
constexpr double ml_per_floz = 29.5735; // US

/// All words with one blank between them.
std::string joined(const std::string& text) {
    std::istringstream in(text);
    std::string out;
    for (std::string word; in >> word;)
        out += (out.empty() ? "" : " ") + word;
    return out;
}

std::string plain_halves(std::string text) {
    for (std::size_t at; (at = text.find("\u00bd")) != std::string::npos;)
        text.replace(at, std::string("\u00bd").size(), "1/2");
    return text;
}

/// Plain numbers of a line, in order: "Bike 50 g 800 ml" gives 50, 800.
std::vector<double> numbers_in(const std::string& line) {
    std::vector<double> out;
    std::istringstream in(line);
    for (std::string word; in >> word;)
        if (word.find_first_not_of("-0123456789.") == std::string::npos && word != "-")
            out.push_back(std::stod(word));
    return out;
}

/// Clock times of a line in seconds: "1:20:26", "52:30".
std::vector<long> times_in(const std::string& line) {
    std::vector<long> out;
    std::istringstream in(line);
    for (std::string word; in >> word;) {
        if (word.find(':') == std::string::npos || word.find_first_not_of("0123456789:") != std::string::npos)
            continue;
        long s = 0;
        std::istringstream parts(word);
        for (std::string part; std::getline(parts, part, ':');)
            s = 60 * s + std::stol(part);
        out.push_back(s);
    }
    return out;
}

std::string text_on(const std::vector<faces::pdf::FoundPage>& pages) {
    std::string out;
    for (const auto& page : pages)
        for (const auto& text : page.texts)
            out += text.utf8 + " ";
    return plain_halves(joined(out));
}

class Comparison {
public:
    explicit Comparison(const Plan& plan) : plan_(plan), imperial_(plan.units == Units::imperial) {}
    std::vector<std::string> faults;

    void json() {
        const auto text = faces::plan_json(plan_);
        json_ = Json::parse(text);
        walk(json_, "");
        double carb = 0, fluid = 0, sodium = 0, caffeine = 0;
        for (const auto& feed : json_["feeds"]) {
            carb += feed["carb_g"].get<double>();
            fluid += feed["fluid_ml"].get<double>();
            sodium += feed["sodium_mg"].get<double>();
            caffeine += feed["caffeine_mg"].get<double>();
        }
        const double half = 0.5 * static_cast<double>(json_["feeds"].size());
        same("JSON totals, carb_g", json_["totals"]["carb_g"], carb, 0.01 * half + 0.051);
        same("JSON totals, fluid_ml", json_["totals"]["fluid_ml"], fluid, 0.1 * half + 0.051);
        same("JSON totals, sodium_mg", json_["totals"]["sodium_mg"], sodium, 0.1 * half + 0.051);
        same("JSON totals, caffeine_mg", json_["totals"]["caffeine_mg"], caffeine, 0.1 * half + 0.051);
    }

    /// Tables of times and of what each hour takes, the sums, and the lines.
    void text(const char* face, const std::string& text) {
        std::istringstream in(text);
        std::vector<std::string> times, hours;
        enum { elsewhere, in_times, in_hours } where = elsewhere;
        for (std::string row; std::getline(in, row);) {
            if (row.rfind("TIME ", 0) == 0 || row.rfind("Time ", 0) == 0)
                where = in_times;
            else if (row.rfind("EACH HOUR", 0) == 0 || row.rfind("Each hour", 0) == 0)
                where = in_hours;
            else if (where == in_times && !times_in(row).empty())
                times.push_back(row);
            else if (where == in_hours && row.find(" mg") != std::string::npos)
                hours.push_back(row);
            else
                where = elsewhere;
        }
        std::size_t needs = 0;
        for (const auto& need : json_["needs"])
            if (need["leg"] != "t1" && need["leg"] != "t2")
                compare_hour(face, needs < hours.size() ? hours[needs++] : "", need);
        if (times.size() != json_["durations"].size() + 1)
            faults.push_back(fmt::format("{}: {} rows of times for {} legs", face, times.size(),
                                         json_["durations"].size()));
        for (std::size_t i = 0; i < times.size() && i < json_["durations"].size(); ++i)
            compare_times(face, times[i], json_["durations"][i]);
        if (!times.empty())
            compare_times(face, times.back(), json_["total"]);
        const auto words = joined(text);
        if (!json_["feeds"].empty())
            compare_sums(face, words);
        for (const auto& line : json_["lines"])
            for (const char* key : {"when", "what"})
                if (const auto said = joined(say::in_units(line[key], plan_.units));
                    words.find(said) == std::string::npos)
                    faults.push_back(fmt::format("{}: the line's {} \"{}\" is not there", face, key, said));
    }

    /// Each number of the lines, as paper shows it: kilometres and clock times, amounts, intervals.
    void paper(const char* face, const std::string& words) {
        for (const auto& line : json_["lines"]) {
            std::string when = line["when"];
            when =
                when.substr(0, when.find(" to ")); // rows of one drink after the other are joined on the card
            std::istringstream in(when + " " + line["what"].get<std::string>());
            for (std::string token; in >> token;)
                if (const bool place = line["rhythm"]["by"] == "km" && token.find(':') == std::string::npos;
                    std::isdigit(static_cast<unsigned char>(token[0])) && !(imperial_ && place) &&
                    words.find(token) == std::string::npos)
                    faults.push_back(fmt::format("{}: \"{}\" of \"{}\" is not there", face, token,
                                                 line["text"].get<std::string>()));
        }
    }

private:
    void walk(const Json& value, const std::string& at) {
        if (value.is_null() || (value.is_number_float() && !std::isfinite(value.get<double>())))
            faults.push_back("JSON: no number at " + at);
        if (value.is_structured())
            for (const auto& [key, each] : value.items())
                walk(each, at + "/" + key);
    }
    void same(const std::string& what, double told, double meant, double within) {
        if (!(std::abs(told - meant) <= within + 1e-9))
            faults.push_back(fmt::format("{}: {} against {}", what, told, meant));
    }
    /// What is printed whole against what JSON prints to a tenth.
    void whole(const std::string& what, double printed, double json) { same(what, printed, json, 0.551); }
    double volume(double ml) const { return imperial_ ? ml / ml_per_floz : ml; }
    /// The numbers of a row after the name of its leg.
    void compare_hour(const char* face, const std::string& row, const Json& need) {
        const auto numbers = numbers_in(row);
        const std::string leg = need["leg"];
        if (numbers.size() != 4) {
            faults.push_back(fmt::format("{}: the {} has no hour: \"{}\"", face, leg, row));
            return;
        }
        const std::string what = fmt::format("{}, {}: ", face, leg);
        whole(what + "g/h", numbers[0], need["carb_g_per_h"]);
        whole(what + "drink", numbers[1], volume(need["fluid_ml_per_h"]) - (imperial_ ? 0.5 : 0));
        if (numbers[1] > volume(need["fluid_ml_per_h"]) + 0.5001 * (imperial_ ? 0 : 1) + 0.01)
            faults.push_back(what + "a ceiling rounded up");
        whole(what + "sodium", numbers[2], need["sodium_mg_per_h"]);
        whole(what + "sweat", numbers[3], volume(need["sweat_ml_per_h"]));
    }
    void compare_times(const char* face, const std::string& row, const Json& spread) {
        const auto times = times_in(row);
        if (times != std::vector<long>{spread["p50_s"], spread["p10_s"], spread["p90_s"]})
            faults.push_back(fmt::format("{}: \"{}\" against {}, {}, {} s", face, row,
                                         spread["p50_s"].get<long>(), spread["p10_s"].get<long>(),
                                         spread["p90_s"].get<long>()));
    }
    void compare_sums(const char* face, const std::string& words) {
        const auto at = words.find("In all: ");
        const auto end = words.find("likely sweat ", std::max<std::size_t>(at, 1));
        const auto numbers = at == std::string::npos || end == std::string::npos
                                 ? std::vector<double>{}
                                 : numbers_in(words.substr(at, end + 24 - at));
        std::vector<double> meant{json_["totals"]["carb_g"], volume(json_["totals"]["fluid_ml"]),
                                  json_["totals"]["sodium_mg"]};
        if (json_["totals"]["caffeine_mg"] > 0)
            meant.push_back(json_["totals"]["caffeine_mg"]);
        meant.push_back(volume(json_["totals"]["sweat_ml"]));
        if (numbers.size() < meant.size())
            faults.push_back(fmt::format("{}: no sums", face));
        for (std::size_t i = 0; i < meant.size() && i < numbers.size(); ++i)
            whole(fmt::format("{}, sum {}", face, i), numbers[i], meant[i]);
    }

    const Plan& plan_;
    bool imperial_;
    Json json_;
};

} // namespace

FacesCompared compare_faces(const Plan& plan, const Plan* no_swim) {
    static thread_local const faces::Fonts fonts;
    Comparison compared(plan);
    compared.json();
    compared.text("text", faces::plan_text(plan));
    const auto content = faces::sheet_content(plan, no_swim);
    compared.text("sheet", faces::sheet_text(content));
    compared.paper("sheet PDF", text_on(faces::pdf::read(faces::sheet_pdf(content)).pages));
    if (plan.refused)
        return {false, compared.faults};
    compared.paper("card text", plain_halves(joined(faces::card_text(plan))));
    const faces::CardOptions options;
    std::vector<faces::CardLayout> layouts;
    try {
        layouts = faces::card_layouts(plan, options, fonts);
    } catch (const std::runtime_error& error) {
        if (std::string(error.what()).find("does not fit on 12 sides") == std::string::npos)
            throw;
        return {false, compared.faults};
    }
    const auto pdf = faces::card_pdf(layouts, options);
    compared.paper("card PDF", text_on(faces::pdf::read(pdf).pages));
    for (const auto& finding : faces::check_card(pdf, layouts, options))
        if (!finding.ok)
            compared.faults.push_back(
                fmt::format("card PDF: {}: {}, {}", finding.what, finding.measured, finding.limit));
    return {true, compared.faults};
}

} // namespace tuck::properties
