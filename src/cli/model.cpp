#include "tuck/model.hpp"
#include "cli/command.hpp"
#include "text/layout.hpp"
#include "text/model_text.hpp"
#include "io/fault.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>
#include <stdexcept>

namespace tuck::cli {

namespace {

struct Options {
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

int list(const Options& options) {
    fmt::print("{}", options.json ? faces::model_list_json(models()) : faces::model_list_text(models()));
    return 0;
}

int run(const Options& options) {
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

void add_model(CLI::App& app, Action& action) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("model", "the published models behind the plan");
    command->require_subcommand(1);
    auto* list_command = command->add_subcommand("list", "every model: inputs, units, range, source");
    list_command->add_flag("--json", options->json, "as JSON");
    list_command->callback([&action, options] { action = [options] { return list(*options); }; });
    auto* run_command = command->add_subcommand("run", "evaluate one model");
    run_command->footer("Example: tuck model run riegel_time T1_s=1500 D1=5 D2=10 b=1.06");
    run_command->add_option("name", options->name, "name of the model")->required();
    run_command->add_option("inputs", options->arguments, "key=value ...");
    run_command->add_flag("--json", options->json, "as JSON");
    run_command->callback([&action, options] { action = [options] { return run(*options); }; });
}

} // namespace tuck::cli
