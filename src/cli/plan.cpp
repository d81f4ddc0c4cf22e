#include "cli/command.hpp"
#include "cli/request.hpp"
#include "faces/card.hpp"
#include "faces/plan_json.hpp"
#include "faces/plan_text.hpp"
#include "io/fault.hpp"
#include "io/files.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>

namespace tuck::cli {

namespace {

struct Options {
    Request request;
    bool json = false;
    std::string output; // of the text or JSON; empty: stdout
    std::string card;   // PDF file; empty: none
};

void print(const std::string& text, const std::string& file) {
    if (!file.empty() && file != "-")
        return io::write_file(file, text);
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0)
        throw io::InputError("standard output", "", "cannot be written");
}

int run(const Options& options) {
    const Plan plan = plan_of(options.request);
    for (const auto& warning : plan.warnings)
        if (options.json || !options.output.empty())
            fmt::print(stderr, "tuck: {}: {}\n", warning.code, warning.text);
    // The card first: if it cannot be drawn or written, nothing has been said yet.
    if (!options.card.empty() && !plan.refused)
        io::write_file(options.card, faces::card_pdf(plan));
    print(options.json ? faces::plan_json(plan) : faces::plan_text(plan), options.output);
    return plan.refused ? 1 : 0;
}

} // namespace

void add_plan(CLI::App& app, Action& action) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("plan", "plan a race or a session");
    command->footer("Example: tuck plan --distance sprint --mass 68kg --temperature 22C");
    add_request(*command, options->request);
    command->add_flag("--json", options->json, "the plan for programs, on standard output");
    command->add_option("-o,--output", options->output, "write the plan to this file");
    command->add_option("--card", options->card, "also write the card (PDF)");
    command->callback([&action, options] { action = [options] { return run(*options); }; });
}

} // namespace tuck::cli
