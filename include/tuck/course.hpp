// A course as it is ridden or run: the track that was read, the road made of it, and a ride over it.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace tuck {

/// One point of a track. `along_m` is the way covered since the start; it does not grow across a gap.
struct TrackPoint {
    double lat_deg = 0; // -90..90, WGS84
    double lon_deg = 0; // -180..180
    double along_m = 0;
    std::optional<double> height_m; // above the sea
};

/// A recorded or drawn line in pieces that do not join, each of at least two points apart.
struct Track {
    std::string name;
    std::vector<std::vector<TrackPoint>> pieces;
    double length_m = 0;
    std::vector<std::string> notes; // what was repaired or left out
};

/// One short step of road.
struct CourseStep {
    double length_m = 0;
    double grade = 0;       // rise over run, -0.25..0.25
    double height_m = 0;    // at its end
    double heading_deg = 0; // clockwise from north
    double turn_deg = 0;    // change of direction over the 50 m around its start, 0..180
};

/// Climbing is bound to a method: see `method` before comparing.
struct Climb {
    double up_m = 0, down_m = 0;
    double raw_up_m = 0; // sum of every rise between the points as they were read
    std::string method;
};

/// A road made of a track: equal steps of about 25 m.
struct Course {
    double length_m = 0;
    bool heights_known = false; // false: taken as flat
    double mean_height_m = 0;
    double steepest_up = 0, steepest_down = 0; // over 100 m, rise over run, both >= 0
    Climb climb;
    std::vector<CourseStep> steps;
    std::vector<std::string> notes;
};

/// A part of a leg, as it is ridden at the median duration.
struct Section {
    double from_km = 0, to_km = 0;
    double from_s = 0, to_s = 0; // since the start of the leg
    double grade = 0;
    double speed_m_s = 0;
    double power_w = 0; // mechanical, bike only
};

/// A stretch of a leg with the reason for telling it apart.
struct Stretch {
    double from_s = 0, to_s = 0;
    double from_km = 0, to_km = 0;
    std::string why; // "steep climb", "descent", "sharp bend"
};

/// A ride or a run over a course.
struct CourseRide {
    double time_s = 0;
    double speed_m_s = 0;
    double power_w = 0; // mean over time, bike only
    std::vector<Section> sections;
    std::vector<Stretch> busy;  // hands stay on the bar: nothing is eaten or drunk here
    std::vector<Stretch> clear; // what is left between, at least a minute long
};

} // namespace tuck
