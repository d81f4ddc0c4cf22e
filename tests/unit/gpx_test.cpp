// GPX in: what is read, what is repaired and said, what is refused with its place.
#include "base/sphere.hpp"
#include "io/fault.hpp"
#include "io/gpx.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <string>

using namespace tuck;

namespace {

std::string gpx(const std::string& inside) {
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<gpx version=\"1.1\" creator=\"test\" "
           "xmlns=\"http://www.topografix.com/GPX/1/1\">\n" +
           inside + "\n</gpx>\n";
}

std::string point(double lat, double lon, const std::string& inside = "") {
    return fmt::format("<trkpt lat=\"{}\" lon=\"{}\">{}</trkpt>\n", lat, lon, inside);
}

std::string track(const std::string& points) {
    return gpx("<trk><trkseg>\n" + points + "</trkseg></trk>");
}

/// A straight way north, a point every 0.0002 degrees (22 m), with heights.
std::string northward(int points, double lon = 10) {
    std::string out;
    for (int i = 0; i < points; ++i)
        out += point(45 + i * 0.0002, lon, "<ele>100</ele>");
    return out;
}

std::string refusal(const std::string& text) {
    try {
        io::parse_gpx(text, "c.gpx");
    } catch (const io::InputError& error) {
        REQUIRE(error.faults.size() == 1);
        CHECK(error.faults[0].file == "c.gpx");
        return line_of(error.faults[0]);
    }
    return "accepted";
}

bool says(const Track& track, const std::string& part) {
    for (const auto& note : track.notes)
        if (note.find(part) != std::string::npos)
            return true;
    return false;
}

} // namespace

TEST_CASE("a track is as long as its great circles", "[gpx]") {
    const auto read = io::parse_gpx(track(northward(101)), "c.gpx");
    REQUIRE(read.pieces.size() == 1);
    CHECK(read.pieces[0].size() == 101);
    CHECK(read.length_m == Approx(great_circle_m(45, 10, 45.02, 10)).epsilon(1e-9));
    CHECK(read.pieces[0].back().along_m == Approx(read.length_m));
    CHECK(*read.pieces[0][5].height_m == 100);
    CHECK(read.notes.empty());
}

TEST_CASE("headings are those of the compass", "[gpx]") {
    CHECK(heading_deg(45, 10, 46, 10) == Approx(0).margin(1e-9));
    CHECK(heading_deg(0, 10, 0, 11) == Approx(90));
    CHECK(heading_deg(46, 10, 45, 10) == Approx(180));
    CHECK(heading_deg(0, 10, 0, 9) == Approx(270));
}

TEST_CASE("segments do not join across a gap", "[gpx]") {
    const auto two = gpx("<trk><name>Two</name><trkseg>" + northward(51) + "</trkseg><trkseg>" +
                         northward(51, 10.5) + "</trkseg></trk>");
    const auto read = io::parse_gpx(two, "c.gpx");
    CHECK(read.name == "Two");
    REQUIRE(read.pieces.size() == 2);
    CHECK(read.length_m == Approx(2 * great_circle_m(45, 10, 45.01, 10)).epsilon(1e-9));
    CHECK(read.pieces[1].front().along_m == read.pieces[0].back().along_m);
}

TEST_CASE("a route stands in where there is no track", "[gpx]") {
    const auto route = gpx("<rte><rtept lat=\"45\" lon=\"10\"/><rtept lat=\"45.05\" lon=\"10\"/></rte>");
    CHECK(io::parse_gpx(route, "c.gpx").length_m == Approx(great_circle_m(45, 10, 45.05, 10)));
}

TEST_CASE("prefixes, a byte-order mark, CDATA and foreign elements do no harm", "[gpx]") {
    const std::string text =
        "\xef\xbb\xbf<g:gpx xmlns:g=\"x\"><!-- hm --><g:trk><g:name><![CDATA[A & B]]></g:name><g:trkseg>"
        "<g:trkpt lat=\"45\" lon=\"10\"><ele> +12.5 </ele><extensions><y:ele "
        "xmlns:y=\"z\">x</y:ele></extensions>"
        "</g:trkpt><g:trkpt lat=\"45.01\" lon=\"10\"/></g:trkseg></g:trk></g:gpx>";
    const auto read = io::parse_gpx(text, "c.gpx");
    CHECK(read.name == "A & B");
    CHECK(*read.pieces[0][0].height_m == 12.5);
    CHECK_FALSE(read.pieces[0][1].height_m);
}

TEST_CASE("the date line is no obstacle", "[gpx]") {
    std::string points;
    for (const double lon : {179.99, 179.995, 180.0, -179.995, -179.99})
        points += point(0, lon);
    const auto read = io::parse_gpx(track(points), "c.gpx");
    CHECK(read.length_m == Approx(great_circle_m(0, 0, 0, 0.02)).epsilon(1e-6));
    CHECK(read.pieces.size() == 1);
}

TEST_CASE("a jump of 10 km parts the track and is said", "[gpx]") {
    // One stray point far away: both of its sides are kept, the way to it and back is not counted.
    const auto read = io::parse_gpx(track(northward(51) + point(45.1, 10.1) + northward(51)), "c.gpx");
    CHECK(read.pieces.size() == 2);
    CHECK(read.length_m == Approx(2 * great_circle_m(45, 10, 45.01, 10)).epsilon(1e-9));
    CHECK(says(
        read, fmt::format("A jump of {:.1f} km after 1.1 km", great_circle_m(45.01, 10, 45.1, 10.1) / 1000)));
    CHECK(says(read, "1 point that belongs to no line was left out"));
}

TEST_CASE("a drawn course of long straights is no jump", "[gpx]") {
    const auto read =
        io::parse_gpx(track(point(45, 10) + point(45.05, 10) + point(45.1, 10) + point(45.2, 10)), "c.gpx");
    CHECK(read.pieces.size() == 1);
    CHECK(read.notes.empty());
}

TEST_CASE("standing still adds no way", "[gpx]") {
    const auto read = io::parse_gpx(
        track(point(45, 10) + point(45, 10, "<ele>7</ele>") + point(45, 10) + point(45.01, 10)), "c.gpx");
    CHECK(read.pieces[0].size() == 2);
    CHECK(*read.pieces[0][0].height_m == 7);
}

TEST_CASE("times that run backwards are said and not used", "[gpx]") {
    const auto at = [](double lat, const char* time) {
        return point(lat, 10, fmt::format("<time>{}</time>", time));
    };
    const auto read =
        io::parse_gpx(track(at(45, "2027-05-01T10:00:00Z") + at(45.001, "2027-05-01T09:59:00Z") +
                            at(45.002, "2027-05-01T10:01:00Z")),
                      "c.gpx");
    CHECK(says(read, "The times run backwards at line 5"));
    CHECK(read.pieces[0].size() == 3);
}

TEST_CASE("what is no course is refused with its place", "[gpx]") {
    using Catch::Matchers::Contains;
    CHECK_THAT(refusal("not xml at all"), Contains("c.gpx: line 1: is not valid XML"));
    CHECK_THAT(refusal("{\"gpx\": 1}"), Contains("is JSON, not a GPX course"));
    CHECK_THAT(refusal("<html><body/></html>"), Contains("its root is \"html\"; allowed \"gpx\""));
    CHECK_THAT(refusal(gpx("<trk><trkseg>" + northward(3))), Contains("is not valid XML"));
    CHECK_THAT(refusal(std::string("\xff\xfe<\0g\0", 6)), Contains("is not UTF-8"));
    CHECK_THAT(refusal(gpx("")), Contains("holds no track (trk, trkseg, trkpt) and no route"));
    CHECK_THAT(refusal(gpx("<wpt lat=\"1\" lon=\"2\"/>")), Contains("holds no track"));
    CHECK_THAT(refusal(track("")), Contains("holds no track"));
    CHECK_THAT(refusal(track(point(45, 10))), Contains("holds one point"));
    CHECK_THAT(refusal(track(point(45, 10) + point(45, 10))), Contains("is a course of 0 m; allowed 100 m"));
    CHECK_THAT(refusal(track(point(45, 10) + point(45.0003, 10))), Contains("is a course of 33 m"));
    CHECK_THAT(refusal(track(point(45, 10) + point(56, 10))), Contains("is a course of 1223 km"));
}

TEST_CASE("a bad number is refused with its line", "[gpx]") {
    using Catch::Matchers::Contains;
    const auto with = [](const std::string& bad) { return track(northward(3) + bad); };
    CHECK_THAT(refusal(with("<trkpt lat=\"NaN\" lon=\"10\"/>")),
               Contains("c.gpx: line 7: lat \"NaN\" is not a number in range; allowed -90 to 90 degrees"));
    CHECK_THAT(refusal(with("<trkpt lat=\"inf\" lon=\"10\"/>")), Contains("lat \"inf\""));
    CHECK_THAT(refusal(with("<trkpt lat=\"90.1\" lon=\"10\"/>")), Contains("lat \"90.1\""));
    CHECK_THAT(refusal(with("<trkpt lat=\"45\" lon=\"181\"/>")), Contains("allowed -180 to 180"));
    CHECK_THAT(refusal(with("<trkpt lat=\"45,5\" lon=\"10\"/>")), Contains("lat \"45,5\""));
    CHECK_THAT(refusal(with("<trkpt lon=\"10\"/>")), Contains("lat is missing"));
    CHECK_THAT(refusal(with(point(45.1, 10, "<ele>nan</ele>"))), Contains("line 7: ele \"nan\""));
    CHECK_THAT(refusal(with(point(45.1, 10, "<ele>90000</ele>"))), Contains("allowed -500 to 9000 m"));
}

TEST_CASE("a DOCTYPE is refused, so that no entity is ever expanded", "[gpx]") {
    using Catch::Matchers::Contains;
    const std::string bomb = "<?xml version=\"1.0\"?>\n<!DOCTYPE gpx [<!ENTITY a \"ha\"><!ENTITY b "
                             "\"&a;&a;&a;&a;\">]>\n<gpx><trk><name>&b;</name></trk></gpx>";
    CHECK_THAT(refusal(bomb), Contains("c.gpx: line 2: holds a DOCTYPE"));
    CHECK_THAT(refusal("<!DOCTYPE gpx SYSTEM \"file:///etc/passwd\"><gpx/>"), Contains("holds a DOCTYPE"));
    CHECK_THAT(refusal("<!DOCTYPE gpx [<!ENTITY"), Contains("holds a DOCTYPE"));
    // An entity that nobody declared is no XML (XML 1.0, section 4.1, well-formedness: entity declared).
    CHECK_THAT(refusal(gpx("<trk><name>&b;</name><trkseg>" + northward(9) + "</trkseg></trk>")),
               Contains("line 3: is not valid XML here"));
}

TEST_CASE("a tower of elements does not topple the reader", "[gpx]") {
    const auto tower = [](int height) {
        std::string out;
        for (int i = 0; i < height; ++i)
            out += "<a>";
        return out;
    };
    CHECK_THAT(refusal(gpx(tower(200000))),
               Catch::Matchers::Contains("over 1000 elements within each other"));
    std::string closed = tower(900);
    for (int i = 0; i < 900; ++i)
        closed += "</a>";
    CHECK(io::parse_gpx(gpx(closed + "<trk><trkseg>" + northward(9) + "</trkseg></trk>"), "c.gpx")
              .pieces.size() == 1);
}

TEST_CASE("points nearer than a metre count for the way and are not kept", "[gpx]") {
    // A recorder of ten points a second: 0.00001 degrees are 1.1 m, a tenth of it 0.11 m.
    std::string points;
    for (int i = 0; i <= 20000; ++i)
        points += point(45 + i * 0.000001, 10);
    const auto read = io::parse_gpx(track(points), "c.gpx");
    CHECK(read.length_m == Approx(great_circle_m(45, 10, 45.02, 10)).epsilon(1e-6));
    REQUIRE(read.pieces.size() == 1);
    CHECK(read.pieces[0].size() < 2300);
    CHECK(read.pieces[0].back().along_m == Approx(read.length_m));
}

TEST_CASE("a million points that stand far apart are no course", "[gpx][slow]") {
    std::string points;
    for (int i = 0; i < 1'300'000; ++i)
        points += point(i % 2, i % 7);
    CHECK_THAT(refusal(track(points)), Catch::Matchers::Contains("allowed are courses up to 1000 km"));
}
