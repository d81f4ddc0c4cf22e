// `tuck new`: the first files, one question at a time.
#include "ask/new_files.hpp"
#include "base/utf8.hpp"
#include "cli/command.hpp"
#include "cli/profile.hpp"
#include "cli/written.hpp"
#include "io/event_file.hpp"
#include "io/fault.hpp"
#include "io/outputs.hpp"

#include <filesystem>
#include <fmt/format.h>
#include <iostream>
#include <memory>
#include <unistd.h>

namespace tuck::cli {

namespace {

struct NewOptions {
    std::string event = "race.json";
    std::map<std::string, std::string> said; // by option
    bool yes = false, me = false, json = false;
};

/// Asks until the answer can be used. Throws InputError where the input ends.
std::string asked(const ask::Question& question) {
    for (;;) {
        fmt::print("{}{}: ", question.text,
                   *question.usual ? fmt::format(" [{}]", question.usual)
                                   : fmt::format(" (such as {})", question.example));
        std::fflush(stdout);
        std::string line;
        if (!std::getline(std::cin, line))
            throw io::InputError(question.key, "",
                                 "was asked and not answered; --yes takes the usual answers");
        try {
            const auto answer = ask::checked_answer(question, line);
            if (!answer.empty() || std::string(question.key) != "--mass")
                return line;
            fmt::print("  It is needed for everything: give it with its unit.\n");
        } catch (const std::invalid_argument& error) {
            fmt::print("  {}\n", shown(error.what()));
        }
    }
}

ask::Answers answers_of(const NewOptions& options) {
    ask::Answers answers;
    for (const auto& question : ask::new_questions()) {
        const auto said = options.said.find(question.key);
        if (options.me && question.of_event)
            continue;
        if (said != options.said.end()) {
            try {
                ask::checked_answer(question, said->second);
            } catch (const std::invalid_argument& error) {
                throw io::InputError(question.key, "", error.what());
            }
            answers[question.key] = said->second;
        } else if (!options.yes) {
            answers[question.key] = asked(question);
        } else if (std::string(question.key) == "--mass") {
            throw io::InputError("--mass", "", "is missing; give it with its unit: 68kg, 150lb");
        }
    }
    return answers;
}

void refuse_to_overwrite(const std::string& file) {
    if (std::filesystem::exists(file))
        throw io::InputError(file, "",
                             "stands already and is left as it is; name another file, or remove it");
}

int write_profile(const NewOptions& options) {
    const auto file = profile_file();
    if (file.empty())
        throw io::InputError("--me", "", "has no place: neither XDG_CONFIG_HOME nor HOME is set");
    refuse_to_overwrite(file);
    const auto athlete = ask::new_athlete(answers_of(options));
    std::filesystem::create_directories(std::filesystem::path(file).parent_path());
    io::Outputs outputs;
    outputs.add(file, athlete, 0600);
    if (options.json)
        outputs.print(written_json("new", {file}));
    else
        outputs.print(fmt::format(
            "Written: {}\nPlans without an athlete of their own take it from now on; --no-profile "
            "leaves it out.\n",
            shown(file)));
    outputs.commit();
    return 0;
}

int run(const NewOptions& options) {
    if (options.json && !options.yes)
        throw io::InputError("--json", "", "asks nothing: give --yes too");
    if (options.event == "-")
        throw io::InputError("event", "", "two files are written; give the first a name");
    if (options.me)
        return write_profile(options);
    const auto athlete_file = (std::filesystem::path(options.event).parent_path() / "athlete.json").string();
    refuse_to_overwrite(options.event);
    refuse_to_overwrite(athlete_file);
    const auto answers = answers_of(options);
    io::Outputs outputs;
    outputs.add(options.event, ask::new_event(answers, "athlete.json"));
    outputs.add(athlete_file, ask::new_athlete(answers));
    if (options.json)
        outputs.print(written_json("new", {options.event, athlete_file}));
    else
        outputs.print(fmt::format("Written: {} and {}\nNow: tuck plan {} --card card.pdf\n",
                                  shown(options.event), shown(athlete_file), shown(options.event)));
    outputs.commit();
    return 0;
}

} // namespace

Command new_command() {
    auto o = std::make_shared<NewOptions>();
    OptionTable options{{"event", &o->event,
                         "event file to write (race.json if not given); the athlete's stands beside it",
                         "EVENT.json"}};
    for (const auto& question : ask::new_questions())
        options.push_back(
            {.name = question.key, .target = &o->said, .help = question.text, .kind = "ANSWER"});
    options.push_back({"--yes", &o->yes, "ask nothing: usual answers for what is not said"});
    options.push_back({"--json", &o->json, "what was written as JSON (tuck.written/1); needs --yes"});
    options.push_back({"--me", &o->me, "yourself alone, kept for every later plan"});
    return {
        .name = "new",
        .help = "your first files, one question at a time",
        .footer = "Examples: tuck new\n"
                  "          tuck new lake.json --distance olympic --mass 150lb --yes\n"
                  "          tuck new --me",
        .options = options,
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
