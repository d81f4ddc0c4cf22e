#include "cli/command.hpp"
#include "cli/request_options.hpp"
#include "io/fault.hpp"
#include "io/outputs.hpp"
#include "text/plan_text.hpp"

#include <fmt/format.h>
#include <memory>

namespace tuck::cli {

namespace {

struct ExplainOptions {
    Request request;
    std::vector<std::string> number;
    bool json = false;
};

/// Without an event file the first word already asks: tuck explain outlook --distance middle ...
ExplainOptions with_words_first(ExplainOptions options) {
    auto& file = options.request.event_file;
    const bool is_file =
        file.empty() || file == "-" || file.find(".json") != std::string::npos || file.find('/') == 0;
    const bool pointer = file.find('/') == 0 && file.find(".json") == std::string::npos;
    if (!is_file || pointer) {
        options.number.insert(options.number.begin(), file);
        file.clear();
    }
    return options;
}

int run(const ExplainOptions& given) {
    const ExplainOptions options = with_words_first(given);
    const Plan plan = plan_of(options.request);
    const auto number = fmt::format("{}", fmt::join(options.number, " "));
    const auto text = options.json ? faces::explain_json(plan, number) : faces::explain_text(plan, number);
    if (text.empty())
        throw io::InputError("number", "",
                             fmt::format("\"{}\" is no number of this plan; known: {}", number,
                                         fmt::join(faces::explained_numbers(plan), " ")));
    io::say(text);
    return 0;
}

} // namespace

Command explain_command() {
    auto o = std::make_shared<ExplainOptions>();
    return {
        .name = "explain",
        .help = "why a number is what it is: inputs, rule, source",
        .footer = "Examples: tuck explain race.json bike fluid\n"
                  "          tuck explain race.json /needs/2/carb_g_per_h\n"
                  "          tuck explain race.json        (every number)",
        .options = request_options(o->request) +
                   OptionTable{{"number", &o->number, "JSON pointer into the plan, or words"},
                               {"--json", &o->json, "as JSON (tuck.explain/1)"}},
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
