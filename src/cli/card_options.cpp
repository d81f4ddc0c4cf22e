#include "cli/card_options.hpp"

#include "card/card_place.hpp"
#include "io/fault.hpp"
#include "io/units.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <stdexcept>

namespace tuck::cli {

namespace {

constexpr int fewest_lines = 2;

/// Runs `read` and puts the option's name before what it complains about.
template <typename Read>
auto read_as(const char* option, Read read) {
    try {
        return read();
    } catch (const std::runtime_error& error) {
        throw io::InputError(option, "", error.what());
    } catch (const std::invalid_argument& error) {
        throw io::InputError(option, "", error.what());
    }
}

/// "600mm" or "60cm" or bare millimetres.
double distance_mm(const std::string& text) {
    const auto ends = [&](const std::string& unit) {
        return text.size() > unit.size() && text.compare(text.size() - unit.size(), unit.size(), unit) == 0;
    };
    const bool cm = ends("cm");
    const std::size_t unit = cm || ends("mm") ? 2 : 0;
    return io::plain_number(text.substr(0, text.size() - unit), "a distance such as 600mm") * (cm ? 10 : 1);
}

/// The option that said what is out of its range.
void require_in_range_by_option(const faces::CardOptions& options) {
    try {
        faces::require_in_range(options);
    } catch (const std::runtime_error& error) {
        const std::string text = error.what();
        for (const auto& [part, option] :
             {std::pair{"card reading distance: ", "--eye"}, std::pair{"card tilt: ", "--tilt"},
              std::pair{"card tube: ", "--tube"}})
            if (text.rfind(part, 0) == 0)
                throw io::InputError(option, "", text.substr(std::string(part).size()));
        throw io::InputError("--size", "", text);
    }
}

} // namespace

OptionTable card_option_table(CardWords& words) {
    return under(
        "The card",
        {
            {"--size", &words.size, "strip, stem, pocket, wrist, or width x height: 55x90 (mm)", "SIZE"},
            {"--paper", &words.paper, "a4, letter", "PAPER"},
            {"--eye", &words.distance, "600mm", "LENGTH"},
            {"--tilt", &words.tilt, "degrees between the line of sight and the upright: 30", "DEGREES"},
            {"--tube", &words.tube, "the tube that a strip or stem card lies on: 50mm; or flat", "DIAMETER"},
            {"--holes", &words.holes, "four holes for zip ties beside the text"},
            {"--glue", &words.glue, "a tab to glue a folded pair, or a band, together"},
            {"--simpler", &words.simpler, "another plan, with no more lines than one side of the card holds"},
        });
}

faces::CardOptions card_options_of(const CardWords& words) {
    const auto format = read_as("--size", [&] { return faces::card_format(words.size); });
    faces::CardOptions options;
    options.size = format.size;
    options.reading_distance_mm = format.distance_mm;
    options.turns = format.turns;
    options.run_only = format.run_only;
    options.paper = read_as("--paper", [&] { return faces::paper_of(words.paper); });
    if (words.distance)
        options.reading_distance_mm = read_as("--eye", [&] { return distance_mm(*words.distance); });
    if (words.tilt)
        options.tilt_deg = read_as("--tilt", [&] { return io::plain_number(*words.tilt, "degrees"); });
    options.tube_mm = format.on_tube ? faces::usual_tube_mm : 0;
    if (words.tube)
        options.tube_mm =
            *words.tube == "flat" ? 0 : read_as("--tube", [&] { return distance_mm(*words.tube); });
    options.holes = words.holes;
    options.glue = words.glue;
    require_in_range_by_option(options);
    return options;
}

std::vector<std::string> notes_on(const faces::CardOptions& card) {
    const double facing = faces::facing_mm(card.size.width_mm, card.tube_mm);
    constexpr double most_turned_away =
        0.25; // our choice: a strip of 50 mm on a tube of 50 mm turns away a fifth
    if (facing >= (1 - most_turned_away) * card.size.width_mm)
        return {};
    return {
        fmt::format("tube: of the card's {:g} mm of width {:.0f} mm face you on a tube of {:g} mm; the "
                    "letters keep to those, so the card needs more sides. A narrower card, or --tube flat, "
                    "has room for more.",
                    card.size.width_mm, facing, card.tube_mm)};
}

CardLimits limits_of(const faces::CardOptions& card) {
    const auto held = [&card](const faces::CardSize& size) {
        return faces::lines_held(faces::card_capacity(size, card.reading_distance_mm, card.tilt_deg));
    };
    int lines = std::max(fewest_lines, held(card.size));
    if (card.turns)
        lines = std::max(lines, held({card.size.height_mm, card.size.width_mm}));
    return {card.run_only ? 0 : lines, lines};
}

} // namespace tuck::cli
