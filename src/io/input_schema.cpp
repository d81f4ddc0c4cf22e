#include "io/input_schema.hpp"

#include "io/athlete_fields.hpp"
#include "io/diary_fields.hpp"
#include "io/diary_json.hpp"
#include "io/event_fields.hpp"
#include "io/food_check.hpp"
#include "io/food_fields.hpp"
#include "io/schema_maker.hpp"

#include <functional>
#include <map>

namespace tuck::io {

void SchemaMaker::results(const Field& f, std::vector<RecentResult>&) {
    const auto longest = [](Sport sport) { return plain(longest_leg_m(sport)); };
    const auto up_to = [&](Sport sport, const char* word) {
        return Schema{{"if", {{"properties", {{"sport", {{"const", word}}}}}, {"required", {"sport"}}}},
                      {"then", {{"properties", {{"distance_m", {{"maximum", longest(sport)}}}}}}}};
    };
    Schema sports = Schema::array();
    for (const auto& [word, sport] : sport_words())
        sports.push_back(word);
    Schema distance{
        {"type", "number"}, {"minimum", plain(shortest_result_m)}, {"maximum", longest(Sport::bike)}};
    Schema day = day_schema();
    day["description"] = "Day of the result: newer ones count more. Not after the event.";
    Schema item{
        {"type", "object"}, {"additionalProperties", false}, {"required", {"sport", "distance_m", "time"}}};
    item["properties"] = {{"sport", {{"enum", sports}}},
                          {"distance_m", distance},
                          {"time", {{"$ref", "#/$defs/time"}}},
                          {"date", day}};
    item["allOf"] = {up_to(Sport::swim, "swim"), up_to(Sport::run, "run")};
    put(f, {{"type", "array"}, {"maxItems", most_results}, {"items", item}});
}

namespace {

/// The head of a document; what `object` holds follows.
Schema document(const char* id, const char* title, const char* about, const Schema& object) {
    Schema out{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
               {"$id", id},
               {"title", title},
               {"description", about}};
    out.update(object);
    return out;
}

Schema heading(const char* schema) {
    return {{"schema", {{"const", schema}}},
            {"about",
             {{"type", "string"}, {"maxLength", 500}, {"description", "Remarks for the reader; not used."}}}};
}

Schema time_schema() {
    return {{"type", "string"},
            {"maxLength", 20},
            {"description",
             "A length of time: min:s, h:min:s, or a number with s, min or h. At least 1 s and at most "
             "48 h (a transition 2 h); with a distance the mean speed must be believable."},
            {"pattern", "^([0-9]{1,3}(:[0-5][0-9]){1,2}|[0-9]+(\\.[0-9]+)? ?(s|min|h))$"},
            {"examples", {"52:30", "1:05:00", "90min"}}};
}

Schema clock_schema() {
    return {{"type", "string"},
            {"pattern", "^([01]?[0-9]|2[0-3]):[0-5][0-9]$"},
            {"examples", {"07:30"}},
            {"description", "Local time of day."}};
}

/// Puts what both kinds of file may begin with before the object's own properties.
Schema with_heading(Schema object, const char* schema) {
    Schema properties = heading(schema);
    properties.update(object["properties"]);
    object["properties"] = properties;
    return object;
}

Schema athlete_schema() {
    AthleteInput any;
    SchemaMaker maker;
    visit_fields(any, maker);
    Schema out =
        document("https://tuck.invalid/schema/athlete/1", "Athlete, version 1",
                 "One athlete. Only the body mass is required; whatever else is missing widens the spread of "
                 "the plan. Units stand in the names.",
                 with_heading(maker.object(), "tuck.athlete/1"));
    out["$defs"] = {{"time", time_schema()}};
    return out;
}

Schema course_schema(LegKind leg) {
    WrittenCourse any;
    any.leg = leg;
    SchemaMaker maker;
    visit_fields(any, maker);
    Schema out = maker.object();
    auto& properties = out["properties"];
    if (properties.contains("course_laps")) {
        properties["course_gpx"]["minLength"] = 1;
        properties["course_gpx"].erase("maxLength"); // a file of that name has to be there
        Schema& laps = properties["course_laps"];
        laps = {{"type", "integer"},
                {"exclusiveMinimum", 0},
                {"exclusiveMaximum", 101},
                {"description", laps["description"]}};
        properties["stations"]["items"] = {{"$ref", "#/$defs/station"}};
        Schema bag = {{"$ref", leg == LegKind::bike ? "#/$defs/bike_bag" : "#/$defs/run_bag"}};
        bag["description"] = properties["special_needs"]["description"];
        properties["special_needs"] = bag;
        out["dependentRequired"] = {{"course_laps", {"course_gpx"}}};
    }
    return out;
}

Schema leg_schema(Sport sport, const char* word) {
    Schema out = course_schema(to_leg_kind(sport));
    Schema properties{{"transition", {{"const", false}}},
                      {"sport", {{"const", word}}},
                      {"distance_m", SchemaMaker::number_in({shortest_leg_m, longest_leg_m(sport), "m"})}};
    properties.update(out["properties"]);
    out["properties"] = properties;
    out["required"] = {"sport"};
    return out;
}

template <typename T>
Schema schema_of() {
    T any;
    SchemaMaker maker;
    visit_fields(any, maker);
    return maker.object();
}

Schema event_defs() {
    Schema station = schema_of<WrittenStation>(), bike_bag = schema_of<BikeBag>();
    station["dependentRequired"] = {{"laps", {"lap_km"}}, {"lap_km", {"laps"}}};
    bike_bag["properties"]["bottles_ml"]["minItems"] = 1;
    Schema transition{{"type", "object"}, {"additionalProperties", false}, {"required", {"transition"}}};
    transition["properties"] = {{"transition", {{"const", true}}}, {"time", {{"$ref", "#/$defs/time"}}}};
    Schema kinds = Schema::array();
    for (const char* kind : {"swim_leg", "bike_leg", "run_leg", "transition"})
        kinds.push_back({{"$ref", std::string("#/$defs/") + kind}});
    return {{"time", time_schema()},
            {"clock", clock_schema()},
            {"hour", schema_of<HourlyWeather>()},
            {"station", station},
            {"bike_bag", bike_bag},
            {"run_bag", schema_of<RunBag>()},
            {"timed", course_schema(LegKind::t1)},
            {"swum", course_schema(LegKind::swim)},
            {"ridden", course_schema(LegKind::bike)},
            {"run_over", course_schema(LegKind::run)},
            {"swim_leg", leg_schema(Sport::swim, "swim")},
            {"bike_leg", leg_schema(Sport::bike, "bike")},
            {"run_leg", leg_schema(Sport::run, "run")},
            {"transition", transition},
            {"leg", {{"oneOf", kinds}}}};
}

/// What an event says beside its fields: distance, legs, course and athlete.
void put_legs(Schema& properties) {
    Schema names = Schema::array(), course = Schema::object();
    for (const auto& name : preset_names())
        names.push_back(name);
    const std::pair<const char*, const char*> courses[] = {
        {"swim", "swum"}, {"t1", "timed"}, {"bike", "ridden"}, {"t2", "timed"}, {"run", "run_over"}};
    for (const auto& [leg, def] : courses)
        course[leg] = {{"$ref", std::string("#/$defs/") + def}};
    properties["distance"] = {{"enum", names},
                              {"description", "A named distance. Legs beside it must agree with it."}};
    properties["legs"] = {
        {"type", "array"},
        {"minItems", 1},
        {"maxItems", most_legs},
        {"items", {{"$ref", "#/$defs/leg"}}},
        {"description",
         "Legs in their order. Transitions that are not written put themselves between legs. Without "
         "a named distance each leg has a distance or a time. All given times together: up to 48 h."}};
    properties["course"] = {{"type", "object"},
                            {"additionalProperties", false},
                            {"description", "The course of a named distance that has one leg of the kind."},
                            {"properties", course}};
    properties["athlete"] = {
        {"description", "The athlete, or the name of an athlete file, seen from this file's folder."},
        {"if", {{"type", "string"}}},
        {"then", {{"minLength", 1}}},
        {"else", {{"$ref", "https://tuck.invalid/schema/athlete/1"}}}};
}

Schema event_schema() {
    Schema object = with_heading(schema_of<Event>(), "tuck.event/1");
    auto& properties = object["properties"];
    properties["weather"]["properties"]["hourly"]["items"] = {{"$ref", "#/$defs/hour"}};
    put_legs(properties);
    object["required"] = {"weather"};
    object["anyOf"] = {{{"required", {"distance"}}}, {{"required", {"legs"}}}};
    object["if"] = {
        {"properties",
         {{"weather", {{"required", {"hourly"}}, {"properties", {{"hourly", {{"minItems", 1}}}}}}}}}};
    object["then"] = {{"required", {"start_local"}}};
    object["dependentSchemas"] = {{"legs", {{"properties", {{"course", false}}}}}};
    object["$defs"] = event_defs();
    return document(
        "https://tuck.invalid/schema/event/1", "Event, version 1",
        "One race or training session: a named distance or free legs, the weather, the kit and, if wanted, "
        "the athlete. Units stand in the names.",
        object);
}

/// Diary entries have symptoms, legs and sodium tests beside the usual fields.
class DiarySchema : public SchemaMaker {
public:
    void symptoms(const Field& f, Symptoms&) {
        Schema marks = Schema::object();
        for (const auto& name : gut_symptoms())
            marks[name] = whole_in({0, 10, ""});
        put(f, {{"type", "object"}, {"additionalProperties", false}, {"properties", marks}});
    }
    void legs(const Field& f, std::vector<RacedLeg>&) {
        Schema sports = Schema::array();
        for (const auto& [word, sport] : sport_words())
            sports.push_back(word);
        Schema item{{"type", "object"}, {"additionalProperties", false}, {"required", {"sport"}}};
        item["description"] = "0: not known.";
        item["properties"] = {{"sport", {{"enum", sports}}},
                              {"distance_m", number_in({0, 1e6, "m"})},
                              {"time_s", number_in({0, longest_event_s, "s"})},
                              {"planned_s", number_in({0, longest_event_s, "s"})},
                              {"ascent_m", number_in({0, 20000, "m"})}};
        put(f, {{"type", "array"}, {"maxItems", 20}, {"items", item}});
    }
    void sodium(std::optional<SodiumTest>&) {
        Schema sites = Schema::array();
        for (const auto& name : sweat_patch_sites())
            sites.push_back(name);
        put({"sweat_sodium_mmol_per_l", nullptr, "whole body"}, number_in({5, 150, "mmol/L"}));
        put({"patch_sodium_mmol_per_l", nullptr, "of a patch"}, number_in({5, 200, "mmol/L"}));
        put({"patch_site", nullptr, "of the patch"}, {{"enum", sites}});
    }
    Schema part() const {
        Schema out = Schema::object();
        if (!required_.empty())
            out["required"] = required_;
        out["properties"] = properties_;
        return out;
    }
};

template <typename T>
Schema entry_schema() {
    T any;
    DiarySchema maker;
    visit_fields(any, maker);
    return maker.part();
}

Schema above_zero(const char* key) {
    return {{"properties", {{key, {{"exclusiveMinimum", 0}}}}}, {"required", {key}}};
}

Schema diary_schema_document() {
    Schema sweat_test = entry_schema<SweatTest>(), rehearsal = entry_schema<RehearsalRecord>();
    sweat_test["dependentRequired"] = {{"patch_sodium_mmol_per_l", {"patch_site"}},
                                       {"patch_site", {"patch_sodium_mmol_per_l"}}};
    sweat_test["not"] = {{"required", {"sweat_sodium_mmol_per_l", "patch_sodium_mmol_per_l"}}};
    rehearsal["anyOf"] = {above_zero("bike_min"), above_zero("run_min")};
    const auto kind = [](const char* word) {
        return Schema{{"properties", {{"kind", {{"const", word}}}}},
                      {"$ref", std::string("#/$defs/") + word}};
    };
    Schema kinds = Schema::array();
    for (const auto& [word, meaning] : kind_words())
        kinds.push_back(word);
    Schema object{{"type", "object"}, {"required", {"schema", "id", "kind", "date"}}};
    object["properties"] = {
        {"schema", {{"const", diary_schema}}},
        {"id",
         {{"type", "integer"},
          {"minimum", 1},
          {"maximum", 2000000000},
          {"description", "Rises from line to line."}}},
        {"date", SchemaMaker::day_schema()},
        {"kind", {{"enum", kinds}}},
        {"corrects",
         {{"type", "integer"},
          {"minimum", 1},
          {"description", "Id of an earlier line, which no longer counts."}}},
        {"withdrawn",
         {{"type", "boolean"},
          {"description", "With corrects: neither line counts, and no fields are needed."}}},
        {"note", {{"type", "string"}, {"maxLength", longest_words}}}};
    object["dependentRequired"] = {{"withdrawn", {"corrects"}}};
    object["if"] = {{"properties", {{"withdrawn", {{"const", true}}}}}, {"required", {"withdrawn"}}};
    object["else"] = {{"oneOf", {kind("sweat_test"), kind("rehearsal"), kind("race")}}};
    object["unevaluatedProperties"] = false;
    object["$defs"] = {
        {"sweat_test", sweat_test}, {"rehearsal", rehearsal}, {"race", entry_schema<RaceRecord>()}};
    return document(
        "https://tuck.invalid/schema/diary/1", "One line of a diary, version 1",
        "A diary is a file of JSON Lines that only grows. A line is never changed: a correction is a later "
        "line that names it. Units stand in the names.",
        object);
}

Schema pantry_schema() {
    Schema food = schema_of<Food>();
    auto& properties = food["properties"];
    properties["id"]["pattern"] = "^[a-z][a-z0-9_]{0,39}$";
    for (const char* key : {"name", "label", "source"})
        properties[key]["minLength"] = 1;
    const std::pair<const char*, const std::vector<std::string>&> lists[] = {{"fits", fit_names()},
                                                                             {"allergens", allergen_names()}};
    for (const auto& [key, words] : lists) {
        properties[key]["uniqueItems"] = true;
        properties[key]["items"] = {{"enum", words}};
    }
    properties["label"]["maxLength"] = longest_label;
    properties["caffeine_mg"]["maximum"] = static_cast<int>(caffeine_most_mg);
    properties["provenance"] = {{"enum", {"read", "memory", "computed"}},
                                {"description", properties["provenance"]["description"]}};
    for (const char* key : {"serving_g", "smallest"}) { // above nothing
        properties[key].erase("minimum");
        properties[key]["exclusiveMinimum"] = 0;
    }
    Schema object{{"type", "object"}, {"required", {"group", "foods"}}, {"additionalProperties", false}};
    object["properties"] = {
        {"group", {{"type", "string"}, {"minLength", 1}, {"maxLength", 40}}},
        {"about", {{"type", "string"}, {"maxLength", 200}}},
        {"foods",
         {{"type", "array"}, {"maxItems", most_foods_in_a_file}, {"items", {{"$ref", "#/$defs/food"}}}}}};
    object["$defs"] = {{"food", food}};
    return document(
        "urn:tuck:pantry", "One file of the pantry: a group of foods",
        "Amounts are for one serving. The reader also checks what a schema cannot: that the parts do not "
        "exceed the whole, that the energy follows from them, and that every id stands once.",
        object);
}

const std::map<std::string, std::function<Schema()>>& makers() {
    static const std::map<std::string, std::function<Schema()>> all{{"athlete", athlete_schema},
                                                                    {"diary", diary_schema_document},
                                                                    {"event", event_schema},
                                                                    {"pantry", pantry_schema}};
    return all;
}

} // namespace

const std::vector<std::string>& schema_names() {
    static const std::vector<std::string> names{"athlete", "diary", "event", "pantry"};
    return names;
}

std::string schema_text(const std::string& name) {
    return makers().at(name)().dump(2) + "\n";
}

} // namespace tuck::io
