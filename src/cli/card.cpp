#include "faces/card.hpp"
#include "cli/command.hpp"
#include "cli/request.hpp"
#include "faces/card_text.hpp"
#include "io/files.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>

namespace tuck::cli {

namespace {

struct Options {
    Request request;
    std::string output = "card.pdf";
    bool text = false;
};

int run(const Options& options) {
    const Plan plan = plan_of(options.request);
    if (plan.refused) {
        for (const auto& warning : plan.warnings)
            fmt::print(stderr, "tuck: {}: {}\n", warning.code, warning.text);
        return 1;
    }
    if (options.text) {
        fmt::print("{}", faces::card_text(plan));
        return 0;
    }
    io::write_file(options.output, faces::card_pdf(plan));
    fmt::print("{}\n", options.output);
    return 0;
}

} // namespace

void add_card(CLI::App& app, Action& action) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("card", "the race-day card as a PDF, true to size");
    add_request(*command, options->request);
    command->add_option("-o,--output", options->output, "PDF file; card.pdf if not given");
    command->add_flag("--text", options->text, "the card as text on standard output instead");
    command->callback([&action, options] { action = [options] { return run(*options); }; });
}

} // namespace tuck::cli
