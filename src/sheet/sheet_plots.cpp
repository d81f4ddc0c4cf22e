// The sheet's plots, drawn with lines, greys and dashes so that they print well without colour.
#include "base/clock.hpp"
#include "sheet/sheet_pieces.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>

namespace tuck::faces {
namespace {

constexpr double axis_mm = 0.2, grid_mm = 0.08, least_between_labels_mm = 1.5;

/// A step of time that gives at most `ticks`.
double time_step_s(double span_s, double ticks) {
    for (const double minutes : {5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 180.0, 240.0})
        if (span_s <= ticks * 60 * minutes)
            return 60 * minutes;
    return 6 * 3600;
}

/// 1, 2 or 5 times a power of ten, at most five steps to `most`.
double value_step(double most) {
    const double rough = std::max(most, 1e-9) / 5;
    const double power = std::pow(10, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0})
        if (rough <= factor * power)
            return factor * power;
    return 10 * power;
}

class Plot {
public:
    Plot(const Fonts& fonts, double cap_mm) : fonts_(fonts), cap_(cap_mm) {}

    double width(Face face, const std::string& text) const { return fonts_.width_mm(face, cap_, text); }
    void left(double x, double baseline, const std::string& text, Face face = Face::sans) {
        piece.texts.push_back({x, baseline, cap_, face, text});
    }
    void right(double x, double baseline, const std::string& text, Face face = Face::sans) {
        left(x - width(face, text), baseline, text, face);
    }
    void centred(double x, double baseline, const std::string& text, Face face = Face::sans) {
        left(x - width(face, text) / 2, baseline, text, face);
    }
    /// Ticks and labels of the hours under a line at `y`.
    void time_axis(double x0, double x1, double y, double span_s) {
        piece.lines.push_back({x0, y, x1, y, axis_mm});
        const double label_mm = width(Face::sans, hours_text(span_s)) + least_between_labels_mm;
        const double step = time_step_s(span_s, std::min(9.0, std::floor((x1 - x0) / label_mm)));
        for (double at = 0; at <= span_s + 1; at += step) {
            const double x = x0 + (x1 - x0) * at / span_s;
            piece.lines.push_back({x, y, x, y + 1, axis_mm});
            centred(x, y + 1.8 + cap_, hours_text(at));
        }
    }

    Piece piece;

private:
    const Fonts& fonts_;
    double cap_;
};

/// A diamond (food) or an upright stroke (drink).
void mark(Piece& piece, double x, double y, bool food) {
    if (food)
        piece.paths.push_back(
            {{{x, y - 1.6}, {x + 1.1, y}, {x, y + 1.6}, {x - 1.1, y}, {x, y - 1.6}}, 0.1, 0, 0, 0});
    else
        piece.lines.push_back({x, y - 1.5, x, y + 1.5, 0.4});
}

} // namespace

Piece timeline_piece(const SheetTimeline& timeline, const Fonts& fonts, double width_mm, double cap_mm) {
    Plot plot(fonts, cap_mm);
    const double x0 = 3, x1 = width_mm - 3;
    const double span = timeline.legs.empty() ? 1 : std::max(1.0, timeline.legs.back().to_s);
    const auto x_of = [&](double at_s) { return x0 + (x1 - x0) * at_s / span; };
    const double marks_y = 2.4, top = 5, bottom = 12.5;
    bool dark = false;
    for (const auto& leg : timeline.legs) {
        const double from = x_of(leg.from_s), to = x_of(leg.to_s);
        plot.piece.boxes.push_back({from, top, to - from, bottom - top, 0.2, dark ? 0.78 : 0.93});
        dark = !dark;
        if (plot.width(Face::narrow_bold, leg.name) + 1 < to - from)
            plot.centred((from + to) / 2, (top + bottom + cap_mm) / 2, leg.name, Face::narrow_bold);
    }
    bool any_food = false, any_drink = false;
    for (const auto& feed : timeline.feeds) {
        mark(plot.piece, x_of(feed.at_s), marks_y, feed.food);
        (feed.food ? any_food : any_drink) = true;
    }
    plot.time_axis(x0, x1, bottom + 1, span);
    double y = bottom + 1 + 1.8 + cap_mm + 1.9 * cap_mm, x = x0;
    plot.left(x, y, "hours and minutes since the start, likely day");
    x += plot.width(Face::sans, "hours and minutes since the start, likely day") + 8;
    for (const auto& [any, food, words] : std::initializer_list<std::tuple<bool, bool, const char*>>{
             {any_food, true, "food, with or without drink"}, {any_drink, false, "drink"}})
        if (any) {
            mark(plot.piece, x + 1, y - cap_mm / 2, food);
            plot.left(x + 3, y, words);
            x += 3 + plot.width(Face::sans, words) + 8;
        }
    plot.piece.height_mm = y + cap_mm;
    return plot.piece;
}

Piece curves_piece(const SheetCurves& curves, const Fonts& fonts, double width_mm, double cap_mm) {
    Plot plot(fonts, cap_mm);
    double span = 1, most = 0;
    for (const auto& series : curves.series)
        for (const auto& [at_s, value] : series.points) {
            span = std::max(span, at_s);
            most = std::max(most, value);
        }
    const double step = value_step(most), full = step * std::max(1.0, std::ceil(most / step));
    double names_mm = 0;
    const auto end_label = [&](const SheetCurves::Series& series) {
        return fmt::format("{} {:.0f} {}", series.name,
                           series.points.empty() ? 0.0 : series.points.back().second, curves.unit);
    };
    for (const auto& series : curves.series)
        names_mm = std::max(names_mm, plot.width(Face::sans, end_label(series)));
    const double x0 = plot.width(Face::sans, fmt::format("{:.0f}", full)) + 2.5,
                 x1 = width_mm - names_mm - 2.5;
    const double top = 3 * cap_mm, bottom = top + 42;
    const auto x_of = [&](double at_s) { return x0 + (x1 - x0) * at_s / span; };
    const auto y_of = [&](double value) { return bottom - (bottom - top) * value / full; };
    plot.left(0, 1.3 * cap_mm, fmt::format("{}, {}", curves.title, curves.unit), Face::narrow_bold);
    for (double value = 0; value <= full + step / 2; value += step) {
        plot.piece.lines.push_back({x0, y_of(value), x1, y_of(value), grid_mm});
        plot.right(x0 - 1, y_of(value) + cap_mm / 2, fmt::format("{:.0f}", value));
    }
    for (const double start : curves.legs_start_s)
        if (start > 0)
            plot.piece.lines.push_back({x_of(start), top, x_of(start), bottom, grid_mm, 0.8});
    plot.piece.lines.push_back({x0, top, x0, bottom, axis_mm});
    plot.time_axis(x0, x1, bottom, span);
    std::vector<std::pair<double, std::string>> ends;
    for (const auto& series : curves.series) {
        pdf::Path path;
        path.width_mm = series.width_mm;
        path.dash_mm = series.dash_mm;
        for (const auto& [at_s, value] : series.points)
            path.points.push_back({x_of(at_s), y_of(value)});
        if (!series.points.empty())
            ends.emplace_back(path.points.back().y_mm, end_label(series));
        plot.piece.paths.push_back(std::move(path));
    }
    std::sort(ends.begin(), ends.end());
    double lowest = -10;
    for (auto& [y, label] : ends) {
        lowest = std::max(y, lowest + 1.6 * cap_mm);
        plot.left(x1 + 1.5, lowest + cap_mm / 2, label);
    }
    plot.piece.height_mm = std::max(bottom + 1.8 + cap_mm, lowest + cap_mm) + 2 * cap_mm;
    return plot.piece;
}

namespace {

constexpr double panel_gap_mm = 6, panel_height_mm = 26, band_grey = 0.82;

std::string axis_number(double value) {
    return fmt::format("{:g}", std::round(value * 1000) / 1000 + 0.0);
}

Piece panel_piece(const SheetBands::Panel& panel, const std::vector<double>& legs_start_s, const Fonts& fonts,
                  double width_mm, double cap_mm) {
    Plot plot(fonts, cap_mm);
    double least = 0, most = 0;
    for (const auto& at : panel.points) {
        least = std::min(least, at.low);
        most = std::max(most, at.high);
    }
    const double span = std::max(1.0, panel.points.back().at_s), step = value_step(most - least);
    const double floor = step * std::floor(least / step),
                 full = std::max(floor + step, step * std::ceil(most / step));
    double x0 = 0;
    for (double value = floor; value <= full + step / 2; value += step)
        x0 = std::max(x0, plot.width(Face::sans, axis_number(value)) + 1.5);
    const double top = 3 * cap_mm, bottom = top + panel_height_mm;
    const auto x_of = [&](double at_s) { return x0 + (width_mm - x0) * at_s / span; };
    const auto y_of = [&](double value) {
        return bottom - (bottom - top) * (value - floor) / (full - floor);
    };
    plot.left(0, 1.3 * cap_mm, panel.title, Face::narrow_bold);
    pdf::Path band, middle;
    for (const auto& at : panel.points) {
        band.points.push_back({x_of(at.at_s), y_of(at.low)});
        middle.points.push_back({x_of(at.at_s), y_of(at.middle)});
    }
    for (auto at = panel.points.rbegin(); at != panel.points.rend(); ++at)
        band.points.push_back({x_of(at->at_s), y_of(at->high)});
    band.width_mm = 0;
    band.fill_grey = band_grey;
    middle.width_mm = 0.5;
    plot.piece.paths = {std::move(band), std::move(middle)};
    for (double value = floor; value <= full + step / 2; value += step) {
        plot.piece.lines.push_back({x0, y_of(value), width_mm, y_of(value), grid_mm});
        plot.right(x0 - 1, y_of(value) + cap_mm / 2, axis_number(value));
    }
    for (const double start : legs_start_s)
        if (start > 0)
            plot.piece.lines.push_back({x_of(start), top, x_of(start), bottom, grid_mm, 0.8});
    plot.piece.lines.push_back({x0, top, x0, bottom, axis_mm});
    plot.time_axis(x0, width_mm, bottom, span);
    plot.piece.height_mm = bottom + 1.8 + 2 * cap_mm;
    return plot.piece;
}

} // namespace

Piece bands_piece(const SheetBands& bands, const Fonts& fonts, double width_mm, double cap_mm) {
    Plot plot(fonts, cap_mm);
    const auto count = static_cast<double>(bands.panels.size());
    const double width = (width_mm + panel_gap_mm) / count - panel_gap_mm;
    double height = 0;
    for (std::size_t i = 0; i < bands.panels.size(); ++i) {
        plot.piece.height_mm = 0;
        stack(plot.piece, panel_piece(bands.panels[i], bands.legs_start_s, fonts, width, cap_mm),
              static_cast<double>(i) * (width + panel_gap_mm));
        height = std::max(height, plot.piece.height_mm);
    }
    plot.left(0, height + 0.6 * cap_mm, bands.note);
    plot.piece.height_mm = height + 1.6 * cap_mm;
    return plot.piece;
}

Piece bars_piece(const SheetBars& bars, const Fonts& fonts, double width_mm, double cap_mm) {
    Plot plot(fonts, cap_mm);
    double names = 0, most = bars.most;
    for (const auto& [name, value] : bars.bars) {
        names = std::max(names, plot.width(Face::sans, name));
        if (bars.most <= 0)
            most = std::max(most, value);
    }
    const double pitch = 2.3 * cap_mm, x0 = names + 2,
                 x1 = width_mm - plot.width(Face::sans, fmt::format(" {:.0f}", most)) - 2;
    double y = 1.5 * cap_mm;
    plot.left(0, y, bars.title + ", " + bars.unit, Face::narrow_bold);
    y += 0.7 * cap_mm;
    for (const auto& [name, value] : bars.bars) {
        const double middle = y + pitch / 2, length = most > 0 ? (x1 - x0) * std::min(value, most) / most : 0;
        plot.right(x0 - 1.5, middle + cap_mm / 2, name);
        plot.piece.boxes.push_back(
            {x0, middle - 0.7 * cap_mm, std::max(length, 0.05), 1.4 * cap_mm, 0, 0.55});
        plot.left(x0 + length + 1, middle + cap_mm / 2, bar_value(value));
        y += pitch;
    }
    plot.piece.lines.push_back({x0, 2.2 * cap_mm, x0, y, axis_mm});
    plot.piece.height_mm = y + cap_mm;
    return plot.piece;
}

} // namespace tuck::faces
