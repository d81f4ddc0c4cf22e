#include "page/shown.hpp"

#include "card/card_content.hpp"
#include "page/reader.hpp"
#include "say/in_short.hpp"
#include "say/line_words.hpp"
#include "say/plan_words.hpp"
#include "text/trace_pointer.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <set>

namespace tuck::page {

namespace {

using Json = nlohmann::ordered_json;

std::string whole(double value, const char* unit) {
    return fmt::format("{:.0f} {}", value + 0.0, unit);
}

/// How often a leg of this kind stands in the day: its name then carries a number.
std::string name_of(const Plan& plan, std::size_t index, const Reader& reader) {
    const auto kind = plan.durations[index].kind;
    std::size_t of_kind = 0, place = 0;
    for (std::size_t i = 0; i < plan.durations.size(); ++i)
        if (plan.durations[i].kind == kind) {
            ++of_kind;
            place = i == index ? of_kind : place;
        }
    return say::words(reader.language).leg_name(kind) + (of_kind > 1 ? fmt::format(" {}", place) : "");
}

Json leg_json(const Plan& plan, std::size_t i, const Reader& reader) {
    const auto& duration = plan.durations[i];
    Json leg{{"leg", to_string(duration.kind)},
             {"name", name_of(plan, i, reader)},
             {"at_s", std::llround(duration.starts_s)},
             {"takes_s", std::llround(duration.time.p50_s)},
             {"distance", faces::distance_text(duration, reader.units)},
             {"likely", faces::time_text(duration.time.p50_s)},
             {"fast", faces::time_text(duration.time.p10_s)},
             {"slow", faces::time_text(duration.time.p90_s)},
             {"why", faces::pointer_of({PlanPart::durations, duration.leg_index})}};
    for (const auto& need : plan.needs) {
        if (need.leg_index != static_cast<int>(i))
            continue;
        const auto number = [&](PlanField field, const std::string& text) {
            leg[faces::key_of(field)] = {
                {"text", text}, {"why", faces::pointer_of({PlanPart::needs, need.leg_index, field})}};
        };
        number(PlanField::carb, whole(need.carb_g_per_h, "g/h"));
        number(PlanField::fluid, say::ceiling(need.fluid_ml_per_h, reader.units) + "/h");
        number(PlanField::sodium, whole(10 * std::round(need.sodium_mg_per_h / 10), "mg/h"));
        number(PlanField::sweat, say::volume(need.sweat_ml_per_h, reader.units) + "/h");
        leg["fed"] = need.carb_g_per_h > 0 || need.fluid_ml_per_h > 0;
    }
    return leg;
}

Json feed_json(const Plan& plan, const PlanFeed& feed, const Reader& reader) {
    const double day_s = plan.durations.at(static_cast<std::size_t>(feed.leg_index)).starts_s + feed.at_s;
    Json foods = Json::array();
    bool eaten = false;
    for (const auto& item : feed.items) {
        const bool drink = item.unit == "swallow" || item.unit == "cup";
        eaten = eaten || !drink;
        foods.push_back({{"food", item.food}, {"drink", drink}});
    }
    return {{"leg_index", feed.leg_index},
            {"day_s", std::llround(day_s)},
            {"at_s", std::llround(feed.at_s)},
            {"clock", say::clock(feed.at_s)},
            {"road", reader.road_mark(feed.km)},
            {"text", say::feed(feed, reader.language)},
            {"eaten", eaten},
            {"carb", whole(feed.carb_g, "g")},
            {"drink", reader.fluid(feed.fluid_ml)},
            {"foods", foods}};
}

/// Which field of the form would take the place of a guess. The composer says them in these words.
constexpr std::pair<const char*, const char*> guessed[] = {
    {"No level", "--level"},
    {"Humidity", "--humidity"},
    {"Height", "--height"},
    {"Wind", "--wind"},
    {"Sun", "--sun"},
    {"Water temperature", "--water"},
    {"Bottles", "--bottles"},
    {"Run belt", "kit"},
    {"Hands", "--hands"},
    {"No sweat test", "--sweat-rate"},
    {"No sweat sodium", "--sweat-sodium"},
    {"Position", "--position"},
    {"Age", "--age"},
    {"Sex", "--sex"},
    {"Typical", "stations"},
    {"Simulated days: no stations", "stations"},
};

Json guesses(const Plan& plan, const Reader& reader) {
    Json out = Json::array();
    for (const auto& text : plan.assumptions) {
        const char* option = "";
        for (const auto& [start, name] : guessed)
            if (text.rfind(start, 0) == 0)
                option = name;
        out.push_back(reader.told(text));
        out.back()["option"] = option;
    }
    return out;
}

Json told_most(const Plan& plan, const Reader& reader) {
    constexpr std::size_t most = 3;
    Json out = Json::array();
    for (std::size_t i = 0; i < std::min(most, plan.outlook.drivers.size()); ++i)
        out.push_back({{"text", reader.sentence(plan.outlook.drivers[i].input)},
                       {"share", fmt::format("{:.0f} %", 100 * plan.outlook.drivers[i].share)}});
    return out;
}

Json chances(const Plan& plan, const Reader& reader) {
    Json out = Json::array();
    for (const auto& row : plan.outlook.chances) {
        if (plan.mass_hidden && row.of_mass)
            continue;
        out.push_back({{"what", reader.sentence(row.what)},
                       {"days", fmt::format("{:.1f}", 100 * row.chance)},
                       {"caution", row.caution > 1 ? "" : fmt::format("{:g}", 100 * row.caution)},
                       {"refuse", row.refuse > 1 ? "" : fmt::format("{:g}", 100 * row.refuse)}});
    }
    return out;
}

} // namespace

Json shown(const Plan& given, const Reader& reader) {
    const auto [units, language] = reader;
    Plan plan = given;
    plan.units = units;
    plan = say::in_own_units(plan);
    Json legs = Json::array(), feeds = Json::array(), lines = Json::array();
    for (std::size_t i = 0; i < plan.durations.size(); ++i)
        legs.push_back(leg_json(plan, i, reader));
    for (const auto& feed : plan.feeds)
        feeds.push_back(feed_json(plan, feed, reader));
    for (const auto& line : plan.lines)
        lines.push_back({{"leg_index", line.leg_index}, {"text", reader.in_own(say::text(line, language))}});
    Json warnings = Json::array(), if_then = Json::array(), broken = Json::array();
    constexpr const char* severities[] = {"note", "caution", "danger"};
    for (const auto& warning : plan.warnings) {
        warnings.push_back(reader.told(warning.text));
        warnings.back()["severity"] = severities[static_cast<int>(warning.severity)];
    }
    for (const auto& rule : plan.broken_rules) {
        broken.push_back(reader.told(rule.text));
        broken.back()["danger"] = rule.danger;
    }
    for (const auto& line : plan.if_then) {
        if_then.push_back(reader.told(line.text));
        if_then.back()["when"] = reader.sentence(line.when);
    }
    return {{"title", plan.event_name.empty() ? reader.sentence(faces::plan_title(plan)) : plan.event_name},
            {"air", say::temperature(plan.weather.temperature_c, units)},
            {"short", say::in_short(plan, units, language)},
            {"sure", reader.told(plan.outlook.sentence)},
            {"stop", reader.told(plan.stop_line)},
            {"warnings", warnings},
            {"if_then", if_then},
            {"cautions", reader.told(plan.cautions)},
            {"broken_rules", broken},
            {"lines", lines},
            {"legs", legs},
            {"total",
             {{"likely", faces::time_text(plan.total.p50_s)},
              {"fast", faces::time_text(plan.total.p10_s)},
              {"slow", faces::time_text(plan.total.p90_s)},
              {"takes_s", std::llround(plan.total.p50_s)},
              {"why", faces::pointer_of({PlanPart::total})}}},
            {"totals",
             {{"carb", whole(plan.totals.carb_g, "g")},
              {"fluid", reader.fluid(plan.totals.fluid_ml)},
              {"sodium", whole(plan.totals.sodium_mg, "mg")},
              {"caffeine", whole(plan.totals.caffeine_mg, "mg")},
              {"sweat", reader.fluid(plan.totals.sweat_ml)},
              {"why", faces::pointer_of({PlanPart::totals})}}},
            {"feeds", feeds},
            {"unmet", reader.told(faces::unmet_texts(plan))},
            {"guesses", guesses(plan, reader)},
            {"tells_most", told_most(plan, reader)},
            {"chances", chances(plan, reader)}};
}

Json card_words(const Plan& plan) {
    const auto card = faces::card_content(plan);
    const auto texts = [](const std::vector<faces::CardNote>& notes) {
        Json out = Json::array();
        for (const auto& note : notes)
            out.push_back(note.text);
        return out;
    };
    Json sections = Json::array();
    for (const auto& section : card.sections) {
        Json rows = Json::array();
        for (const auto& row : section.lines)
            rows.push_back(
                {{"when", row.when}, {"what", row.what}, {"window", row.window}, {"from", row.from}});
        sections.push_back({{"heading", section.heading},
                            {"before", texts(section.notes_before)},
                            {"rows", rows},
                            {"after", texts(section.notes_after)}});
    }
    Json help = Json::array();
    for (const auto& line : card.if_then)
        help.push_back({{"when", line.when}, {"text", line.text}});
    return {{"headline", card.headline}, {"detail", card.headline_detail}, {"sections", sections},
            {"if_then", help},           {"stop", card.stop.text},         {"cautions", card.cautions}};
}

namespace {

void follow(const Plan& plan, const Reader& reader, const Trace* trace, int depth,
            std::set<const Trace*>& seen, Json& out) {
    if (!trace || !seen.insert(trace).second)
        return;
    const auto leg = trace->key.leg_index;
    Json because = Json::array();
    for (const auto& reason : trace->because)
        because.push_back({{"text", reason.text}, {"source", reason.source}});
    out.push_back({{"number", faces::pointer_of(trace->key)},
                   {"part", faces::key_of(trace->key.part)},
                   {"field", faces::key_of(trace->key.field)},
                   {"leg", leg < 0 ? "" : name_of(plan, static_cast<std::size_t>(leg), reader)},
                   {"value", faces::values_text(trace->values, reader.units)},
                   {"because", because},
                   {"depth", depth}});
    for (const auto& from : trace->from)
        follow(plan, reader, faces::trace_of(plan, from), depth + 1, seen, out);
}

} // namespace

Json chain(const Plan& plan, const Reader& reader, const std::string& number) {
    Json out = Json::array();
    std::set<const Trace*> seen;
    follow(plan, reader, faces::trace_of(plan, number), 0, seen, out);
    return out;
}

} // namespace tuck::page
