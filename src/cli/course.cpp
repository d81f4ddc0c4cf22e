#include "ask/course.hpp"
#include "cli/command.hpp"
#include "io/gpx.hpp"
#include "io/outputs.hpp"
#include "text/course_text.hpp"
#include "tuck/effort.hpp"

#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>
#include <memory>
#include <optional>

namespace tuck::cli {

namespace {

struct CourseOptions {
    std::string file;
    ask::CourseWords words;
    std::string units;
    bool ascii = false, json = false;
};

/// Does the locale promise UTF-8? POSIX: LC_ALL, then LC_CTYPE, then LANG.
bool shows_blocks() {
    for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
        const char* value = std::getenv(name);
        if (!value || !*value)
            continue;
        const std::string text = value;
        return text.find("UTF-8") != std::string::npos || text.find("utf8") != std::string::npos;
    }
    return false;
}

int run(const CourseOptions& o) {
    const auto track = io::read_gpx(o.file);
    faces::CourseSheet sheet;
    sheet.bike = o.words.sport == "bike";
    sheet.course = course_of(track, sheet.bike ? Sport::bike : Sport::run);
    const auto file = o.file == "-" ? "standard input" : std::filesystem::path(o.file).filename().string();
    sheet.title = track.name.empty() ? file : fmt::format("{} ({})", track.name, file);
    const auto passage = ask::pass_course(sheet.course, o.words);
    sheet.ride = passage.ride;
    sheet.passage = passage.passage;
    sheet.assumptions = passage.assumptions;
    sheet.units = o.units == "imperial" ? Units::imperial : Units::metric;
    io::say(o.json ? faces::course_json(sheet) : faces::course_text(sheet, !o.ascii && shows_blocks()));
    return 0;
}

} // namespace

Command course_command() {
    auto o = std::make_shared<CourseOptions>();
    return {
        .name = "course",
        .help = "a GPX course: climbing, times, where to eat",
        .footer = "Example: tuck course lake.gpx --power 200W --mass 75kg",
        .options =
            {
                {.name = "file",
                 .target = &o->file,
                 .help = "course (GPX 1.1)",
                 .kind = "FILE.gpx",
                 .required = true},
                {"--sport", &o->words.sport, "bike (the default), run", "SPORT", "bike, run"},
                {"--power", &o->words.power, "effort on an even road: 200W", "POWER"},
                {"--mass", &o->words.mass, "body mass: 68kg, 150lb", "MASS"},
                {"--position", &o->words.position, "upright, hoods (the default), drops, aero", "WORD",
                 "upright, hoods, drops, aero"},
                {"--temperature", &o->words.temperature, "of the air: 22C, 75F", "TEMPERATURE"},
                {"--wind", &o->words.wind, "3m/s, 12km/h, 8mph", "SPEED"},
                {"--wind-from", &o->words.wind_from, "where it comes from: 240deg, SW", "DIRECTION"},
                {"--pace", &o->words.pace, "run, on the level: 5:30/km", "PACE"},
                {"--units", &o->units, "metric (the default), imperial: of what you read", "WORD",
                 "metric, imperial"},
                {"--json", &o->json, "as JSON (tuck.course/1), metric"},
                {"--ascii", &o->ascii, "draw the profile in plain ASCII"},
            },
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
