#include "page/squad.hpp"

#include "page/form.hpp"
#include "page/reader.hpp"

#include "card/card.hpp"
#include "card/card_text.hpp"
#include "io/event_document.hpp"
#include "io/input_options.hpp"
#include "io/pantry.hpp"
#include "io/roster.hpp"
#include "say/line_words.hpp"
#include "text/squad_summary.hpp"
#include "tuck/compose.hpp"
#include "tuck/own_fault.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <sstream>
#include <stdexcept>

namespace tuck::page {

namespace {

using Json = nlohmann::ordered_json;
using Cells = std::vector<std::string>;

std::string lower(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(c < 128 ? std::tolower(c) : c); });
    return text;
}

/// Heads as coaches write them, English and German; common practice, no source.
struct Guess {
    const char* part;
    const char* column;
};
constexpr Guess known_columns[] = {
    {"name", "name"},
    {"athlet", "name"},
    {"bib", "bib"},
    {"startnummer", "bib"},
    {"race no", "bib"},
    {"nummer", "bib"},
    {"wave", "wave"},
    {"welle", "wave"},
    {"weight", "mass_kg"},
    {"gewicht", "mass_kg"},
    {"mass", "mass_kg"},
    {"kg", "mass_kg"},
    {"height", "height_m"},
    {"gr\xC3\xB6\xC3\x9F"
     "e",
     "height_m"},
    {"age", "age_y"},
    {"alter", "age_y"},
    {"sex", "sex"},
    {"geschlecht", "sex"},
    {"level", "level"},
    {"niveau", "level"},
    {"allerg", "allergy"},
    {"likes", "like"},
    {"mag", "like"},
    {"avoid", "avoid"},
    {"meidet", "avoid"},
    {"sweat", "sweat_ml_per_h"},
    {"schwei", "sweat_ml_per_h"},
    {"carb", "carb_g_per_h"},
    {"kohlenhydrat", "carb_g_per_h"},
    {"caffeine", "caffeine"},
    {"koffein", "caffeine"},
    {"swim", "swim_time"},
    {"schwimm", "swim_time"},
    {"bike", "bike_time"},
    {"rad", "bike_time"},
    {"run", "run_time"},
    {"lauf", "run_time"},
    {"hands", "hands"},
    {"h\xC3\xA4nde", "hands"},
};

std::string guess_of(const std::string& head, const Cells& known, const Cells& taken) {
    const auto free = [&](const std::string& column) {
        return std::find(taken.begin(), taken.end(), column) == taken.end();
    };
    const auto word = lower(head);
    if (std::find(known.begin(), known.end(), word) != known.end())
        return free(word) ? word : "";
    for (const auto& guess : known_columns)
        if (word.find(guess.part) != std::string::npos && free(guess.column))
            return guess.column;
    return "";
}

/// The cell as a roster wants it: a point for the decimal comma, and units read where they are written.
std::string plain_cell(const std::string& column, const std::string& cell) {
    const auto& columns = io::roster_columns();
    const auto known =
        std::find_if(columns.begin(), columns.end(), [&](const auto& c) { return c.name == column; });
    if (known == columns.end() || known->cell != io::Cell::number)
        return cell;
    std::string text = cell;
    const bool one_comma =
        std::count(text.begin(), text.end(), ',') == 1 && text.find('.') == std::string::npos;
    if (one_comma)
        text[text.find(',')] = '.';
    if (text.find_first_not_of("0123456789.-") == std::string::npos)
        return text;
    for (const auto* options : {&io::athlete_field_options(), &io::event_field_options()})
        for (const auto& option : *options)
            if (option.pointer == known->pointer)
                try {
                    return option.read(text).dump();
                } catch (const std::invalid_argument&) {
                    return cell; // the roster's reader tells what is allowed
                }
    return text;
}

/// In quotes throughout: a name that begins with a sign stays as it is.
std::string quoted_line(const Cells& cells) {
    std::string out;
    for (const auto& cell : cells) {
        out += out.empty() ? "\"" : ",\"";
        for (const char c : cell)
            out += c == '"' ? std::string("\"\"") : std::string(1, c);
        out += '"';
    }
    return out + "\n";
}

/// The columns that were given a meaning, as the roster of the command line.
io::Roster roster_of(const Json& question) {
    const auto columns = question.at("columns").get<Cells>();
    Cells heads;
    for (const auto& column : columns)
        if (!column.empty())
            heads.push_back(column);
    std::string table = quoted_line(heads);
    for (const auto& row : question.at("rows")) {
        Cells cells;
        for (std::size_t i = 0; i < columns.size(); ++i)
            if (!columns[i].empty())
                cells.push_back(i < row.size() ? plain_cell(columns[i], row[i].get<std::string>()) : "");
        table += quoted_line(cells);
    }
    return io::Roster(Document("table", table));
}

struct Common {
    io::EventDocument event;
    Pantry pantry;
};

Common common_of(const Ask& ask) {
    Common common{io::load_event(*ask.event, ask.files),
                  ask.known_pantry ? *ask.known_pantry : io::load_pantry(io::pantry_folder(ask.pantry))};
    for (const auto& foods : ask.own_foods)
        io::add_foods(common.pantry, foods);
    common.event.json.erase("athlete");
    return common;
}

/// Row, column and words of what is wrong, so that the cell itself can be shown as odd.
Json odd_json(const std::vector<Fault>& faults, const Reader& reader) {
    Json out = Json::array();
    for (const auto& fault : first_of(faults)) {
        const auto place = fault.file.empty() ? fault.place : fault.file;
        const auto column = place.find(", column ");
        out.push_back(reader.told(fault));
        out.back()["column"] = column == std::string::npos ? "" : place.substr(column + 9);
    }
    return out;
}

Json athlete_json(const io::EventInput& input, const Plan& plan, const Reader& reader) {
    const auto line = faces::squad_line(0, input.athlete, plan, false);
    const auto heads = faces::squad_heads(false);
    Json out;
    for (std::size_t i = 1; i < heads.size(); ++i)
        out[heads[i]] = line[i];
    for (const char* words : {"risk", "missing"})
        out[words] = reader.told_each(out[words].get<std::string>());
    const auto risk = faces::squad_risk(plan);
    out["refused"] = plan.refused;
    out["order"] = {risk.refused ? 1 : 0, risk.water_gain, risk.low_sodium_by_drinking,
                    risk.over_drinking_warnings, risk.warnings};
    out["card"] = plan.refused ? "" : faces::card_text(plan);
    return out;
}

/// Row after row: `take` with the plan, `odd` with what is wrong.
template <typename Take, typename Odd>
void each(const Json& question, const Ask& ask, const Take& take, const Odd& odd) {
    const auto common = common_of(ask);
    auto roster = roster_of(question);
    for (io::RosterRow row; roster.next(row);) {
        try {
            auto input = roster.input(common.event, row);
            io::check_foods(input, common.pantry);
            take(input, compose_plan(input.athlete, input.event, common.pantry));
        } catch (const Error& error) {
            odd(error.faults);
        } catch (const OwnFault& error) {
            odd({{"", "", fmt::format("our fault, not yours: {}; please report it", error.what())}});
        } catch (const std::runtime_error& error) {
            odd({{"", "", error.what()}});
        }
    }
}

} // namespace

Json table_json(const Json& question) {
    const auto text = question.at("text").get<std::string>();
    const Reader reader{Units::metric, language_of(question)};
    std::istringstream in(text);
    io::CsvReader csv(in);
    Json rows = Json::array(), problems = Json::array(), found = Json::array();
    Cells heads, taken;
    const auto known = io::Roster::known_columns();
    for (io::CsvRecord record; csv.next(record);) {
        if (!record.problem.empty())
            problems.push_back(reader.told(fmt::format("row {}: {}", rows.size() + 1, record.problem)));
        if (heads.empty()) {
            heads = record.cells;
            for (const auto& head : heads) {
                taken.push_back(guess_of(head, known, taken));
                found.push_back(taken.back());
            }
        } else {
            rows.push_back(record.cells);
        }
    }
    if (heads.empty())
        throw Error("table", "", "is empty; a row of heads and one row for each athlete are needed");
    return {{"mark", std::string(1, csv.separator())},
            {"heads", heads},
            {"guesses", found},
            {"rows", rows},
            {"columns", known},
            {"problems", problems}};
}

Json squad_json(const Json& question, const Ask& ask) {
    Json athletes = Json::array();
    const Reader reader{units_of(question.value("units", "metric")), language_of(question)};
    each(
        question, ask,
        [&](const auto& input, const Plan& plan) { athletes.push_back(athlete_json(input, plan, reader)); },
        [&](const std::vector<Fault>& faults) {
            athletes.push_back({{"odd", odd_json(faults, reader)}});
        });
    return {{"athletes", athletes}};
}

std::string squad_cards(const Json& question, const Ask& ask) {
    faces::CardOptions options;
    const auto format = faces::card_format(question.value("size", "strip"));
    options.size = format.size;
    options.reading_distance_mm = format.distance_mm;
    options.turns = format.turns;
    options.run_only = format.run_only;
    options.tube_mm = format.on_tube ? faces::usual_tube_mm : 0;
    options.paper = faces::paper_of(question.value("paper", "a4"));
    faces::CardSheets sheets(options);
    const faces::Fonts fonts;
    each(
        question, ask,
        [&](const auto&, const Plan& plan) {
            if (!plan.refused)
                sheets.add(*faces::CardSheets::prepare(plan, options, fonts));
        },
        [](const std::vector<Fault>&) {});
    return sheets.finish();
}

} // namespace tuck::page
