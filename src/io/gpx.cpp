#include "io/gpx.hpp"

#include "base/sphere.hpp"
#include "io/fault.hpp"
#include "io/files.hpp"
#include "io/json_reader.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstring>
#include <fmt/format.h>
#include <optional>
#include <pugixml.hpp>
#include <string_view>
#include <nlohmann/json.hpp>

namespace tuck::io {

namespace {

constexpr double far_jump_m = 2000, far_jump_spacings = 50; // our choice
constexpr double lowest_m = -500, highest_m = 9000;         // land, with room for a bad sensor

/// The name without its prefix: "gpx:trk" is "trk".
std::string_view local_name(const pugi::xml_node& node) {
    const std::string_view name = node.name();
    const auto colon = name.find(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

class Reader {
public:
    Reader(const std::string& text, const std::string& file) : text_(text), file_(file) {}

    Track read() {
        const auto root = parse();
        read_lines(root, "trk");
        if (segments_.empty())
            read_lines(root, "rte");
        if (segments_.empty())
            fail("", "holds no track (trk, trkseg, trkpt) and no route (rte, rtept)");
        if (track_.name.empty())
            track_.name = plain(root.child("metadata").child_value("name"));
        note_times();
        for (auto& segment : segments_)
            part_at_jumps(segment);
        note_lone_points();
        check_length();
        return std::move(track_);
    }

private:
    [[noreturn]] void fail(const std::string& place, const std::string& what) const {
        throw InputError(file_, place, what);
    }

    std::size_t line_at(std::ptrdiff_t byte) const {
        const auto end = text_.begin() + std::clamp<std::ptrdiff_t>(byte, 0, std::ssize(text_));
        return 1 + static_cast<std::size_t>(std::count(text_.begin(), end, '\n'));
    }
    std::string place(std::ptrdiff_t byte) const { return fmt::format("line {}", line_at(byte)); }
    std::string place(const pugi::xml_node& node) const { return place(node.offset_debug()); }

    static std::string plain(const char* text) {
        return is_plain_text(text) && std::strlen(text) <= 200 ? text : "";
    }

    pugi::xml_node parse() {
        if (text_.find('\0') != std::string::npos)
            fail("", "is not UTF-8 text; save it as GPX 1.1 in UTF-8");
        constexpr unsigned keep = pugi::parse_minimal | pugi::parse_escapes | pugi::parse_cdata |
                                  pugi::parse_doctype | pugi::parse_trim_pcdata;
        const auto result =
            document_.load_buffer(text_.data(), text_.size(), keep, pugi::xml_encoding::encoding_utf8);
        // The reader stops at the first fault: a DOCTYPE before it is the cause worth telling.
        const bool doctype = std::any_of(document_.begin(), document_.end(), [](const pugi::xml_node& node) {
            return node.type() == pugi::node_doctype;
        });
        if (doctype || result.status == pugi::status_bad_doctype)
            fail(place(static_cast<std::ptrdiff_t>(text_.find("<!DOCTYPE"))),
                 "holds a DOCTYPE; a course file needs none: remove it");
        if (!result)
            fail(place(result.offset), fmt::format("is not valid XML: {}", lower(result.description())));
        const auto root = document_.document_element();
        if (local_name(root) != "gpx")
            fail(place(root), fmt::format("is no GPX file: its root is \"{}\"; allowed \"gpx\"",
                                          std::string(plain(root.name())).substr(0, 40)));
        return root;
    }

    static std::string lower(std::string text) {
        if (!text.empty() && text[0] >= 'A' && text[0] <= 'Z')
            text[0] = static_cast<char>(text[0] - 'A' + 'a');
        return text;
    }

    double number(const pugi::xml_node& at, const char* name, std::string_view text, double low, double high,
                  const char* unit) const {
        double value = std::nan("");
        if (text.size() > 1 && text[0] == '+' && text[1] != '-')
            text.remove_prefix(1);
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
        if (error == std::errc() && end == text.data() + text.size() && value >= low && value <= high)
            return value + 0.0;
        const auto shown = is_plain_text(std::string(text)) ? std::string(text.substr(0, 30)) : "?";
        fail(place(at), text.empty()
                            ? fmt::format("{} is missing; allowed {:g} to {:g} {}", name, low, high, unit)
                            : fmt::format("{} \"{}\" is not a number in range; allowed {:g} to {:g} {}", name,
                                          shown, low, high, unit));
    }

    TrackPoint point(const pugi::xml_node& node) {
        TrackPoint out;
        out.lat_deg = number(node, "lat", node.attribute("lat").value(), -90, 90, "degrees");
        out.lon_deg = number(node, "lon", node.attribute("lon").value(), -180, 180, "degrees");
        for (const auto& child : node.children()) {
            const auto name = local_name(child);
            if (name == "ele" && *child.child_value())
                out.height_m = number(child, "ele", child.child_value(), lowest_m, highest_m, "m");
            else if (name == "time")
                watch_time(child);
        }
        ++points_;
        return out;
    }

    /// ISO 8601 in UTC sorts as text where the lengths agree.
    void watch_time(const pugi::xml_node& node) {
        const std::string_view time = node.child_value();
        if (!backwards_at_ && time.size() == last_time_.size() && time < last_time_)
            backwards_at_ = node.offset_debug();
        last_time_ = time;
    }

    void read_points(const pugi::xml_node& parent, const char* name) {
        std::vector<TrackPoint> segment;
        for (const auto& node : parent.children())
            if (local_name(node) == name)
                segment.push_back(point(node));
        if (!segment.empty())
            segments_.push_back(std::move(segment));
    }

    void read_lines(const pugi::xml_node& root, const char* kind) {
        for (const auto& line : root.children()) {
            if (local_name(line) != kind)
                continue;
            for (const auto& child : line.children()) {
                if (local_name(child) == "trkseg")
                    read_points(child, "trkpt");
                else if (local_name(child) == "name" && track_.name.empty())
                    track_.name = plain(child.child_value());
            }
            if (std::string_view(kind) == "rte")
                read_points(line, "rtept");
        }
    }

    static double apart_m(const TrackPoint& a, const TrackPoint& b) {
        return great_circle_m(a.lat_deg, a.lon_deg, b.lat_deg, b.lon_deg);
    }

    void part_at_jumps(const std::vector<TrackPoint>& segment) {
        std::vector<double> steps;
        for (std::size_t i = 1; i < segment.size(); ++i)
            if (const double step = apart_m(segment[i - 1], segment[i]); step > 0)
                steps.push_back(step);
        double usual_m = 0;
        if (!steps.empty()) {
            const auto middle = steps.begin() + std::ssize(steps) / 2;
            std::nth_element(steps.begin(), middle, steps.end());
            usual_m = *middle;
        }
        const double jump_m = std::max(far_jump_m, far_jump_spacings * usual_m);
        std::vector<TrackPoint> piece;
        for (const auto& next : segment) {
            const double step = piece.empty() ? 0 : apart_m(piece.back(), next);
            if (step > jump_m) {
                track_.notes.push_back(fmt::format(
                    "A jump of {:.1f} km after {:.1f} km: not counted, the two sides do not join.",
                    step / 1000, track_.length_m / 1000));
                keep(piece);
                piece.clear();
            } else if (!piece.empty() && step == 0) {
                if (!piece.back().height_m)
                    piece.back().height_m = next.height_m;
                continue; // standing still
            } else {
                track_.length_m += step;
            }
            piece.push_back(next);
            piece.back().along_m = track_.length_m;
        }
        keep(piece);
    }

    void keep(std::vector<TrackPoint>& piece) {
        if (piece.size() > 1)
            track_.pieces.push_back(std::move(piece));
        else
            ++lone_;
    }

    void note_times() {
        if (backwards_at_)
            track_.notes.push_back(fmt::format(
                "The times run backwards at {}: times are not used, the order of the points is the course.",
                place(*backwards_at_)));
    }

    void note_lone_points() {
        if (lone_ > 0 && !track_.pieces.empty())
            track_.notes.push_back(fmt::format("{} that belong{} to no line {} left out.",
                                               lone_ == 1 ? "1 point" : fmt::format("{} points", lone_),
                                               lone_ == 1 ? "s" : "", lone_ == 1 ? "was" : "were"));
    }

    void check_length() const {
        const std::string allowed =
            fmt::format("allowed {:g} m to {:g} km", shortest_course_m, longest_course_m / 1000);
        if (points_ < 2)
            fail("", "holds one point; a course needs at least two points apart");
        if (track_.length_m < shortest_course_m)
            fail("", fmt::format("is a course of {:.0f} m; {}", track_.length_m, allowed));
        if (track_.length_m > longest_course_m)
            fail("", fmt::format("is a course of {:.0f} km; {}", track_.length_m / 1000, allowed));
    }

    const std::string& text_;
    const std::string& file_;
    pugi::xml_document document_;
    std::vector<std::vector<TrackPoint>> segments_;
    Track track_;
    std::size_t points_ = 0, lone_ = 0;
    std::optional<std::ptrdiff_t> backwards_at_;
    std::string_view last_time_;
};

} // namespace

Track parse_gpx(const std::string& text, const std::string& file) {
    return Reader(text, file).read();
}

Track read_gpx(const std::string& path) {
    return parse_gpx(read_file(path, largest_gpx_file), path);
}

} // namespace tuck::io
