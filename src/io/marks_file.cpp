#include "io/marks_file.hpp"

#include "base/utf8.hpp"
#include "io/line_log.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace tuck::io {

namespace {

constexpr char marks_schema[] = "tuck.marks/1";
constexpr double longest_session_s = 48 * 3600;

const std::vector<std::pair<std::string, LegKind>>& leg_words() {
    static const std::vector<std::pair<std::string, LegKind>> words = {{"bike", LegKind::bike},
                                                                       {"run", LegKind::run}};
    return words;
}

const std::vector<std::pair<std::string, std::string>>& mark_words() {
    static const std::vector<std::pair<std::string, std::string>> words = {
        {"taken", "taken"}, {"half", "half"}, {"skipped", "skipped"}, {"stomach", "stomach"}, {"run", "run"}};
    return words;
}

void read_schema(Node& node) {
    if (node.required_text("schema") != marks_schema)
        node.fault("schema", fmt::format("allowed: \"{}\"", marks_schema));
}

void read_session(Node& node, Marks& marks) {
    read_schema(node);
    marks.start_unix_s =
        static_cast<long long>(node.required_number("start_unix_s", 1, 1e11, "s since 1970"));
    marks.plan = node.text("plan").value_or("");
    marks.bike_min = node.number("bike_min", 0, 2880, "min").value_or(0);
    marks.run_min = node.number("run_min", 0, 2880, "min").value_or(0);
    marks.bike_asked_carb_g_per_h = node.number("bike_asked_carb_g_per_h", 0, 150, "g/h").value_or(0);
    marks.run_asked_carb_g_per_h = node.number("run_asked_carb_g_per_h", 0, 150, "g/h").value_or(0);
    marks.foods = node.text("foods").value_or("");
    marks.run_at_s = node.number("run_at_s", 0, longest_session_s, "s").value_or(0);
    for (auto& item : node.objects("feeds", 500)) {
        MarkedFeed feed;
        feed.leg = item.choice<LegKind>("leg", leg_words()).value_or(LegKind::bike);
        feed.at_s = item.required_number("at_s", 0, longest_session_s, "s");
        feed.what = item.text("what").value_or("");
        feed.carb_g = item.number("carb_g", 0, 500, "g").value_or(0);
        feed.fluid_ml = item.number("fluid_ml", 0, 3000, "ml").value_or(0);
        item.finish();
        marks.feeds.push_back(feed);
    }
    node.finish();
}

Mark read_mark(Node& node, const Marks& marks) {
    read_schema(node);
    Mark mark;
    mark.kind = node.choice<std::string>("mark", mark_words()).value_or("");
    if (!node.has("mark"))
        node.missing("mark");
    mark.at_s = node.required_number("at_s", 0, 1e9, "s");
    mark.feed = node.whole("feed", 0, static_cast<int>(marks.feeds.size()) - 1);
    mark.level = node.whole("level", 0, 10);
    node.finish();
    return mark;
}

bool is_whole(const std::string& line) {
    try {
        return parse_json(line, "").is_object();
    } catch (const InputError&) {
        return false;
    }
}

void append(const std::string& path, const Json& json) {
    append_lines(
        path, [&](const std::string&) { return json.dump() + "\n"; }, is_whole);
}

} // namespace

std::size_t Marks::open_feed() const {
    std::size_t open = 0;
    for (const auto& mark : marks)
        if (mark.feed)
            open = std::max(open, static_cast<std::size_t>(*mark.feed) + 1);
    return open;
}

double Marks::run_start_s() const {
    for (const auto& mark : marks)
        if (mark.kind == "run")
            return mark.at_s;
    return run_at_s;
}

double Marks::due_s(std::size_t feed) const {
    return feeds[feed].at_s + (feeds[feed].leg == LegKind::run ? run_start_s() : 0);
}

namespace {

/// What is wrong with a line, told with its number; nothing: it was taken.
std::vector<Fault> faults_of_line(const std::string& line, const std::string& path, std::size_t number,
                                  Marks& marks) {
    std::vector<Fault> faults;
    try {
        const Json json = parse_json(line, path);
        Node node(json, path, "", faults);
        if (number == 1)
            read_session(node, marks);
        else if (const auto mark = read_mark(node, marks); faults.empty())
            marks.marks.push_back(mark);
    } catch (const InputError& error) {
        faults = error.faults;
    }
    for (auto& fault : faults) {
        constexpr std::string_view column = "line 1, "; // a line of JSON counts for itself
        fault.place = fault.place.rfind(column, 0) == 0
                          ? fmt::format("line {}, {}", number, fault.place.substr(column.size()))
                          : fmt::format("line {}: {}", number, fault.place);
    }
    return faults;
}

Marks marks_of(const LogLines& log, const std::string& path) {
    auto lines = log.lines;
    if (is_whole(log.torn))
        lines.push_back(log.torn);
    Marks marks;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto faults = faults_of_line(lines[i], path, i + 1, marks);
        if (i == 0 && !faults.empty())
            throw InputError(faults); // no mark means anything without its session
        marks.bad.insert(marks.bad.end(), faults.begin(), faults.end());
    }
    return marks;
}

} // namespace

std::vector<std::string> notes_on(const Marks& marks, const std::string& path) {
    std::vector<std::string> notes;
    for (const auto& fault : first_of(marks.bad))
        notes.push_back(line_of(fault));
    if (!marks.bad.empty())
        notes.push_back(shown(path) + ": what cannot be read does not count; the other marks do");
    return notes;
}

Marks read_marks(const std::string& path) {
    return marks_of(read_lines(path), path);
}

Marks read_existing_marks(const Document& file) {
    const std::string& path = file.name;
    if (!file.text)
        require_there(path);
    auto marks = marks_of(file.text ? lines_in(*file.text) : read_lines(path), path);
    if (marks.start_unix_s == 0)
        throw InputError(path, "", "holds no session; it is the file of tuck rehearse --live");
    return marks;
}

void begin_marks(const std::string& path, const Marks& session) {
    Json feeds = Json::array();
    for (const auto& feed : session.feeds)
        feeds.push_back({{"leg", to_string(feed.leg)},
                         {"at_s", feed.at_s},
                         {"what", feed.what},
                         {"carb_g", feed.carb_g},
                         {"fluid_ml", feed.fluid_ml}});
    append(path, {{"schema", marks_schema},
                  {"start_unix_s", session.start_unix_s},
                  {"plan", session.plan},
                  {"bike_min", session.bike_min},
                  {"run_min", session.run_min},
                  {"run_at_s", session.run_at_s},
                  {"bike_asked_carb_g_per_h", session.bike_asked_carb_g_per_h},
                  {"run_asked_carb_g_per_h", session.run_asked_carb_g_per_h},
                  {"foods", session.foods},
                  {"feeds", feeds}});
}

void add_mark(const std::string& path, const Mark& mark) {
    Json json = {{"schema", marks_schema}, {"mark", mark.kind}, {"at_s", mark.at_s}};
    if (mark.feed)
        json["feed"] = *mark.feed;
    if (mark.level)
        json["level"] = *mark.level;
    append(path, json);
}

Json rehearsal_fields(const Marks& marks) {
    double carb[2] = {}, fluid[2] = {}, planned_carb[2] = {}, planned_fluid[2] = {}, taken = 0;
    for (const auto& feed : marks.feeds) {
        planned_carb[feed.leg == LegKind::run] += feed.carb_g;
        planned_fluid[feed.leg == LegKind::run] += feed.fluid_ml;
    }
    int stomach[2] = {};
    const bool run_marked = std::any_of(marks.marks.begin(), marks.marks.end(),
                                        [](const Mark& mark) { return mark.kind == "run"; });
    bool running = false;
    for (const auto& mark : marks.marks) {
        running = running || mark.kind == "run" || (!run_marked && mark.at_s >= marks.run_at_s);
        const double share = mark.kind == "taken" ? 1 : mark.kind == "half" ? 0.5 : 0;
        if (mark.feed && share > 0) {
            const auto& feed = marks.feeds[static_cast<std::size_t>(*mark.feed)];
            const int leg = feed.leg == LegKind::run;
            carb[leg] += share * feed.carb_g;
            fluid[leg] += share * feed.fluid_ml;
            taken += share;
        }
        if (mark.level) {
            int& worst = stomach[running];
            worst = std::max(worst, *mark.level);
        }
    }
    Json json = {{"bike_min", marks.bike_min},
                 {"run_min", marks.run_min},
                 {"feeds_planned", marks.feeds.size()},
                 {"feeds_taken", taken}};
    if (!marks.foods.empty())
        json["foods"] = marks.foods;
    for (const int leg : {0, 1}) {
        const std::string name = leg ? "run" : "bike";
        json[name + "_carb_g"] = carb[leg];
        json[name + "_fluid_ml"] = fluid[leg];
        json[name + "_asked_carb_g_per_h"] =
            leg ? marks.run_asked_carb_g_per_h : marks.bike_asked_carb_g_per_h;
        json[name + "_planned_carb_g"] = planned_carb[leg];
        json[name + "_planned_fluid_ml"] = planned_fluid[leg];
        if (stomach[leg] > 0)
            json[name + "_symptoms"] = {{"nausea", stomach[leg]}};
    }
    return json;
}

} // namespace tuck::io
