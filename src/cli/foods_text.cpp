#include "cli/foods_text.hpp"

#include "io/pantry.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <sstream>

namespace tuck::cli {

namespace {

constexpr size_t columns = 80;
constexpr size_t indent = 17;
constexpr char mixes_only[] = "in mixes only";

/// `text` broken at blanks to fit the terminal, every line after the first set in by `first`.
std::string wrapped(const std::string& text, size_t first) {
    std::istringstream words(text);
    std::string out, word;
    size_t at = first;
    while (words >> word) {
        if (at > first && at + 1 + word.size() > columns) {
            out += '\n';
            out.append(first, ' ');
            at = first;
        }
        if (at > first) {
            out += ' ';
            ++at;
        }
        out += word;
        at += word.size();
    }
    return out;
}

std::string line(const char* head, const std::string& text) {
    return fmt::format("  {:<{}}{}\n", head, indent - 2, wrapped(text, indent));
}

std::string joined(const std::vector<std::string>& words, const char* none) {
    return words.empty() ? none : fmt::format("{}", fmt::join(words, ", "));
}

std::string serving_text(const Food& food) {
    std::string text = fmt::format("{:g} g", food.serving_g);
    if (food.serving_ml)
        text += fmt::format(", {:g} ml", *food.serving_ml);
    if (food.makes_ml)
        text += fmt::format(", makes {:g} ml of drink", *food.makes_ml);
    if (food.smallest < 1)
        return text + fmt::format("; can be taken in parts of {:g}", food.smallest);
    return food.form == Form::drink || food.form == Form::powder ? text : text + "; taken whole";
}

std::string care_text(const Food& food) {
    std::vector<std::string> words;
    if (food.needs_water)
        words.emplace_back("take with water");
    if (food.solid)
        words.emplace_back("must be chewed");
    if (food.melts)
        words.emplace_back("melts in warm weather");
    words.emplace_back(food.vegan ? "vegan" : "not vegan, or not known to be");
    return joined(words, "");
}

std::string bullets(const std::vector<std::string>& texts) {
    std::string out;
    for (const auto& text : texts)
        out += "  - " + wrapped(text, 4) + "\n";
    return out;
}

std::string counted(size_t n, const char* word) {
    return fmt::format("{} {}{}", n, word, n == 1 ? "" : "s");
}

} // namespace

std::string list_text(const std::vector<const Food*>& foods) {
    std::string out;
    std::string group;
    for (const auto* food : foods) {
        if (food->group != group || out.empty()) {
            out += fmt::format("{}{:<31}{:>5} {:>6} {:>6} {:>6}\n", out.empty() ? "" : "\n", food->group, "g",
                               "carb g", "Na mg", "caf mg");
            group = food->group;
        }
        out += fmt::format("{:<20}{:<11}{:>5.4g} {:>6.3g} {:>6.0f} {:>6.0f}  {}\n", food->id, food->label,
                           food->serving_g, food->carb_g, food->sodium_mg, food->caffeine_mg,
                           food->fits.empty() ? mixes_only : fmt::format("{}", fmt::join(food->fits, " ")));
    }
    return out;
}

std::string list_json(const std::vector<const Food*>& foods) {
    std::string out = "[";
    for (const auto* food : foods)
        out += (out.size() > 1 ? ",\n  " : "\n  ") + io::food_text(*food, 2, true);
    return out + "\n]\n";
}

std::string show_text(const Food& food) {
    std::string out = fmt::format("{}: {}\n", food.id, food.name);
    out += line("group",
                fmt::format("{}, on the card \"{}\", form {}", food.group, food.label, to_string(food.form)));
    out += line("serving", serving_text(food));
    out += line("energy", fmt::format("{:g} kcal", food.energy_kcal));
    out += line("carbohydrate", fmt::format("{:g} g, of which sugars {:g} g", food.carb_g, food.sugars_g));
    out +=
        line("sugar paths", fmt::format("glucose {:g} g, fructose {:g} g", food.glucose_g, food.fructose_g));
    out += line("fibre", fmt::format("{:g} g", food.fibre_g));
    out += line("fat", fmt::format("{:g} g", food.fat_g));
    out += line("protein", fmt::format("{:g} g", food.protein_g));
    out += line("sodium", fmt::format("{:g} mg", food.sodium_mg));
    out += line("caffeine", fmt::format("{:g} mg", food.caffeine_mg));
    out += line("water", fmt::format("{:g} g", food.water_g));
    out += line("used", joined(food.fits, mixes_only));
    out += line("allergens", joined(food.allergens, "none listed; read the packet"));
    out += line("care", care_text(food));
    out += line("source", food.source);
    out += line("where", food.locator.empty() ? "not said" : food.locator);
    return out + line("provenance", food.provenance);
}

std::string added_text(const Food& food, const std::string& path, const std::vector<std::string>& assumptions,
                       const std::vector<io::Fault>& notes) {
    std::string out = fmt::format("Added to {}:\n{}", path, show_text(food));
    out += "Assumed:\n" + bullets(assumptions);
    std::vector<std::string> lines;
    for (const auto& note : notes)
        lines.push_back(io::line_of(note));
    return lines.empty() ? out : out + "Worth a second look:\n" + bullets(lines);
}

std::string check_summary(size_t foods, size_t files, size_t faults, size_t notes) {
    return fmt::format("{} in {}: {}, {}", counted(foods, "food"), counted(files, "file"),
                       counted(faults, "fault"), counted(notes, "note"));
}

std::string unknown_text(const std::string& word, std::vector<std::string> known) {
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
    const auto near = io::nearest_word(word, known);
    if (!near.empty())
        return fmt::format("\"{}\" is not known; did you mean \"{}\"?", word, near);
    constexpr size_t most = 20;
    if (known.size() > most)
        return fmt::format("\"{}\" is not known; see tuck foods list", word);
    return fmt::format("\"{}\" is not known; allowed: {}", word, fmt::join(known, ", "));
}

} // namespace tuck::cli
