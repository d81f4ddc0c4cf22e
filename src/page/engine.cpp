#include "page/engine.hpp"

#include "card/card.hpp"
#include "io/gpx.hpp"
#include "io/json_reader.hpp"
#include "io/pantry.hpp"
#include "page/course.hpp"
#include "page/desk.hpp"
#include "page/form.hpp"
#include "page/reader.hpp"
#include "page/shown.hpp"
#include "page/squad.hpp"
#include "say/units.hpp"
#include "sheet/sheet.hpp"
#include "text/plan_json.hpp"
#include "tuck/error.hpp"
#include "tuck/version.hpp"

#include <fmt/format.h>
#include <new>
#include <stdexcept>

namespace tuck::page {

namespace {

constexpr int refused = 1, bad_input = 2, own_fault = 70;

/// Bytes that are no UTF-8, quoted from a stranger's text in a fault, become the mark that stands for them.
std::string written(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// `text` as the command line says it; `said` is what is wrong, in the reader's language.
Json faults_json(const std::vector<Fault>& faults, const Reader& reader) {
    Json out = Json::array();
    for (const auto& fault : first_of(faults))
        out.push_back({{"said", reader.told(fault)},
                       {"file", fault.file},
                       {"place", fault.place},
                       {"what", fault.what},
                       {"allowed", fault.allowed},
                       {"nearest", fault.nearest},
                       {"text", line_of(fault)}});
    return {{"faults", out}};
}

/// As main of the command line answers them.
template <typename Work>
Reply guarded(const Reader& reader, const Work& work) {
    const auto failed = [&reader](int code, const std::string& what) -> Reply {
        return {code, written(faults_json({{"", "", what}}, reader))};
    };
    try {
        return work();
    } catch (const Error& error) {
        return {bad_input, written(faults_json(error.faults, reader))};
    } catch (const std::invalid_argument& error) { // a model that these conditions are beyond
        return failed(bad_input, error.what());
    } catch (const Json::exception& error) {
        return failed(bad_input, std::string("the question is not understood: ") + error.what());
    } catch (const std::logic_error& error) {
        return failed(own_fault, std::string("this is our fault, not yours: ") + error.what());
    } catch (const std::bad_alloc&) {
        return failed(bad_input, "there is not enough memory for this");
    } catch (const std::exception& error) {
        return failed(bad_input, error.what());
    }
}

std::vector<std::string> words_in(const Json& question, const char* key) {
    return question.contains(key) ? question.at(key).get<std::vector<std::string>>()
                                  : std::vector<std::string>{};
}

Edits edits_of(const Json& question) {
    if (!question.contains("edits"))
        return {};
    const Json& said = question.at("edits");
    Edits edits;
    edits.without = words_in(said, "without");
    edits.only = words_in(said, "only");
    edits.bike_rhythm = said.value("bike_rhythm", "");
    edits.swim = said.value("swim", "");
    edits.delay = said.value("delay", "");
    edits.pins = words_in(said, "pins");
    return edits;
}

faces::CardOptions card_options(const Json& question) {
    const auto format = faces::card_format(question.value("size", "strip"));
    faces::CardOptions options;
    options.size = format.size;
    options.reading_distance_mm = question.value("eye_mm", format.distance_mm);
    options.turns = format.turns;
    options.run_only = format.run_only;
    options.paper = faces::paper_of(question.value("paper", "a4"));
    options.tube_mm = format.on_tube ? faces::usual_tube_mm : 0;
    return options;
}

/// A document as the reader of files takes it: no key twice, no byte-order mark, depth bounded.
nlohmann::json document_of(const Json& question) {
    nlohmann::json document{{"schema", "tuck.event/1"}};
    if (question.contains("event"))
        document = io::parse_json(question.at("event").is_string() ? question.at("event").get<std::string>()
                                                                   : question.at("event").dump(),
                                  "event.json");
    return question.contains("set") ? with_texts(std::move(document), question.at("set")) : document;
}

Json foods_json(const Pantry& pantry, const Reader& reader) {
    Json out = Json::array();
    for (const auto& [id, food] : pantry.foods)
        out.push_back({{"id", id},
                       {"name", food.name},
                       {"said", reader.told(food.name)},
                       {"label", say::words(reader.language).noun(food.label)},
                       {"group", food.group},
                       {"form", to_string(food.form)},
                       {"carb", fmt::format("{:.0f} g", food.carb_g)},
                       {"sodium", fmt::format("{:.0f} mg", food.sodium_mg)},
                       {"caffeine", food.caffeine_mg > 0 ? fmt::format("{:.0f} mg", food.caffeine_mg) : ""},
                       {"allergens", food.allergens},
                       {"fits", food.fits},
                       {"own", food.own}});
    return out;
}

} // namespace

Engine::Engine(std::string pantry) : folder_(std::move(pantry)), files_(std::make_shared<NamedFiles>()) {}

const std::shared_ptr<const Pantry>& Engine::pantry() {
    if (!pantry_)
        pantry_ = std::make_shared<Pantry>(io::load_pantry(io::pantry_folder(folder_)));
    return pantry_;
}

Ask Engine::ask_of(const Json& question) {
    Ask ask;
    auto document = document_of(question);
    if (question.contains("days")) // fewer simulated days while a slider moves; no document keeps them
        document["days"] = question.at("days").get<int>();
    ask.event = Document("event.json", document.dump());
    ask.pantry = folder_;
    ask.known_pantry = pantry();
    ask.files = files_;
    for (const auto& foods : words_in(question, "own_foods"))
        ask.own_foods.emplace_back("own-foods.json", foods);
    if (const auto diary = question.value("diary", ""); !diary.empty())
        ask.diary = Document("diary.jsonl", diary);
    ask.edits = edits_of(question);
    return ask;
}

const Engine::Planned& Engine::planned(const Json& question, bool no_swim) {
    Json key;
    for (const char* part : {"event", "set", "own_foods", "diary", "edits", "days", "units", "hasty"})
        if (question.contains(part))
            key[part] = question.at(part);
    const auto asked_for = key.dump();
    if (planned_ && last_ == asked_for &&
        (!no_swim || planned_->answer.no_swim || !without_swim(planned_->asked.event)))
        return *planned_;
    planned_.reset();
    const Ask ask = ask_of(question);
    Asked asked = read_ask(ask);
    if (question.contains("units")) // the switch on the page outranks what the document says
        asked.athlete.units = units_of(question.at("units").get<std::string>());
    Answer made = answer(asked, {.no_swim = no_swim, .help = !question.value("hasty", false)});
    planned_ = Planned{std::move(asked), std::move(made), document_of(question)};
    last_ = asked_for;
    return *planned_;
}

Json Engine::start(const Json& question) {
    const Reader reader{Units::metric, language_of(question)};
    Json presets = Json::array(), cards = Json::array();
    for (const auto& name : preset_names()) {
        Json legs = Json::array();
        for (const auto& leg : preset_legs(name))
            if (!is_transition(leg.kind))
                legs.push_back({{"leg", to_string(leg.kind)},
                                {"metric", say::distance(leg.distance_m, Units::metric)},
                                {"imperial", say::distance(leg.distance_m, Units::imperial)}});
        presets.push_back({{"name", name}, {"legs", legs}});
    }
    for (const auto& format : faces::card_formats())
        cards.push_back({{"name", format.name},
                         {"what", format.what},
                         {"width_mm", format.size.width_mm},
                         {"height_mm", format.size.height_mm}});
    return {{"version", version()},
            {"presets", presets},
            {"cards", cards},
            {"foods", foods_json(*pantry(), reader)},
            {"allergens", allergen_names()},
            {"without_scales", reader.told(sweat_without_scales())}};
}

std::string Engine::plan(const Json& question) {
    const Reader reader{units_of(question.value("units", "metric")), language_of(question)};
    const auto& planned = this->planned(question, false);
    const Plan& plan = planned.answer.plan;
    const Json beside{{"document", planned.document},
                      {"shown", shown(plan, reader)},
                      {"card", plan.refused ? Json() : card_words(plan)},
                      {"form", form_of(planned.document, reader.units)},
                      {"roads", roads(planned.asked.event, planned.document, reader)},
                      {"notes", planned.asked.notes}};
    // The plan is text already: it is the first member, as it stands.
    return R"({"plan":)" + faces::plan_json(plan) + "," + written(beside).substr(1);
}

std::string Engine::card(const Json& question) {
    return faces::card_pdf(planned(question, false).answer.plan, card_options(question));
}

std::string Engine::sheet(const Json& question) {
    const auto& plans = planned(question, true).answer;
    const auto content = faces::sheet_content(plans.plan, plans.no_swim ? &*plans.no_swim : nullptr);
    return faces::sheet_pdf(content, {card_options(question).paper, ""});
}

Json Engine::card_sides(const Json& question) {
    const auto& plan = planned(question, false).answer.plan;
    const auto options = card_options(question);
    const faces::Fonts fonts;
    Json pages = Json::array();
    std::size_t sides = 0;
    for (const auto& layout : faces::card_layouts(plan, options, fonts)) {
        sides += layout.sides.size();
        pages.push_back({{"svg", faces::pdf::svg(page_of(layout), layout.title, fonts)},
                         {"width_mm", layout.sheet_width_mm},
                         {"height_mm", layout.sheet_height_mm}});
    }
    return {{"sides", sides},
            {"width_mm", options.size.width_mm},
            {"height_mm", options.size.height_mm},
            {"pages", pages}};
}

Json Engine::why(const Json& question) {
    const auto& plan = planned(question, false).answer.plan;
    const Reader reader{plan.units, language_of(question)};
    return {{"chain", chain(say::in_own_units(plan), reader, question.at("number").get<std::string>())}};
}

Reply Engine::ask(const std::string& question) {
    Reader reader;
    return guarded(reader, [&]() -> Reply {
        const Json asked = Json::parse(question);
        reader.language = language_of(asked);
        const auto want = asked.value("want", "");
        const auto answered = [](const Json& answer) { return Reply{0, written(answer)}; };
        const auto of_plan = [&](std::string answer) {
            return Reply{planned_->answer.plan.refused ? refused : 0, std::move(answer)};
        };
        if (want == "start")
            return answered(start(asked));
        if (want == "plan")
            return of_plan(plan(asked));
        if (want == "plan_json")
            return of_plan(faces::plan_json(planned(asked, false).answer.plan));
        if (want == "card_sides")
            return answered(card_sides(asked));
        if (want == "card")
            return {0, card(asked)};
        if (want == "sheet")
            return {0, sheet(asked)};
        if (want == "squad_cards")
            return {0, squad_cards(asked, ask_of(asked))};
        if (want == "why")
            return answered(why(asked));
        if (want == "form")
            return answered(
                {{"document", document_of(asked)},
                 {"form", form_of(document_of(asked), units_of(asked.value("units", "metric")))}});
        if (auto reply = at_desk(want, asked, [&] { return ask_of(asked); }))
            return answered(*reply);
        throw Error("want", "", "\"" + want + "\" is not known");
    });
}

Reply Engine::open(const std::string& name, const std::string& text, const std::string& language) {
    const Reader reader{Units::metric, language_of({{"language", language}})};
    return guarded(reader, [&]() -> Reply {
        last_.clear();
        if (name.ends_with(".gpx")) {
            const auto& track = files_->courses[name] = io::parse_gpx(text, name);
            return {0, written(course_json(track))};
        }
        io::parse_json(text, name); // a fault is told now, and not with the plan
        files_->athletes[name] = text;
        return {0, "{}"};
    });
}

} // namespace tuck::page
