#include "tuck/model.hpp"
#include "cli/command.hpp"
#include "io/fault.hpp"
#include "text/layout.hpp"
#include "text/model_text.hpp"

#include <fmt/format.h>
#include <memory>
#include <stdexcept>

namespace tuck::cli {

namespace {

struct ModelOptions {
    bool json = false;
    std::string name;
    std::vector<std::string> arguments;
};

const Model& model_named(const std::string& name) {
    if (const Model* model = find_model(name))
        return *model;
    std::vector<std::string> known;
    for (const auto& model : models())
        known.push_back(model.name);
    const auto near = io::nearest_word(name, known);
    throw io::InputError("model", "",
                         fmt::format("\"{}\" is not known; {}", name,
                                     near.empty() ? std::string("see tuck model list")
                                                  : fmt::format("did you mean \"{}\"?", near)));
}

ModelArguments arguments_of(const std::vector<std::string>& texts) {
    ModelArguments out;
    for (const auto& text : texts) {
        const auto equals = text.find('=');
        if (equals == std::string::npos || equals == 0)
            throw io::InputError(text, "", "must be key=value");
        if (!out.emplace(text.substr(0, equals), text.substr(equals + 1)).second)
            throw io::InputError(text, "", "is given twice");
    }
    return out;
}

int list(const ModelOptions& options) {
    fmt::print("{}", options.json ? faces::model_list_json(models()) : faces::model_list_text(models()));
    return 0;
}

int run(const ModelOptions& options) {
    const auto& model = model_named(options.name);
    const auto arguments = arguments_of(options.arguments);
    try {
        const auto result = run_model(model, arguments);
        fmt::print("{}", options.json ? faces::model_result_json(model, arguments, result)
                                      : faces::model_result_text(model, result));
    } catch (const std::invalid_argument& error) {
        throw io::InputError(model.name, "", error.what());
    }
    return 0;
}

} // namespace

Command model_command() {
    auto o = std::make_shared<ModelOptions>();
    return {
        .name = "model",
        .help = "the published models behind the plan",
        .commands =
            {
                {
                    .name = "list",
                    .help = "every model: inputs, units, range, source",
                    .options = {{"--json", &o->json, "as JSON"}},
                    .run = [o] { return list(*o); },
                },
                {
                    .name = "figures",
                    .help = "every figure that a plan rests on, with its source",
                    .options = {{"--json", &o->json, "as JSON"}},
                    .run =
                        [o] {
                            fmt::print("{}", o->json ? faces::figures_json() : faces::figures_text());
                            return 0;
                        },
                },
                {
                    .name = "run",
                    .help = "evaluate one model",
                    .footer = "Example: tuck model run riegel_time T1_s=1500 D1=5 D2=10 b=1.06",
                    .options =
                        {
                            {.name = "name",
                             .target = &o->name,
                             .help = "name of the model",
                             .kind = "NAME",
                             .required = true},
                            {"inputs", &o->arguments, "key=value ...", "KEY=VALUE"},
                            {"--json", &o->json, "as JSON"},
                        },
                    .run = [o] { return run(*o); },
                },
            },
    };
}

} // namespace tuck::cli
