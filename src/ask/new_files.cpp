#include "ask/new_files.hpp"

#include "base/rounded.hpp"
#include "base/words.hpp"
#include "io/options.hpp"
#include "io/units.hpp"
#include "tuck/error.hpp"
#include "tuck/event.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <functional>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace tuck::ask {

namespace {

using Json = nlohmann::ordered_json;

std::string one_of(const std::string& answer, const std::vector<std::string>& known) {
    auto meant = meant_word(answer, known);
    if (!meant.empty())
        return meant;
    const auto near = nearest_word(answer, known);
    throw std::invalid_argument(
        near.empty() ? fmt::format("\"{}\" is not known; allowed: {}", answer, fmt::join(known, ", "))
                     : fmt::format("\"{}\" is not known; did you mean \"{}\"?", answer, near));
}

/// How often somebody has raced this far, as a level.
std::string level_of(const std::string& answer) {
    const std::vector<std::string> words{"first time", "now and then", "often", "fast"};
    const std::vector<std::string> levels{"beginner", "steady", "keen", "fast"};
    auto level = meant_word(answer, levels);
    if (!level.empty())
        return level;
    const auto word = one_of(answer == "no" || answer == "never" ? "first time" : answer, words);
    return levels[static_cast<std::size_t>(std::find(words.begin(), words.end(), word) - words.begin())];
}

/// No file is written that the readers would refuse: `text` as the option of a plan says it.
void require_readable(const std::string& option, const std::string& text) {
    Typed typed{{"--distance", {"sprint"}}, {"--temperature", {"20C"}}, {"--mass", {"60kg"}}};
    typed[option] = {text};
    try {
        io::plan_input({}, typed);
    } catch (const Error& error) {
        throw std::invalid_argument(words_of(error.faults.front()));
    }
}

std::vector<double> bottles_of(const std::string& answer) {
    return answer == "none" ? std::vector<double>{} : io::volumes_ml(answer);
}

/// "10km 52:30".
std::pair<double, double> result_of(const std::string& answer) {
    const auto blank = answer.find_first_of(" =");
    if (blank == std::string::npos)
        throw std::invalid_argument("give a distance and a time: 10km 52:30");
    const auto time = answer.find_first_not_of(" =", blank);
    if (time == std::string::npos)
        throw std::invalid_argument("give a distance and a time: 10km 52:30");
    return {io::distance_m(answer.substr(0, blank)), io::duration_s(answer.substr(time))};
}

void require_result(const std::string& answer) {
    const auto [distance_m, time_s] = result_of(answer);
    require_readable("--recent-run", fmt::format("{}m={}", distance_m, duration_text(time_s)));
}

bool skipped(const std::string& answer) {
    return answer.empty() || answer == "-";
}

const Question& question_of(const std::string& key) {
    for (const auto& question : new_questions())
        if (question.key == key)
            return question;
    throw std::invalid_argument(key + " is no question");
}

std::string answer_of(const Answers& answers, const std::string& key) {
    const auto found = answers.find(key);
    const auto& question = question_of(key);
    return checked_answer(question, found == answers.end() ? question.usual : found->second);
}

} // namespace

const std::vector<Question>& new_questions() {
    static const std::vector<Question> questions{
        {"--distance", "Which race? super-sprint, sprint, standard, middle, long", "sprint", "sprint", true},
        {"--date", "On which day? (Enter: not known yet)", "", "2027-06-13", true},
        {"--start", "When does it start? (Enter: not known yet)", "", "07:30", true},
        {"--temperature", "How warm will it be?", "20C", "24C or 75F", true},
        {"--sun", "How much sun? none, hazy, half, full", "half", "half", true},
        {"--mass", "What do you weigh?", "", "68kg or 150lb", false},
        {"--level", "Have you raced this far before? first time, now and then, often", "first time",
         "now and then", false},
        {"--recent-run", "A recent running result? (Enter: none)", "", "10km 52:30", false},
        {"--allergy", "Allergies? (Enter: none)", "", "gluten, milk", false},
        {"--bottles", "Which bottles fit on your bike? (Enter: the usual ones for this race)", "", "2x750ml",
         true},
    };
    return questions;
}

std::string checked_answer(const Question& question, const std::string& given) {
    std::string answer = skipped(given) ? "" : given;
    const std::string key = question.key;
    if (answer.empty())
        return *question.usual ? checked_answer(question, question.usual) : "";
    if (key == "--distance")
        return one_of(answer, preset_names());
    if (key == "--date")
        return io::calendar_date(answer);
    if (key == "--start")
        return hour_of_day_text(io::clock_min(answer));
    if (key == "--sun")
        return one_of(answer, {"none", "hazy", "half", "full"});
    if (key == "--level")
        return level_of(answer);
    if (key == "--recent-run")
        return require_result(answer), answer;
    if (key != "--bottles" || answer != "none")
        require_readable(key, answer);
    return answer;
}

std::string new_event(const Answers& answers, const std::string& athlete_name) {
    const auto say = [&answers](const char* key) { return answer_of(answers, key); };
    Json out{{"schema", "tuck.event/1"}};
    out["about"] =
        std::string("Made by tuck new. Worth adding: ") + (say("--start").empty() ? "start_local; " : "") +
        "humidity_pct and wind_m_s of the forecast; the aid stations as the race names them, in the place "
        "of \"stations\": \"typical\"; the road as a GPX file (course_gpx).";
    out["name"] = say("--distance") + " race";
    out["distance"] = say("--distance");
    if (const auto date = say("--date"); !date.empty())
        out["date"] = date;
    if (const auto start = say("--start"); !start.empty())
        out["start_local"] = start;
    out["stations"] = "typical";
    out["weather"] = {{"temperature_c", tenth(io::temperature_c(say("--temperature")))},
                      {"sun", say("--sun")}};
    if (const auto bottles = say("--bottles"); !bottles.empty())
        out["kit"] = {{"bike_bottles_ml", bottles_of(bottles)}};
    if (!athlete_name.empty())
        out["athlete"] = athlete_name;
    return out.dump(2) + "\n";
}

std::string new_athlete(const Answers& answers) {
    const auto say = [&answers](const char* key) { return answer_of(answers, key); };
    Json out{{"schema", "tuck.athlete/1"}};
    out["about"] = "Made by tuck new. Worth adding: recent results or thresholds, a sweat test (tuck "
                   "sweat-test), what you "
                   "like and avoid, and what a doctor would want a plan to know (health).";
    const auto mass = say("--mass");
    if (mass.empty())
        throw std::invalid_argument("--mass: is missing; give it with its unit: 68kg, 150lb");
    out["mass_kg"] = tenth(io::mass_kg(mass));
    out["level"] = say("--level");
    if (const auto run = say("--recent-run"); !run.empty()) {
        const auto [distance_m, time_s] = result_of(run);
        out["recent"] =
            Json::array({{{"sport", "run"}, {"distance_m", distance_m}, {"time", duration_text(time_s)}}});
    }
    if (const auto allergy = say("--allergy"); !allergy.empty())
        out["allergy"] = io::comma_list(allergy);
    return out.dump(2) + "\n";
}

} // namespace tuck::ask
