#include "card/card.hpp"
#include "base/utf8.hpp"
#include "card/card_text.hpp"
#include "cli/card_options.hpp"
#include "cli/checker.hpp"
#include "cli/command.hpp"
#include "cli/preview.hpp"
#include "cli/request_options.hpp"
#include "cli/tell.hpp"
#include "io/fault.hpp"
#include "io/files.hpp"
#include "io/outputs.hpp"

#include <fmt/format.h>
#include <memory>

namespace tuck::cli {

namespace {

struct Options {
    Request request;
    CardWords card;
    std::string output = "card.pdf";
    std::string preview;
    bool text = false, check = false;
};

constexpr std::size_t many_sides = 4; // more are not leafed through on a bike, our choice

void note_many_sides(const std::vector<faces::CardLayout>& layouts, const faces::CardSize& size) {
    std::size_t sides = 0;
    for (const auto& layout : layouts)
        sides += layout.sides.size();
    if (sides > many_sides)
        fmt::print(stderr,
                   "tuck: many_sides: The card has {} sides of {:g} x {:g} mm; a larger card, or one read "
                   "from nearer, has "
                   "fewer.\n",
                   sides, size.width_mm, size.height_mm);
}

int run(const Options& options) {
    if (options.check)
        need_checker();
    const auto card_options = card_options_of(options.card);
    require_preview_name(options.preview);
    Request request = options.request;
    if (options.card.simpler)
        request.card = card_options;
    const Plan plan = plan_of(request);
    if (plan.refused) {
        tell_warnings(plan.warnings);
        return 1;
    }
    if (options.text) {
        io::say(faces::card_text(plan));
        return 0;
    }
    const auto layouts = faces::card_layouts(plan, card_options);
    const std::string bytes = faces::card_pdf(layouts, card_options);
    if (options.check) {
        const auto measured = measure(bytes, layouts, card_options);
        io::say(measured.text);
        if (!measured.all_hold)
            throw io::InputError("--check", "", "the card misses a limit; nothing was written");
    }
    const std::string preview = options.preview.empty() ? "" : preview_of(options.preview, bytes, layouts[0]);
    io::Outputs outputs;
    outputs.never_over(io::files_read());
    outputs.add(options.output, bytes);
    outputs.print(shown(options.output) + "\n");
    if (!preview.empty()) {
        outputs.add(options.preview, preview);
        outputs.print(shown(options.preview) + "\n");
    }
    outputs.commit();
    note_many_sides(layouts, card_options.size);
    return 0;
}

} // namespace

Command card_command() {
    auto o = std::make_shared<Options>();
    return {
        .name = "card",
        .help = "the race-day card as a PDF, true to size",
        .options = request_options(o->request) +
                   OptionTable{
                       {"-o,--output", &o->output, "PDF file; card.pdf if not given", "FILE.pdf"},
                       {"--check", &o->check, "measure the finished PDF and print each figure and limit"},
                       {"--preview", &o->preview,
                        "also its first page as .svg or .png, for looking without printing", "FILE"},
                       {"--text", &o->text, "the card as text on standard output instead"},
                   } +
                   card_option_table(o->card),
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
