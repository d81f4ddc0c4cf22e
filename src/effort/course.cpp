#include "effort/course.hpp"

#include "base/sphere.hpp"
#include "tuck/effort.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace effort {

namespace {

template <typename Middle>
std::vector<double> over_windows(const std::vector<double>& values, int reach, Middle middle) {
    const int n = static_cast<int>(values.size());
    std::vector<double> out(values.size()), window;
    for (int i = 0; i < n; ++i) {
        const int side = std::min({reach, i, n - 1 - i});
        window.assign(values.begin() + i - side, values.begin() + i + side + 1);
        out[static_cast<std::size_t>(i)] = middle(window);
    }
    return out;
}

} // namespace

std::vector<double> running_median(const std::vector<double>& values, int reach) {
    return over_windows(values, reach, [](std::vector<double>& window) {
        const auto middle = window.begin() + std::ssize(window) / 2;
        std::nth_element(window.begin(), middle, window.end());
        return *middle;
    });
}

std::vector<double> running_mean(const std::vector<double>& values, int reach) {
    return over_windows(values, reach, [](const std::vector<double>& window) {
        double sum = 0; // of differences, so that a constant stays exactly itself
        for (const double value : window)
            sum += value - window.front();
        return window.front() + sum / static_cast<double>(window.size());
    });
}

Climb climb_of(const std::vector<double>& heights_m, double counted_m) {
    Climb out;
    if (heights_m.empty())
        return out;
    const auto go = [&out](double from, double to) {
        (to > from ? out.up_m : out.down_m) += std::abs(to - from);
    };
    double pivot = heights_m.front(), high = pivot, low = pivot, last = pivot;
    int direction = 0;
    for (const double h : heights_m) {
        if (h > last)
            out.raw_up_m += h - last;
        last = h;
        high = std::max(high, h);
        low = std::min(low, h);
        if (direction <= 0 && h - low >= counted_m) {
            go(pivot, low);
            pivot = low;
            high = h;
            direction = 1;
        } else if (direction >= 0 && high - h >= counted_m) {
            go(pivot, high);
            pivot = high;
            low = h;
            direction = -1;
        }
    }
    const double turn = direction > 0 ? high : direction < 0 ? low : pivot;
    go(pivot, turn);
    go(turn, last);
    return out;
}

namespace {

using Piece = std::vector<TrackPoint>;

/// A place on the piece, by straight lines between its points.
struct Node {
    double lat_deg = 0, lon_deg = 0, height_m = 0;
};

/// Fills missing heights by straight lines; the nearest known one beyond the ends. `fallback_m` where none is
/// known.
std::vector<double> heights_of(const Piece& piece, double fallback_m) {
    std::vector<double> out(piece.size(), fallback_m);
    std::size_t known = piece.size(); // index of the last known height
    for (std::size_t i = 0; i < piece.size(); ++i) {
        if (!piece[i].height_m)
            continue;
        out[i] = *piece[i].height_m;
        const std::size_t from = known == piece.size() ? 0 : known + 1;
        for (std::size_t k = from; k < i; ++k) {
            const double before = known == piece.size() ? out[i] : out[known];
            const double start = known == piece.size() ? piece[0].along_m : piece[known].along_m;
            const double span = piece[i].along_m - start;
            const double share = span > 0 ? (piece[k].along_m - start) / span : 0;
            out[k] = before + share * (out[i] - before);
        }
        known = i;
    }
    if (known != piece.size())
        std::fill(out.begin() + static_cast<std::ptrdiff_t>(known), out.end(), out[known]);
    return out;
}

std::vector<Node> resampled(const Piece& piece, const std::vector<double>& heights, int steps) {
    std::vector<Node> nodes;
    const double start = piece.front().along_m, length = piece.back().along_m - start;
    std::size_t at = 0;
    for (int k = 0; k <= steps; ++k) {
        const double along = k == steps ? piece.back().along_m : start + length * k / steps;
        while (at + 2 < piece.size() && piece[at + 1].along_m < along)
            ++at;
        const auto &a = piece[at], &b = piece[at + 1];
        const double span = b.along_m - a.along_m;
        const double share = span > 0 ? std::clamp((along - a.along_m) / span, 0.0, 1.0) : 0.0;
        const double east = std::remainder(b.lon_deg - a.lon_deg, 360.0); // over the date line too
        nodes.push_back({a.lat_deg + share * (b.lat_deg - a.lat_deg), a.lon_deg + share * east,
                         heights[at] + share * (heights[at + 1] - heights[at])});
    }
    return nodes;
}

double angle_between(double a_deg, double b_deg) {
    return std::abs(std::remainder(a_deg - b_deg, 360.0));
}

void set_directions(const std::vector<Node>& nodes, std::vector<CourseStep>& steps) {
    constexpr double no_direction_m = 1;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto &a = nodes[i], &b = nodes[i + 1];
        const bool clear = great_circle_m(a.lat_deg, a.lon_deg, b.lat_deg, b.lon_deg) > no_direction_m;
        steps[i].heading_deg = clear || i == 0 ? heading_deg(a.lat_deg, a.lon_deg, b.lat_deg, b.lon_deg)
                                               : steps[i - 1].heading_deg;
    }
    for (std::size_t i = 1; i + 1 < steps.size(); ++i)
        steps[i].turn_deg = angle_between(steps[i + 1].heading_deg, steps[i - 1].heading_deg);
}

void note_steepest(const std::vector<double>& heights, double step, Course& course) {
    const int reach = std::max(1, static_cast<int>(std::lround(100 / step)));
    for (std::size_t i = static_cast<std::size_t>(reach); i < heights.size(); ++i) {
        const double grade = (heights[i] - heights[i - static_cast<std::size_t>(reach)]) / (reach * step);
        course.steepest_up = std::max(course.steepest_up, grade);
        course.steepest_down = std::max(course.steepest_down, -grade);
    }
}

void add_piece(const Piece& piece, int mean_reach, Course& course) {
    const double fallback_m = course.steps.empty() ? 0 : course.steps.back().height_m;
    const auto raw = course.heights_known ? heights_of(piece, fallback_m) : std::vector(piece.size(), 0.0);
    const double length = piece.back().along_m - piece.front().along_m;
    const int count = std::max(1, static_cast<int>(std::ceil(length / step_m - 1e-9)));
    const auto nodes = resampled(piece, raw, count);
    std::vector<double> heights;
    for (const auto& node : nodes)
        heights.push_back(node.height_m);
    heights = running_mean(running_median(heights, 2), mean_reach);
    std::vector<CourseStep> steps(static_cast<std::size_t>(count));
    for (std::size_t i = 0; i < steps.size(); ++i) {
        steps[i].length_m = length / count;
        steps[i].height_m = heights[i + 1];
        steps[i].grade =
            std::clamp((heights[i + 1] - heights[i]) / steps[i].length_m, -steepest_grade, steepest_grade);
    }
    set_directions(nodes, steps);
    note_steepest(heights, length / count, course);
    const auto climb = climb_of(heights, counted_rise_m);
    course.climb.up_m += climb.up_m;
    course.climb.down_m += climb.down_m;
    course.climb.raw_up_m += climb_of(raw, counted_rise_m).raw_up_m;
    course.length_m += length;
    course.steps.insert(course.steps.end(), steps.begin(), steps.end());
}

void judge_heights(const Track& track, Course& course) {
    std::size_t points = 0, unknown = 0;
    for (const auto& piece : track.pieces) {
        points += piece.size();
        unknown += static_cast<std::size_t>(
            std::count_if(piece.begin(), piece.end(), [](const TrackPoint& p) { return !p.height_m; }));
    }
    course.heights_known =
        points > 0 && static_cast<double>(unknown) <= most_unknown_heights * static_cast<double>(points);
    if (!course.heights_known)
        course.notes.push_back(unknown == points
                                   ? "The file holds no heights: the course is taken as flat."
                                   : fmt::format("{} of {} points have no height, more than half: the course "
                                                 "is taken as flat.",
                                                 unknown, points));
    else if (unknown > 0)
        course.notes.push_back(
            fmt::format("{} of {} points have no height: filled in by straight lines.", unknown, points));
}

} // namespace

} // namespace effort

Course course_of(const Track& track, Sport sport) {
    using namespace effort;
    Course course;
    course.notes = track.notes;
    judge_heights(track, course);
    const int mean_m = sport == Sport::run ? 50 : 100;
    for (const auto& piece : track.pieces)
        if (piece.size() > 1 && piece.back().along_m > piece.front().along_m)
            add_piece(piece, static_cast<int>(mean_m / step_m / 2), course);
    course.climb.method = fmt::format("heights every {:g} m, median of 5, mean over {} m, rises from {:g} m",
                                      step_m, mean_m, counted_rise_m);
    double sum = 0;
    for (const auto& step : course.steps)
        sum += step.height_m * step.length_m;
    course.mean_height_m = course.length_m > 0 ? sum / course.length_m : 0;
    return course;
}

} // namespace tuck
