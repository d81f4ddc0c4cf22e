#include "page/desk.hpp"

#include "base/clock.hpp"
#include "io/athlete_file.hpp"
#include "io/diary_file.hpp"
#include "io/food_check.hpp"
#include "io/ical.hpp"
#include "io/label.hpp"
#include "io/marks_file.hpp"
#include "io/pantry.hpp"
#include "io/units.hpp"
#include "page/form.hpp"
#include "page/reader.hpp"
#include "page/squad.hpp"
#include "say/line_words.hpp"
#include "say/units.hpp"
#include "text/diary_text.hpp"
#include "tuck/rehearsal.hpp"

#include <cmath>
#include <fmt/format.h>
#include <map>
#include <stdexcept>

namespace tuck::page {

namespace {

using Json = nlohmann::ordered_json;

Units units_in(const Json& question) {
    return units_of(question.value("units", "metric"));
}

Reader reader_of(const Json& question) {
    return {units_in(question), language_of(question)};
}

Json warnings_json(const std::vector<Warning>& warnings, const Reader& reader) {
    constexpr const char* words[] = {"note", "caution", "danger"};
    Json out = Json::array();
    for (const auto& warning : warnings) {
        out.push_back(reader.told(warning.text));
        out.back()["severity"] = words[static_cast<int>(warning.severity)];
    }
    return out;
}

Json reasons_json(const std::vector<Reason>& reasons, const Reader& reader) {
    Json out = Json::array();
    for (const auto& reason : reasons) {
        out.push_back(reader.told(reason.text));
        out.back()["source"] = reader.told(std::string(reason.source));
    }
    return out;
}

/// Of sweat, which is read in litres where the reader reads metric.
std::string sweat_text(double ml_per_h, Units units) {
    return units == Units::metric ? fmt::format("{:.2f} L/h", ml_per_h / 1000)
                                  : say::volume(ml_per_h, units) + "/h";
}
std::string ceiling_text(double ml_per_h, Units units) {
    return units == Units::metric ? fmt::format("{:.2f} L/h", std::floor(ml_per_h / 10) / 100)
                                  : say::ceiling(ml_per_h, units) + "/h";
}

EntryKind kind_of(const Json& question) {
    const auto word = question.value("kind", "");
    for (const auto& [known, kind] : io::kind_words())
        if (known == word)
            return kind;
    throw Error("kind", "", "\"" + word + "\" is no entry of a diary");
}

Json entry_fields(const Json& question) {
    Json out = Json::array();
    for (const auto& option : io::entry_options(kind_of(question)))
        out.push_back({{"option", option.option},
                       {"help", option.help},
                       {"key", option.key},
                       {"no_value", option.takes_no_value}});
    return {{"fields", out}};
}

DiaryEntry entry_of(EntryKind kind, const Json& question, io::Json base) {
    io::OptionTexts texts;
    for (const auto& [option, text] : question.at("texts").items())
        if (!text.get<std::string>().empty())
            texts[option] = text.get<std::string>();
    std::vector<Fault> faults;
    auto json = io::laid_over(kind, texts, std::move(base), faults);
    json["schema"] = io::diary_schema;
    json["kind"] = to_string(kind);
    json["date"] = question.value("date", "");
    if (const auto note = question.value("note", ""); !note.empty())
        json["note"] = note;
    if (!faults.empty())
        throw Error(faults);
    return io::entry_from(json, "");
}

std::vector<DiaryEntry> entries_of(const Json& question) {
    const auto text = question.value("diary", "");
    return text.empty() ? std::vector<DiaryEntry>{}
                        : io::read_existing_diary(Document("diary.jsonl", text)).entries;
}

/// The diary with one more line, as the command line would have appended it.
std::string with_entry(const Json& question, DiaryEntry entry) {
    auto text = question.value("diary", "");
    int id = 0;
    for (const auto& known : entries_of(question))
        id = std::max(id, known.id);
    entry.id = id + 1;
    if (!text.empty() && text.back() != '\n')
        text += '\n';
    return text + io::json_of(entry).dump() + "\n";
}

/// The athlete of the event, so far as it is known: a sweat test brings its own mass.
Athlete athlete_of(const Json& question, double mass_kg) {
    auto document = question.contains("athlete") && question.at("athlete").is_object()
                        ? io::Json::parse(question.at("athlete").dump())
                        : io::Json::object();
    document["mass_kg"] = mass_kg;
    io::LegTimes times;
    std::vector<Fault> faults;
    io::Node node(document, "athlete.json", "", faults);
    auto athlete = io::athlete_from(node, times);
    if (!faults.empty())
        throw Error(faults);
    return athlete;
}

Json sweat_test(const Json& question) {
    auto entry = entry_of(EntryKind::sweat_test, question, io::Json::object());
    const auto& test = std::get<SweatTest>(entry.what);
    const auto athlete = athlete_of(question, test.before_kg);
    if (athlete.health.past_eating_disorder)
        throw Error("", "", "this athlete asks for no scales: nothing is worked out or kept from a weighing");
    std::vector<double> temperatures{test.temperature_c - 6, test.temperature_c, test.temperature_c + 6};
    if (question.contains("race_temperature_c"))
        temperatures = {question.at("race_temperature_c").get<double>()};
    const auto result = judge_sweat_test(athlete, test, temperatures);
    if (!result.implausible.empty())
        throw Error("", "", result.implausible);
    const auto reader = reader_of(question);
    const auto units = reader.units;
    Json days = Json::array();
    for (const auto& day : result.outlook)
        days.push_back({{"air", say::temperature(std::round(day.temperature_c), units)},
                        {"sweat", sweat_text(day.sweat_ml_per_h, units)},
                        {"up_to", ceiling_text(day.drink_up_to_ml_per_h, units)}});
    return {{"sweat", sweat_text(result.sweat_ml_per_h, units)},
            {"error", sweat_text(result.error_ml_per_h, units)},
            {"drunk", fmt::format("{:.0f} %", 100 * result.replaced_share)},
            {"water", (result.water_change_ml > 0 ? "+" : "") + say::volume(result.water_change_ml, units)},
            {"model", sweat_text(result.modelled_ml_per_h, units)},
            {"days", days},
            {"advice", reader.told(result.advice)},
            {"assumptions", reader.told(result.assumptions)},
            {"because", reasons_json(result.because, reader)},
            {"warnings", warnings_json(result.warnings, reader)},
            {"diary", with_entry(question, entry)}};
}

Json rehearsal_entry(const Json& question) {
    auto base = io::Json::object();
    if (const auto marks = question.value("marks", ""); !marks.empty())
        base = io::rehearsal_fields(io::read_existing_marks(Document("marks.jsonl", marks)));
    return {{"diary", with_entry(question, entry_of(EntryKind::rehearsal, question, base))}};
}

Json diary(const Json& question, const std::function<Ask()>& ask) {
    const auto text = question.value("diary", "");
    const auto file = io::read_existing_diary(Document("diary.jsonl", text));
    const auto reader = reader_of(question);
    Json lines = Json::array();
    for (const auto& line : faces::diary_lines(file.entries)) {
        lines.push_back(reader.told(line.text));
        lines.back().update({{"id", line.id}, {"date", line.date}, {"note", line.note}});
    }
    const Asked asked = read_ask(ask());
    const auto& learned = asked.learned;
    Json next = Json::array();
    for (const auto& test : learned.next)
        next.push_back(reader.told(test.text));
    return {{"lines", lines},
            {"notes", reader.told(io::notes_on(file, "diary.jsonl"))},
            {"known", reader.told(learned.sentences)},
            {"next", next},
            {"warnings", warnings_json(learned.warnings, reader)}};
}

/// A food read off its packet, and the file of own foods that holds it.
Json food(const Json& question) {
    const auto said = [&](const char* key) { return question.at("label").value(key, ""); };
    io::Label label;
    label.style = said("style") == "us" ? io::LabelStyle::us : io::LabelStyle::eu;
    label.per = said("per") == "serving" ? io::LabelPer::serving
                : said("per") == "100ml" ? io::LabelPer::hundred_ml
                                         : io::LabelPer::hundred_g;
    label.id = said("id");
    label.name = said("name");
    label.label = said("label");
    label.form = form_from(said("form")).value_or(Form::gel);
    std::vector<Fault> faults;
    const auto take = [&](std::optional<double>& out, const char* key,
                          const std::function<double(const std::string&)>& read) {
        if (const auto text = said(key); !text.empty())
            try {
                out = read(text);
            } catch (const Error& error) {
                faults.insert(faults.end(), error.faults.begin(), error.faults.end());
            }
    };
    const auto mass = [&](const char* key, double high) {
        return [&label, key, high](const std::string& text) {
            return io::label_mass_g(text, label.style, key, high);
        };
    };
    const auto volume = [&](const char* key) {
        return [&label, key](const std::string& text) {
            return io::label_volume_ml(text, label.style, key, 2000);
        };
    };
    const auto milligrams = [](const char* key) {
        return [key](const std::string& text) {
            return io::label_amount(text, io::milligrams, key, 100000, "mg");
        };
    };
    if (io::is_label_volume(said("serving"), label.style))
        take(label.serving_ml, "serving", volume("serving"));
    else
        take(label.serving_g, "serving", mass("serving", 2000));
    take(label.makes_ml, "makes", volume("makes"));
    take(label.carbohydrate_g, "carbohydrate", mass("carbohydrate", 2000));
    take(label.sugars_g, "sugars", mass("sugars", 2000));
    take(label.fat_g, "fat", mass("fat", 2000));
    take(label.fibre_g, "fibre", mass("fibre", 2000));
    take(label.protein_g, "protein", mass("protein", 2000));
    take(label.salt_g, "salt", mass("salt", 100));
    take(label.sodium_mg, "sodium", milligrams("sodium"));
    take(label.caffeine_mg, "caffeine", milligrams("caffeine"));
    take(label.energy_kcal, "energy", [](const std::string& text) {
        return io::label_amount(text, io::energy_kcal, "energy", 10000, "kcal");
    });
    if (!faults.empty())
        throw Error(faults);
    io::FoodFile file{"own", "Foods of our own, from their labels.", {}};
    if (const auto known = question.value("own_foods", ""); !known.empty()) {
        file = io::read_food_file(Document("own-foods.json", known), faults);
        if (!faults.empty())
            throw Error(faults);
    }
    if (const auto& given = question.at("label"); given.contains("allergens"))
        label.allergens = given.at("allergens").get<std::vector<std::string>>();
    label.group = file.group;
    const auto read = io::food_from_label(label);
    const auto check = io::check_food(read.food, label.id, "");
    if (!check.faults.empty())
        throw Error(check.faults);
    std::erase_if(file.foods, [&](const Food& other) { return other.id == label.id; });
    file.foods.push_back(read.food);
    const auto reader = reader_of(question);
    Json notes = Json::array();
    for (const auto& note : check.notes)
        notes.push_back(reader.told(note));
    return {{"own_foods", io::food_file_text(file)},
            {"assumptions", reader.told(read.assumptions)},
            {"notes", notes},
            {"carb", fmt::format("{:.0f} g", read.food.carb_g)},
            {"sodium", fmt::format("{:.0f} mg", read.food.sodium_mg)}};
}

/// The session with its feeds, as the marks of `tuck rehearse --live` begin; the page fills in the start.
Json session_json(const Plan& plan, const Rehearsal& session, say::Language language) {
    double run_at_s = 0;
    for (const auto& duration : plan.durations)
        if (duration.kind != LegKind::run)
            run_at_s += duration.time.p50_s;
    Json feeds = Json::array();
    for (const auto& feed : plan.feeds)
        feeds.push_back({{"leg", to_string(feed.leg)},
                         {"at_s", std::round(feed.at_s)},
                         {"what", say::feed(feed, language)},
                         {"carb_g", feed.carb_g},
                         {"fluid_ml", feed.fluid_ml}});
    return {{"schema", "tuck.marks/1"},         {"plan", plan.version},
            {"bike_min", session.ride_min},     {"run_min", session.run_min},
            {"run_at_s", std::round(run_at_s)}, {"feeds", feeds}};
}

std::string calendar_of(const SeriesAnswer& answer, const std::string& name, const Reader& reader) {
    constexpr int usual_start_min = 8 * 60;
    std::vector<io::CalendarEvent> days;
    for (std::size_t i = 0; i < answer.series.days.size(); ++i) {
        const auto& day = answer.series.days[i];
        const auto& session = answer.sessions[i].rehearsal;
        days.push_back({day.date, session.event.start_min.value_or(usual_start_min),
                        static_cast<int>(std::lround(session.ride_min + session.run_min)),
                        reader.sentence(day.as_the_race ? "Rehearsal, as the race" : "Rehearsal"),
                        reader.sentence(day.text) + "\n" +
                            reader.sentence("Thirst first; nothing new after this. Log it in the diary.")});
    }
    return io::calendar(name, days);
}

Json rehearsal(const Json& question, const Ask& ask) {
    const auto text = [&](const char* key) {
        return question.contains(key) ? std::optional(question.at(key).get<std::string>()) : std::nullopt;
    };
    const auto answer = rehearse(ask, {text("ride"), text("run")});
    const auto& session = answer.session_answer.rehearsal;
    const auto& plan = answer.session_answer.plan;
    const auto reader = reader_of(question);
    Json out{{"refused", session.refused}, {"warnings", warnings_json(session.warnings, reader)}};
    if (!plan)
        return out;
    out["session"] = session_json(*plan, session, reader.language);
    if (!question.contains("weeks") || !answer.race.event.date)
        return out;
    const auto until =
        rehearse_until_the_race(answer, {std::to_string(question.at("weeks").get<int>()), std::nullopt});
    const auto& series = until.series;
    Json days = Json::array();
    for (const auto& day : series.days) {
        days.push_back(reader.told(day.text));
        days.back()["date"] = day.date;
    }
    out["days"] = days;
    out["series_notes"] = reader.told(series.notes);
    out["ical"] = calendar_of(until, reader.sentence(session.event.name) + " " + until.race_date, reader);
    return out;
}

} // namespace

std::optional<Json> at_desk(const std::string& want, const Json& question, const std::function<Ask()>& ask) {
    if (want == "entry_fields")
        return entry_fields(question);
    if (want == "sweat_test")
        return sweat_test(question);
    if (want == "rehearsal_entry")
        return rehearsal_entry(question);
    if (want == "diary")
        return diary(question, ask);
    if (want == "food")
        return food(question);
    if (want == "rehearsal")
        return rehearsal(question, ask());
    if (want == "table")
        return table_json(question);
    if (want == "squad")
        return squad_json(question, ask());
    return std::nullopt;
}

} // namespace tuck::page
