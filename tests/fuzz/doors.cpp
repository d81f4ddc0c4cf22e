#include "fuzz/doors.hpp"

#include "io/csv.hpp"
#include "io/diary_file.hpp"
#include "io/event_document.hpp"
#include "io/event_file.hpp"
#include "io/gpx.hpp"
#include "io/label_paste.hpp"
#include "io/marks_file.hpp"
#include "io/own_lines.hpp"
#include "io/pantry.hpp"
#include "io/roster.hpp"
#include "io/units.hpp"
#include "page/engine.hpp"
#include "text/plan_json.hpp"
#include "text/plan_text.hpp"
#include "tuck/ask.hpp"
#include "tuck/diary.hpp"
#include "tuck/effort.hpp"

#include <cmath>
#include <memory>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>
#include <string_view>

namespace tuck::fuzz {

namespace {

const Pantry& pantry() {
    static const Pantry read = io::load_pantry(TUCK_FOODS_DIR);
    return read;
}

/// Files that documents name are nowhere: the fuzzer opens none.
std::shared_ptr<const NamedFiles> no_files() {
    static const auto none = std::make_shared<NamedFiles>();
    return none;
}

/// No number of a plan may be NaN or infinite: JSON would write null for it.
void hold_numbers(const std::string& json) {
    const auto walk = [](const auto& self, const nlohmann::json& value) -> void {
        if (value.is_number_float() && !std::isfinite(value.get<double>()))
            throw std::logic_error("a number of the plan is not finite");
        if (value.is_structured())
            for (const auto& each : value)
                self(self, each);
    };
    walk(walk, nlohmann::json::parse(json));
}

/// What is missing and would help is found by solving many times more: the plan is asked for without.
Plan quick_plan(const Athlete& athlete, const Event& event) {
    return answer({athlete, event, pantry(), {}, {}, {}}, {.help = false}).plan;
}

io::EventInput event_of(const std::string& bytes) {
    auto input = io::read_event(io::load_event(Document("event.json", bytes), no_files()));
    io::check_foods(input, pantry());
    return input;
}

/// Read and checked; the door `plan` goes on from here.
bool event(const std::string& bytes) {
    event_of(bytes);
    return true;
}

bool plan(const std::string& bytes) {
    auto input = event_of(bytes);
    input.event.days = std::min(input.event.days, 5);
    const auto made = quick_plan(input.athlete, input.event);
    hold_numbers(faces::plan_json(made));
    if (faces::plan_text(made).empty())
        throw std::logic_error("a plan without a word");
    return true;
}

bool athlete(const std::string& bytes) {
    static const Document race("race.json", R"({"schema": "tuck.event/1", "distance": "standard", "days": 0,
        "weather": {"temperature_c": 24}})");
    auto document = io::load_event(race, no_files());
    io::put_athlete(document, Document("athlete.json", bytes));
    auto input = io::read_event(document);
    io::check_foods(input, pantry());
    return true;
}

bool foods(const std::string& bytes) {
    Pantry mine = pantry();
    io::add_foods(mine, Document("foods.json", bytes));
    return true;
}

bool label(const std::string& bytes) {
    return !io::read_pasted_label(bytes, "label").amounts.empty();
}

bool diary(const std::string& bytes) {
    const auto file = io::read_existing_diary(Document("me.jsonl", bytes));
    Athlete someone;
    someone.mass_kg = 70;
    learn(file.entries, someone);
    io::diary_csv(file.entries);
    return !file.entries.empty();
}

bool marks(const std::string& bytes) {
    io::rehearsal_fields(io::read_existing_marks(Document("marks.jsonl", bytes)));
    return true;
}

bool roster(const std::string& bytes) {
    static const auto race =
        io::load_event(Document("race.json", R"({"schema": "tuck.event/1", "distance": "standard", "days": 0,
            "weather": {"temperature_c": 24}})"),
                       no_files());
    io::Roster table(Document("roster.csv", bytes));
    io::RosterRow row;
    bool read = false;
    for (int n = 0; n < 20 && table.next(row); ++n)
        try {
            table.input(race, row);
            read = true;
        } catch (const Error&) { // one row says nothing of the next
        }
    return read;
}

bool gpx(const std::string& bytes) {
    for (const Sport sport : {Sport::bike, Sport::run})
        course_of(io::parse_gpx(bytes, "course.gpx"), sport);
    return true;
}

bool quantity(const std::string& bytes) {
    using Read = double (*)(const std::string&);
    static const Read reads[] = {
        io::mass_kg,       io::grams,         io::milligrams,     io::energy_kcal,       io::us_label_grams,
        io::temperature_c, io::humidity_pct,  io::wind_m_s,       io::direction_deg,     io::distance_m,
        io::duration_s,    io::minutes,       io::hours,          io::power_w,           io::beats_per_min,
        io::rate_ml_per_h, io::rate_g_per_h,  io::caffeine_mg,    io::sodium_mmol_per_l, io::volume_ml,
        io::length_m,      io::pace_s_per_km, io::swim_speed_m_s, io::us_label_volume_ml};
    bool any = false;
    for (const Read read : reads)
        try {
            if (!std::isfinite(read(bytes)))
                throw std::logic_error("read as no finite number: " + bytes);
            any = true;
        } catch (const std::invalid_argument&) {
        }
    const auto try_to = [&](const auto& read_it) {
        try {
            read_it(bytes);
            any = true;
        } catch (const std::invalid_argument&) {
        }
    };
    try_to(io::volumes_ml);
    try_to(io::clock_min);
    try_to(io::calendar_date);
    try_to(io::sun_light);
    return any;
}

bool own_line(const std::string& bytes) {
    Event event;
    event.legs.resize(3);
    event.legs[0].distance_m = 40e3;
    event.legs[1].kind = LegKind::t2;
    event.legs[2].kind = LegKind::run;
    event.legs[2].distance_m = 10e3;
    event.station_policy = StationPolicy::typical;
    event.weather.temperature_c = 20;
    event.days = 0;
    std::istringstream lines(bytes);
    for (std::string line; std::getline(lines, line);)
        io::add_own_line(line, event);
    Athlete someone;
    someone.mass_kg = 70;
    hold_numbers(faces::plan_json(quick_plan(someone, event)));
    return true;
}

/// The same question in haste: few simulated days, and not what would help. What is no question stays as it
/// is.
std::string hasty(const std::string& bytes) {
    auto question = nlohmann::json::parse(bytes, nullptr, false);
    if (!question.is_object())
        return bytes;
    question["days"] = 5;
    question["hasty"] = true;
    return question.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

bool page(const std::string& bytes) {
    static page::Engine engine(TUCK_FOODS_DIR);
    const auto reply = engine.ask(hasty(bytes));
    if (reply.code == 70)
        throw std::logic_error(reply.bytes);
    return reply.code < 2;
}

} // namespace

const std::vector<Door>& doors() {
    static const std::vector<Door> all{{"event", event},       {"athlete", athlete}, {"foods", foods},
                                       {"label", label},       {"diary", diary},     {"marks", marks},
                                       {"roster", roster},     {"gpx", gpx},         {"quantity", quantity},
                                       {"own_line", own_line}, {"page", page},       {"plan", plan}};
    return all;
}

const Door& door(const std::string& name) {
    for (const auto& each : doors())
        if (name == each.name)
            return each;
    throw std::out_of_range("no door is called " + name);
}

} // namespace tuck::fuzz
