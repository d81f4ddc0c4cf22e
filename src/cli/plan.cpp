#include "cli/card_options.hpp"
#include "cli/command.hpp"
#include "cli/request.hpp"
#include "cli/tell.hpp"
#include "card/card.hpp"
#include "text/plan_json.hpp"
#include "text/plan_text.hpp"
#include "sheet/sheet.hpp"
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
    std::string sheet;  // PDF, text or HTML file; empty: none
    CardWords card_words;
    std::string lp; // file; empty: none
};

void print(const std::string& text, const std::string& file) {
    if (!file.empty() && file != "-")
        return io::write_file(file, text);
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0)
        throw io::InputError("standard output", "", "cannot be written");
}

bool ends_with(const std::string& text, const std::string& end) {
    return text.size() > end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

void require_sheet_name(const std::string& file) {
    if (!file.empty() && !ends_with(file, ".pdf") && !ends_with(file, ".txt") && !ends_with(file, ".html"))
        throw io::InputError("--sheet", "",
                             "\"" + file + "\": allowed: a file name that ends in .pdf, .txt or .html");
}

std::string sheet_bytes(const PlanPair& plans, const std::string& file, const faces::Paper& paper) {
    const auto content = faces::sheet_content(plans.plan, plans.no_swim ? &*plans.no_swim : nullptr);
    if (ends_with(file, ".txt"))
        return faces::sheet_text(content);
    return ends_with(file, ".html") ? faces::sheet_html(content) : faces::sheet_pdf(content, {paper, ""});
}

int run(const Options& options) {
    require_sheet_name(options.sheet);
    const auto card = card_options_of(options.card_words);
    Request request = options.request;
    if (options.card_words.simpler)
        request.card = card;
    const PlanPair plans = options.sheet.empty() ? PlanPair{plan_of(request), {}} : plans_of(request);
    const Plan& plan = plans.plan;
    if (options.json || !options.output.empty())
        tell_warnings(plan.warnings);
    // The card first: if it cannot be drawn or written, nothing has been said yet.
    if (!options.card.empty() && !plan.refused)
        io::write_file(options.card, faces::card_pdf(plan, card));
    if (!options.sheet.empty())
        io::write_file(options.sheet, sheet_bytes(plans, options.sheet, card.paper));
    if (!options.lp.empty())
        io::write_file(options.lp, lp_of(request));
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
    command->add_option("--card", options->card,
                        "also write the card (PDF)");
    command->add_option("--sheet", options->sheet,
                        "also write the sheet: the day in pictures, packing, reasons (.pdf, .html or .txt)");
    command->add_option("--lp", options->lp,
                        "also write the scheduling problem for other solvers (CPLEX LP format)");
    add_card_options(*command, options->card_words);
    command->callback([&action, options] { action = [options] { return run(*options); }; });
}

} // namespace tuck::cli
