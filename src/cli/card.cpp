#include "card/card.hpp"
#include "base/utf8.hpp"
#include "card/card_text.hpp"
#include "cli/card_options.hpp"
#include "cli/checker.hpp"
#include "cli/command.hpp"
#include "cli/preview.hpp"
#include "cli/request_options.hpp"
#include "cli/tell.hpp"
#include "cli/written.hpp"
#include "io/fault.hpp"
#include "io/files.hpp"
#include "io/outputs.hpp"

#include <fmt/format.h>
#include <memory>

namespace tuck::cli {

namespace {

struct CardFileOptions {
    Request request;
    CardWords card;
    std::string output = "card.pdf";
    std::string preview;
    bool text = false, check = false, json = false;
};

constexpr std::size_t many_sides = 4; // more are not leafed through on a bike, our choice

std::size_t sides_of(const std::vector<faces::CardLayout>& layouts) {
    std::size_t sides = 0;
    for (const auto& layout : layouts)
        sides += layout.sides.size();
    return sides;
}

void note_many_sides(const std::vector<faces::CardLayout>& layouts, const faces::CardSize& size) {
    const auto sides = sides_of(layouts);
    if (sides > many_sides)
        tell_notes({fmt::format("many_sides: The card has {} sides of {:g} x {:g} mm; a larger card, or one "
                                "read from nearer, has fewer.",
                                sides, size.width_mm, size.height_mm)});
}

nlohmann::ordered_json about(const Plan& plan, const std::vector<faces::CardLayout>& layouts,
                             const faces::CardSize& size) {
    return {{"plan", plan.version},
            {"sides", sides_of(layouts)},
            {"pages", layouts.size()},
            {"width_mm", size.width_mm},
            {"height_mm", size.height_mm}};
}

int run(const CardFileOptions& options) {
    if (options.json && (options.check || options.text || options.output == "-"))
        throw io::InputError("--json", "", "goes with neither --check, --text nor -o -");
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
    std::vector<std::string> files{options.output};
    outputs.add(options.output, bytes);
    if (!preview.empty()) {
        outputs.add(options.preview, preview);
        files.push_back(options.preview);
    }
    if (options.json)
        outputs.print(written_json("card", files, about(plan, layouts, card_options.size)));
    else
        for (const auto& file : files)
            outputs.print(shown(file) + "\n");
    outputs.commit();
    tell_notes(notes_on(card_options));
    note_many_sides(layouts, card_options.size);
    return 0;
}

} // namespace

Command card_command() {
    auto o = std::make_shared<CardFileOptions>();
    return {
        .name = "card",
        .help = "the race-day card as a PDF, true to size",
        .options = request_options(o->request) +
                   OptionTable{
                       {"-o,--output", &o->output, "PDF file; card.pdf if not given", "FILE.pdf"},
                       {"--check", &o->check, "measure the finished PDF and print each figure and limit"},
                       {"--preview", &o->preview,
                        "also its first page as .svg or .png, for looking without printing", "FILE"},
                       {"--json", &o->json, "what was written as JSON (tuck.written/1)"},
                       {"--text", &o->text, "the card as text on standard output instead"},
                   } +
                   card_option_table(o->card),
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
