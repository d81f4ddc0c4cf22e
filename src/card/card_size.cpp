#include "card/card_size.hpp"

#include "base/numbers.hpp"
#include "card/card_metrics.hpp"
#include "paper/legibility.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace tuck::faces {
namespace {

constexpr int row_characters = 17; // "every 15' 4 sw B1"
constexpr double digit_per_em = 0.4561, cap_per_em = 0.688;
// Mean width of a letter in running text of the narrow face, in capitals: measured on our own STOP line, with
// its bold word, and rounded up.
constexpr double letter_caps = 0.62;
constexpr double stop_letters = 140, stop_brief_letters = 48;
constexpr double frame_mm = 3.2; // of the STOP box, both sides

double number(const std::string& text, const std::string& word) {
    double value = 0;
    const auto [end, error] = tuck::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
        throw std::runtime_error(fmt::format(
            "card size \"{}\" is not known; allowed: strip, stem, pocket, wrist, or width x height in mm "
            "such as 55x90",
            word));
    return value;
}

double paragraph_mm(double letters, double width_mm, double cap_mm) {
    const double per_line = std::max(1.0, std::floor(width_mm / (letter_caps * cap_mm)));
    return std::ceil(letters / per_line) * line_caps * cap_mm;
}

/// Height of what stands on a side besides its rows.
double furniture_mm(const CardSize& size, double label_mm, double help_mm) {
    const double width = size.width_mm - 2 * quiet_zone_mm, help_line = line_caps * help_mm,
                 label_line = line_caps * label_mm;
    const double heading = thick_mm + label_line;
    const double stop_width = width - frame_mm;
    if (size.height_mm < low_card_mm)
        return 2 * help_line + heading + frame_mm + paragraph_mm(stop_brief_letters, stop_width, help_mm) +
               (label_mm - help_mm);
    const double head = 2 * label_line + 4 * help_line, notes = 4 * help_line;
    return head + heading + notes + frame_mm + paragraph_mm(stop_letters, stop_width, help_mm) +
           (label_mm - help_mm);
}

} // namespace

const std::vector<CardFormat>& card_formats() {
    static const std::vector<CardFormat> formats{
        {"strip", {50, 120}, 600, false, false, true, "along the top tube, 50 x 120 mm"},
        {"stem", {45, 60}, 600, false, false, true, "on the stem, 45 x 60 mm"},
        {"pocket", {85.6, 53.98}, 400, true, false, false, "85.60 x 53.98 mm, ISO/IEC 7810 ID-1"},
        {"wrist", {32, 160}, 400, false, true, false, "round the wrist, for the run, 32 x 160 mm"}};
    return formats;
}

CardFormat card_format(const std::string& word) {
    for (const CardFormat& format : card_formats())
        if (format.name == word)
            return format;
    const std::size_t by = word.find('x');
    if (by == std::string::npos)
        number("", word);
    const CardSize size{number(word.substr(0, by), word), number(word.substr(by + 1), word)};
    return {word, size, 600, true, false, false, "free size"};
}

double facing_mm(double width_mm, double tube_mm) {
    return tube_mm > 0 ? std::min(width_mm, tube_mm * std::numbers::pi / 4) : width_mm;
}

int digits_across(double width_mm, double cap_mm) {
    return static_cast<int>(width_mm / (cap_mm * digit_per_em / cap_per_em));
}

CardCapacity card_capacity(const CardSize& size, double distance_mm, double tilt_deg) {
    const auto cap = [&](double arcmin) { return cap_mm_for(arcmin, distance_mm, tilt_deg); };
    const double row = cap(row_arcmin), label = cap(label_arcmin), help = cap(help_arcmin);
    const double room = size.height_mm - 2 * quiet_zone_mm - above_stop_mm - furniture_mm(size, label, help);
    const double row_mm = (line_caps + row_gap_caps) * row;
    CardCapacity out;
    out.rows = std::max(0, static_cast<int>(room / row_mm));
    out.characters = std::max(0, digits_across(size.width_mm - 2 * quiet_zone_mm, row));
    return out;
}

int lines_held(const CardCapacity& capacity) {
    if (capacity.characters <= 0)
        return 0;
    const int lines_of_a_row = (row_characters + capacity.characters - 1) / capacity.characters;
    return capacity.rows / lines_of_a_row;
}

} // namespace tuck::faces
