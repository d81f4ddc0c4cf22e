// What the sheet says, in order, before anybody asks where it stands: shared by paper, plain text and HTML.
#pragma once

#include "tuck/plan.hpp"

#include <string>
#include <variant>
#include <vector>

namespace tuck::faces {

struct SheetParagraph {
    std::string lead, text; // `lead` in bold; either may be empty
};

struct SheetList {
    std::vector<std::string> items;
    bool boxes = false;   // to tick
    bool running = false; // on paper one after the other, to save room
};

/// Numbers stand to the right. A column's width is its share of the sum of `shares`.
struct SheetTable {
    std::vector<std::string> heads;
    std::vector<std::vector<std::string>> rows;
    std::vector<double> shares;
    std::vector<bool> numbers;
};

/// Legs as bars over the day, feeds as marks. Paper only: the tables say the same.
struct SheetTimeline {
    struct Bar {
        std::string name;
        double from_s = 0, to_s = 0;
    };
    struct Mark {
        double at_s = 0;
        bool food = false; // else drink alone
    };
    std::vector<Bar> legs;
    std::vector<Mark> feeds;
};

/// Curves over the day, labelled at their ends. Paper only.
struct SheetCurves {
    struct Series {
        std::string name;
        std::vector<std::pair<double, double>> points; // s, value
        double width_mm = 0.3, dash_mm = 0;
    };
    std::string title, unit;
    std::vector<Series> series;
    std::vector<double> legs_start_s;
};

/// What most of the simulated days hold: panels side by side, each a band with the middle day in it; a table
/// elsewhere.
struct SheetBands {
    struct Point {
        double at_s = 0, low = 0, middle = 0, high = 0;
    };
    struct Panel {
        std::string title;
        std::vector<Point> points;
        int decimals = 0;
    };
    std::string note;
    std::vector<Panel> panels;
    std::vector<double> legs_start_s;
};

/// The bands at each start of a leg and at the finish, as a table.
SheetTable as_table(const SheetBands& bands);

/// Horizontal bars with their value written beside; a table elsewhere.
struct SheetBars {
    std::string title, unit;
    double most = 0; // full scale; 0: the largest value
    std::vector<std::pair<std::string, double>> bars;
};

/// A bar's value as it is printed: whole, "under 1" for what would round to nothing.
std::string bar_value(double value);
/// The bars as a table, for the forms without pictures.
SheetTable as_table(const SheetBars& bars);

/// Labels to cut out and stick on bottles and bags. `name` stands large: about a dozen letters.
struct SheetLabels {
    struct Label {
        std::string name, whose, text;
    };
    std::vector<Label> labels;
};

using SheetItem = std::variant<SheetParagraph, SheetList, SheetTable, SheetTimeline, SheetCurves, SheetBands,
                               SheetBars, SheetLabels>;

/// Where a section stands on paper: across the page, or in one of two columns.
enum class SheetPlace { whole, left, right, small };

/// What leaves first where paper is short, the last named first. What is `kept` never leaves.
enum class SheetWeight {
    kept,
    unmet,
    no_swim,
    assumed,
    labels,
    day,
    shop,
    pictures,
    outlook,
    bands,
    sums,
    reasons
};

struct SheetSection {
    std::string title;
    std::vector<SheetItem> items;
    SheetPlace place = SheetPlace::whole;
    bool new_page = false;
    SheetWeight weight = SheetWeight::kept;
};

struct SheetContent {
    std::string title, subtitle; // event; athlete, day, weather
    std::string foot;            // at the foot of every page
    std::string stop;            // boxed on the first page
    std::vector<SheetSection> sections;
    std::size_t most_pages =
        4; // on paper: one leaf up to a standard race, two beyond; the other forms hold all
};

/// As many of the sections as leave room; the last one says what left.
SheetContent with_sections_gone(const SheetContent& content, std::size_t gone);
/// How many may leave.
std::size_t sections_that_may_go(const SheetContent& content);

/// `no_swim`: the same day without its swim, or nullptr when there is none to leave out. Throws
/// std::runtime_error when a text of the plan cannot be printed.
SheetContent sheet_content(const Plan& plan, const Plan* no_swim = nullptr);

/// For every bottle and bag of the plan.
std::vector<SheetLabels::Label> labels_of(const Plan& plan);

/// Every number with its reasons and sources, grouped as people would ask for them.
SheetSection sheet_reasons(const Plan& plan);

/// What the simulated days hold, how often what may happen, and sweat and weather by leg.
std::vector<SheetSection> sheet_outlook(const Plan& plan);

/// "air 24 °C, wind 3 m/s".
std::string weather_text(const Weather& weather, Units units);

} // namespace tuck::faces
