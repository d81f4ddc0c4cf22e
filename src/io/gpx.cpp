#include "io/gpx.hpp"

#include "base/numbers.hpp"
#include "base/sphere.hpp"
#include "io/fault.hpp"
#include "io/file_kind.hpp"
#include "io/files.hpp"
#include "io/json_reader.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstring>
#include <exception>
#include <expat.h>
#include <fmt/format.h>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string_view>

namespace tuck::io {

namespace {

constexpr double far_jump_m = 2000, far_jump_spacings = 50; // our choice
constexpr double lowest_m = -500, highest_m = 9000;         // land, with room for a bad sensor
constexpr double nearest_m = 1; // points of a recorder that stand nearer say nothing more about a road
constexpr std::size_t most_points = 1'200'000, deepest = 1000; // our choice: bounds on memory

/// The name without its prefix: "gpx:trk" is "trk".
std::string_view local_name(std::string_view name) {
    const auto colon = name.find(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

std::string_view trimmed(std::string_view text) {
    constexpr auto blank = " \t\r\n";
    const auto first = text.find_first_not_of(blank);
    return first == std::string_view::npos ? ""
                                           : text.substr(first, text.find_last_not_of(blank) - first + 1);
}

std::string plain(std::string_view text) {
    const std::string out(trimmed(text));
    return out.size() <= 200 && is_plain_text(out) ? out : "";
}

/// Points of one kind of line, in segments that are repaired as they close.
class Lines {
public:
    explicit Lines(const std::string& file) : file_(file) {}

    void add(const TrackPoint& next) {
        ++points;
        const double step = points_.empty() ? 0 : apart_m(last_, next);
        last_ = next;
        along_m_ += step;
        if (!points_.empty() && along_m_ - points_.back().along_m < nearest_m) {
            if (step == 0 && !points_.back().height_m)
                points_.back().height_m = next.height_m;
            return; // standing still, or nearly
        }
        if (kept_ + points_.size() >= most_points)
            throw InputError(
                file_, "",
                fmt::format("holds over {} points that stand apart; allowed are courses up to {:g} km",
                            most_points, longest_course_m / 1000));
        points_.push_back(next);
        points_.back().along_m = along_m_;
    }

    void close_segment() {
        if (!points_.empty() && along_m_ > points_.back().along_m) { // the last point, however near
            points_.push_back(last_);
            points_.back().along_m = along_m_;
        }
        part_at_jumps();
        kept_ += points_.size();
        points_.clear();
        along_m_ = 0;
    }

    Track track;
    std::size_t points = 0, lone = 0;

private:
    static double apart_m(const TrackPoint& a, const TrackPoint& b) {
        return great_circle_m(a.lat_deg, a.lon_deg, b.lat_deg, b.lon_deg);
    }

    double usual_spacing_m() const {
        std::vector<double> steps;
        for (std::size_t i = 1; i < points_.size(); ++i)
            steps.push_back(points_[i].along_m - points_[i - 1].along_m);
        if (steps.empty())
            return 0;
        const auto middle = steps.begin() + std::ssize(steps) / 2;
        std::nth_element(steps.begin(), middle, steps.end());
        return *middle;
    }

    void part_at_jumps() {
        const double jump_m = std::max(far_jump_m, far_jump_spacings * usual_spacing_m());
        std::vector<TrackPoint> piece;
        double before_m = 0;
        for (auto point : points_) {
            const double step = piece.empty() ? 0 : point.along_m - before_m;
            before_m = point.along_m;
            if (step > jump_m) {
                track.notes.push_back(fmt::format(
                    "A jump of {:.1f} km after {:.1f} km: not counted, the two sides do not join.",
                    step / 1000, track.length_m / 1000));
                keep(piece);
                piece.clear();
            } else {
                track.length_m += step;
            }
            point.along_m = track.length_m;
            piece.push_back(point);
        }
        keep(piece);
    }

    void keep(std::vector<TrackPoint>& piece) {
        if (piece.size() > 1)
            track.pieces.push_back(std::move(piece));
        else if (!piece.empty())
            ++lone;
    }

    const std::string& file_;
    std::vector<TrackPoint> points_; // of the open segment; `along_m` counts jumps too
    TrackPoint last_;
    double along_m_ = 0;
    std::size_t kept_ = 0;
};

class Reader {
public:
    explicit Reader(const std::string& file)
        : file_(file), parser_(XML_ParserCreate(nullptr), XML_ParserFree), tracks_(file), routes_(file) {
        if (!parser_)
            throw std::bad_alloc();
        XML_SetUserData(parser_.get(), this);
        XML_SetElementHandler(parser_.get(), on_start, on_end);
        XML_SetCharacterDataHandler(parser_.get(), on_text);
        XML_SetStartDoctypeDeclHandler(parser_.get(), on_doctype);
    }

    void take(std::string_view bytes, bool last = false) {
        if (const auto meant = first_ ? meant_for(bytes, "a GPX course") : std::string();
            !meant.empty() && meant.find("XML") == std::string::npos)
            fail("", meant);
        first_ = false;
        if (bytes.find('\0') != std::string_view::npos)
            fail("", "is not UTF-8 text; save it as GPX 1.1 in UTF-8");
        const auto status = XML_Parse(parser_.get(), bytes.data(), static_cast<int>(bytes.size()), last);
        if (failure_)
            std::rethrow_exception(failure_);
        if (status != XML_STATUS_OK)
            fail(place(), XML_GetErrorCode(parser_.get()) == XML_ERROR_NO_ELEMENTS
                              ? "ends before the course does"
                              : "is not valid XML here: a bracket or a tag is missing, or one is too many");
    }

    Track track() {
        take("", true);
        Lines& lines = tracks_.points > 0 ? tracks_ : routes_;
        if (lines.points == 0)
            fail("", "holds no track (trk, trkseg, trkpt) and no route (rte, rtept)");
        if (backwards_at_)
            lines.track.notes.insert(lines.track.notes.begin(),
                                     fmt::format("The times run backwards at line {}: times are not used, "
                                                 "the order of the points is the course.",
                                                 *backwards_at_));
        note_lone_points(lines);
        check_length(lines);
        lines.track.name = line_name_.empty() ? file_name_ : line_name_;
        return std::move(lines.track);
    }

private:
    [[noreturn]] void fail(const std::string& place, const std::string& what) const {
        throw InputError(file_, place, what);
    }
    XML_Size line() const { return XML_GetCurrentLineNumber(parser_.get()); }
    std::string place() const { return fmt::format("line {}", line()); }

    // The library is C: nothing may be thrown through it.
    template <typename Work>
    void guarded(const Work& work) {
        if (failure_)
            return;
        try {
            work();
        } catch (...) {
            failure_ = std::current_exception();
            XML_StopParser(parser_.get(), XML_FALSE);
        }
    }
    static void on_start(void* self, const char* name, const char** attributes) {
        auto& reader = *static_cast<Reader*>(self);
        reader.guarded([&] { reader.start(local_name(name), attributes); });
    }
    static void on_end(void* self, const char*) {
        auto& reader = *static_cast<Reader*>(self);
        reader.guarded([&] { reader.end(); });
    }
    static void on_text(void* self, const char* text, int size) {
        auto& reader = *static_cast<Reader*>(self);
        reader.guarded([&] { reader.text(std::string_view(text, static_cast<std::size_t>(size))); });
    }
    static void on_doctype(void* self, const char*, const char*, const char*, int) {
        auto& reader = *static_cast<Reader*>(self);
        reader.guarded(
            [&] { reader.fail(reader.place(), "holds a DOCTYPE; a course file needs none: remove it"); });
    }

    /// What an element means where it stands. Everything below `other` is passed over.
    enum class In { gpx, metadata, line, segment, route, point, file_name, line_name, height, time, other };

    In meaning(std::string_view name) const {
        switch (path_.back()) {
        case In::gpx:
            return name == "trk"        ? In::line
                   : name == "rte"      ? In::route
                   : name == "metadata" ? In::metadata
                                        : In::other;
        case In::metadata:
            return name == "name" ? In::file_name : In::other;
        case In::line:
            return name == "trkseg" ? In::segment : name == "name" ? In::line_name : In::other;
        case In::route:
            return name == "rtept" ? In::point : name == "name" ? In::line_name : In::other;
        case In::segment:
            return name == "trkpt" ? In::point : In::other;
        case In::point:
            return name == "ele" ? In::height : name == "time" ? In::time : In::other;
        default:
            return In::other;
        }
    }

    void start(std::string_view name, const char** attributes) {
        if (path_.empty()) {
            if (name != "gpx")
                fail(place(), fmt::format("is no GPX file: its root is \"{}\"; allowed \"gpx\"",
                                          plain(name).substr(0, 40)));
            path_.push_back(In::gpx);
            return;
        }
        if (path_.size() >= deepest)
            fail(place(), fmt::format("holds over {} elements within each other", deepest));
        path_.push_back(meaning(name));
        text_.clear();
        if (path_.back() == In::point)
            start_point(attributes);
    }

    void start_point(const char** attributes) {
        const auto attribute = [attributes](const char* name) {
            for (const char** at = attributes; *at; at += 2)
                if (std::strcmp(at[0], name) == 0)
                    return std::string_view(at[1]);
            return std::string_view();
        };
        point_ = {};
        point_.lat_deg = number("lat", attribute("lat"), -90, 90, "degrees");
        point_.lon_deg = number("lon", attribute("lon"), -180, 180, "degrees");
    }

    void text(std::string_view more) {
        constexpr std::size_t longest = 1000; // of what is read: names, heights, times
        const In in = path_.empty() ? In::other : path_.back();
        const bool read = in == In::file_name || in == In::line_name || in == In::height || in == In::time;
        if (read && text_.size() < longest)
            text_.append(more.substr(0, longest));
    }

    void end() {
        const In ended = path_.back();
        path_.pop_back();
        const auto said = trimmed(text_);
        if (ended == In::file_name && file_name_.empty())
            file_name_ = plain(said);
        else if (ended == In::line_name && line_name_.empty())
            line_name_ = plain(said);
        else if (ended == In::height && !said.empty())
            point_.height_m = number("ele", said, lowest_m, highest_m, "m");
        else if (ended == In::time)
            watch_time(said);
        else if (ended == In::point)
            (path_.back() == In::route ? routes_ : tracks_).add(point_);
        else if (ended == In::segment)
            tracks_.close_segment();
        else if (ended == In::route)
            routes_.close_segment();
        text_.clear();
    }

    double number(const char* name, std::string_view text, double low, double high, const char* unit) const {
        double value = std::nan("");
        if (text.size() > 1 && text[0] == '+' && text[1] != '-')
            text.remove_prefix(1);
        const auto [end, error] = tuck::from_chars(text.data(), text.data() + text.size(), value);
        if (error == std::errc() && end == text.data() + text.size() && value >= low && value <= high)
            return value + 0.0;
        const auto shown = is_plain_text(std::string(text)) ? std::string(text.substr(0, 30)) : "?";
        fail(place(), text.empty()
                          ? fmt::format("{} is missing; allowed {:g} to {:g} {}", name, low, high, unit)
                          : fmt::format("{} \"{}\" is not a number in range; allowed {:g} to {:g} {}", name,
                                        shown, low, high, unit));
    }

    /// ISO 8601 in UTC sorts as text where the lengths agree.
    void watch_time(std::string_view time) {
        if (!backwards_at_ && time.size() == last_time_.size() && time < last_time_)
            backwards_at_ = line();
        last_time_ = time;
    }

    static void note_lone_points(Lines& lines) {
        if (lines.lone > 0 && !lines.track.pieces.empty())
            lines.track.notes.push_back(
                fmt::format("{} that belong{} to no line {} left out.",
                            lines.lone == 1 ? "1 point" : fmt::format("{} points", lines.lone),
                            lines.lone == 1 ? "s" : "", lines.lone == 1 ? "was" : "were"));
    }

    void check_length(const Lines& lines) const {
        const std::string allowed =
            fmt::format("allowed {:g} m to {:g} km", shortest_course_m, longest_course_m / 1000);
        if (lines.points < 2)
            fail("", "holds one point; a course needs at least two points apart");
        if (lines.track.length_m < shortest_course_m)
            fail("", fmt::format("is a course of {:.0f} m; {}", lines.track.length_m, allowed));
        if (lines.track.length_m > longest_course_m)
            fail("", fmt::format("is a course of {:.0f} km; {}", lines.track.length_m / 1000, allowed));
    }

    const std::string& file_;
    std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> parser_;
    std::exception_ptr failure_;
    bool first_ = true;
    std::vector<In> path_;
    std::string text_;
    Lines tracks_, routes_;
    TrackPoint point_;
    std::string file_name_, line_name_, last_time_;
    std::optional<XML_Size> backwards_at_;
};

} // namespace

Track parse_gpx(const std::string& text, const std::string& file) {
    constexpr std::size_t piece = 1u << 20;
    Reader reader(file);
    for (std::size_t at = 0; at < text.size(); at += piece)
        reader.take(std::string_view(text).substr(at, piece));
    return reader.track();
}

Track read_gpx(const std::string& path) {
    Reader reader(path);
    read_pieces(path, largest_gpx_file, [&reader](std::string_view piece) { reader.take(piece); });
    return reader.track();
}

} // namespace tuck::io
