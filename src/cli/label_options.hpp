// A packet's label as options: typed one by one, pasted as text, or changes to a food that stands.
#pragma once

#include "cli/command.hpp"
#include "io/label.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::cli {

/// As typed; empty: not said.
struct LabelWords {
    std::string file, id, name, label, group, form, style, per, paste;
    std::string serving, volume, makes, needs_water;
    std::string energy, carbohydrate, sugars, fat, fibre, protein, salt, sodium, caffeine, glucose, fructose;
    std::vector<std::string> fits, allergens;
    std::optional<double> smallest;
    bool melts = false, vegan = false, json = false;
};

/// Of a new food.
OptionTable label_options(LabelWords& words);
/// Of one that stands: any of its amounts, of one serving.
OptionTable edit_options(LabelWords& words);

struct ReadLabel {
    io::Label label;
    std::vector<std::string> notes; // what a pasted text left open
};
/// The label of a new food. Throws InputError with every amount that cannot be read.
ReadLabel label_of(LabelWords words, const std::string& group);
/// A label that says what the food holds, but for what was typed. Throws likewise.
io::Label edited_label(const Food& food, const LabelWords& words);

} // namespace tuck::cli
