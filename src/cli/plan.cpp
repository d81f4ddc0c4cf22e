#include "card/card.hpp"
#include "cli/card_options.hpp"
#include "cli/command.hpp"
#include "cli/request_options.hpp"
#include "cli/tell.hpp"
#include "io/fault.hpp"
#include "io/files.hpp"
#include "io/outputs.hpp"
#include "sheet/sheet.hpp"
#include "text/plan_json.hpp"
#include "text/plan_text.hpp"

#include <fmt/format.h>
#include <memory>

namespace tuck::cli {

namespace {

struct PlanOptions {
    Request request;
    bool json = false;
    std::string output; // of the text or JSON; empty: stdout
    std::string card;   // PDF file; empty: none
    std::string sheet;  // PDF, text or HTML file; empty: none
    CardWords card_words;
    std::string lp; // file; empty: none
};

void require_sheet_name(const std::string& file) {
    if (!file.empty() && file != "-" && !file.ends_with(".pdf") && !file.ends_with(".txt") &&
        !file.ends_with(".html"))
        throw io::InputError("--sheet", "",
                             "\"" + file + "\": allowed: a file name that ends in .pdf, .txt or .html");
}

std::string sheet_bytes(const Answer& plans, const std::string& file, const faces::Paper& paper) {
    const auto content = faces::sheet_content(plans.plan, plans.no_swim ? &*plans.no_swim : nullptr);
    if (file.ends_with(".txt"))
        return faces::sheet_text(content);
    return file.ends_with(".html") ? faces::sheet_html(content) : faces::sheet_pdf(content, {paper, ""});
}

int run(const PlanOptions& options) {
    require_sheet_name(options.sheet);
    const auto card = card_options_of(options.card_words);
    Request request = options.request;
    if (options.card_words.simpler)
        request.card = card;
    const Answer plans = answer_of(request, {.no_swim = !options.sheet.empty(), .lp = !options.lp.empty()});
    if (!options.lp.empty() && plans.lp.empty())
        throw io::InputError("--lp", "", "this plan schedules nothing");
    const Plan& plan = plans.plan;
    if (options.json || !options.output.empty())
        tell_warnings(plan.warnings);
    io::Outputs outputs;
    outputs.never_over(io::files_read());
    if (!options.card.empty() && !plan.refused)
        outputs.add(options.card, faces::card_pdf(plan, card));
    if (!options.sheet.empty())
        outputs.add(options.sheet, sheet_bytes(plans, options.sheet, card.paper));
    if (!options.lp.empty())
        outputs.add(options.lp, plans.lp);
    const auto text = options.json ? faces::plan_json(plan) : faces::plan_text(plan);
    if (options.output.empty())
        outputs.print(text);
    else
        outputs.add(options.output, text);
    outputs.commit();
    if (!options.card.empty())
        tell_notes(notes_on(card));
    return plan.refused ? 1 : 0;
}

} // namespace

Command plan_command() {
    auto o = std::make_shared<PlanOptions>();
    return {
        .name = "plan",
        .help = "plan a race or a session",
        .footer = "Example: tuck plan --distance sprint --mass 68kg --temperature 22C",
        .options =
            request_options(o->request) +
            OptionTable{
                {"--json", &o->json, "the plan for programs, on standard output"},
                {"-o,--output", &o->output, "write the plan to this file", "FILE"},
                {"--card", &o->card,
                 "also write the card (PDF); the plan then has no more lines than it holds", "FILE.pdf"},
                {"--sheet", &o->sheet,
                 "also write the sheet: the day in pictures, packing, reasons (.pdf, .html or .txt)", "FILE"},
                {"--lp", &o->lp, "also write the scheduling problem for other solvers (CPLEX LP format)",
                 "FILE"},
            } +
            card_option_table(o->card_words),
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
