// What a ride or a run over a road looks like: its sections, and where hands are busy.
#include "effort/road.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace tuck::effort {

namespace {

// Common practice, no source.
constexpr double steep_climb = figure("road.steep_climb"), steep_descent = figure("road.steep_descent"),
                 fast_m_s = figure("road.fast_m_s"),
                 strong_crosswind_m_s = figure("road.strong_crosswind_m_s");
constexpr double steep_run = figure("road.steep_run");
constexpr double bend_deg = 60, before_bend_m = 50, after_bend_m = 25;
constexpr double shortest_gap_s = 20, shortest_clear_s = 60, shortest_busy_m = 50;

/// A place on the way: distance and time since the start.
struct Mark {
    double m = 0, s = 0;
};

std::vector<Mark> marks_of(const Road& road, const Passage& passage, double stretch) {
    std::vector<Mark> marks{{0, 0}};
    for (std::size_t i = 0; i < road.size(); ++i)
        marks.push_back({marks.back().m + road[i].length_m,
                         marks.back().s + stretch * road[i].length_m / passage.speed_m_s[i]});
    return marks;
}

Mark mark_at(const std::vector<Mark>& marks, double m) {
    const auto next = std::lower_bound(marks.begin(), marks.end(), m,
                                       [](const Mark& mark, double value) { return mark.m < value; });
    if (next == marks.begin())
        return marks.front();
    if (next == marks.end())
        return marks.back();
    const auto last = next - 1;
    const double share = next->m > last->m ? (m - last->m) / (next->m - last->m) : 0;
    return {m, last->s + share * (next->s - last->s)};
}

const char* why_busy(const RoadStep& step, double speed_m_s, Sport sport) {
    if (sport == Sport::run)
        return std::abs(step.grade) >= steep_run ? "steep slope" : nullptr;
    if (step.grade >= steep_climb)
        return "steep climb";
    if (step.grade <= -steep_descent || speed_m_s >= fast_m_s)
        return "fast descent";
    if (step.crosswind_m_s >= strong_crosswind_m_s)
        return "strong crosswind";
    return nullptr;
}

struct Busy {
    double from_m, to_m;
    std::string why;
};

std::vector<Busy> busy_places(const Road& road, const Passage& passage, Sport sport) {
    std::vector<Busy> slopes, all;
    double at = 0;
    for (std::size_t i = 0; i < road.size(); ++i) {
        const double end = at + road[i].length_m;
        if (const char* why = why_busy(road[i], passage.speed_m_s[i], sport)) {
            if (!slopes.empty() && slopes.back().why == why && at - slopes.back().to_m < 1e-6)
                slopes.back().to_m = end;
            else
                slopes.push_back({at, end, why});
        }
        if (sport == Sport::bike && road[i].turn_deg >= bend_deg)
            all.push_back({at - before_bend_m, end + after_bend_m, "sharp bend"});
        at = end;
    }
    for (const auto& slope : slopes)
        if (slope.to_m - slope.from_m >= shortest_busy_m)
            all.push_back(slope);
    std::sort(all.begin(), all.end(), [](const Busy& a, const Busy& b) { return a.from_m < b.from_m; });
    return all;
}

/// Joins what overlaps and what leaves no time between; every reason is named once.
std::vector<Stretch> joined(const std::vector<Busy>& places, const std::vector<Mark>& marks) {
    std::vector<Stretch> out;
    for (const auto& place : places) {
        const Mark from = mark_at(marks, std::max(0.0, place.from_m));
        const Mark to = mark_at(marks, std::min(marks.back().m, place.to_m));
        if (!out.empty() && from.s - out.back().to_s < shortest_gap_s) {
            auto& last = out.back();
            last.to_s = std::max(last.to_s, to.s);
            last.to_km = std::max(last.to_km, to.m / 1000);
            if (last.why.find(place.why) == std::string::npos)
                last.why += ", " + place.why;
        } else {
            out.push_back({from.s, to.s, from.m / 1000, to.m / 1000, place.why});
        }
    }
    return out;
}

std::vector<Stretch> between(const std::vector<Stretch>& busy, const Mark& end) {
    std::vector<Stretch> out;
    double from_s = 0, from_km = 0;
    const auto add = [&](double to_s, double to_km) {
        if (to_s - from_s >= shortest_clear_s)
            out.push_back({from_s, to_s, from_km, to_km, "clear"});
    };
    for (const auto& stretch : busy) {
        add(stretch.from_s, stretch.from_km);
        from_s = stretch.to_s;
        from_km = stretch.to_km;
    }
    add(end.s, end.m / 1000);
    return out;
}

std::vector<Section> sections_of(const Road& road, const Passage& passage, const std::vector<Mark>& marks,
                                 double section_m) {
    std::vector<Section> out;
    const double length = marks.back().m;
    const int count = std::max(1, static_cast<int>(std::ceil(length / section_m - 0.5)));
    std::size_t step = 0;
    for (int k = 0; k < count; ++k) {
        const double end_m = k + 1 == count ? length : (k + 1) * section_m;
        const Mark from = mark_at(marks, k * section_m), to = mark_at(marks, end_m);
        Section section{from.m / 1000, to.m / 1000, from.s, to.s, 0, 0, 0};
        double rise = 0, work = 0, time = 0;
        // A step belongs to the section in which it ends; sections are many steps long.
        for (; step < road.size() && marks[step + 1].m <= end_m + 1e-6; ++step) {
            const double seconds = marks[step + 1].s - marks[step].s;
            rise += road[step].grade * road[step].length_m;
            work += passage.power_at_w[step] * seconds;
            time += seconds;
        }
        section.grade = to.m > from.m ? rise / (to.m - from.m) : 0;
        section.speed_m_s = to.s > from.s ? (to.m - from.m) / (to.s - from.s) : 0;
        section.power_w = time > 0 ? work / time : 0;
        out.push_back(section);
    }
    return out;
}

} // namespace

CourseRide describe(const Road& road, const Passage& passage, Sport sport, double section_m, double time_s) {
    CourseRide out;
    if (road.empty() || passage.time_s <= 0)
        return out;
    const auto marks = marks_of(road, passage, time_s / passage.time_s);
    out.time_s = time_s;
    out.speed_m_s = marks.back().m / time_s;
    out.power_w = passage.power_w;
    out.sections = sections_of(road, passage, marks, section_m);
    out.busy = joined(busy_places(road, passage, sport), marks);
    out.clear = between(out.busy, marks.back());
    return out;
}

} // namespace tuck::effort
