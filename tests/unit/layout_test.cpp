// Text in columns: widths in characters, lines that fit.
#include "say/plan_words.hpp"
#include "stage_examples.hpp"
#include "text/layout.hpp"
#include "text/plan_text.hpp"

#include <catch2/catch.hpp>
#include <sstream>

using namespace tuck;
using namespace tuck::example;

TEST_CASE("width counts characters of UTF-8, not bytes", "[layout]") {
    CHECK(faces::width_of("") == 0);
    CHECK(faces::width_of("gel") == 3);
    CHECK(faces::width_of("Zoë") == 3);          // 2 bytes for one letter
    CHECK(faces::width_of("\xe2\x82\xac") == 1); // euro sign, 3 bytes
}

TEST_CASE("wrapped lines fit and lose no word", "[layout]") {
    const std::string text =
        "Drink to thirst, and never so much that you weigh more at the finish than before.";
    for (const std::size_t columns : {12u, 20u, 40u, 80u}) {
        std::string joined;
        for (const auto& line : faces::wrap(text, columns)) {
            CHECK(faces::width_of(line) <= columns);
            joined += (joined.empty() ? "" : " ") + line;
        }
        CHECK(joined == text);
    }
}

TEST_CASE("a hanging indent", "[layout]") {
    const auto lines = faces::wrap("one two three four", 10, "- ");
    REQUIRE(lines.size() == 3);
    CHECK(lines[0] == "- one two");
    CHECK(lines[1] == "  three");
    CHECK(lines[2] == "  four");
}

TEST_CASE("a word longer than the line is cut between characters", "[layout]") {
    for (const auto& line : faces::wrap("ëëëëëëëëëëëëëëëëëëëë", 6)) {
        CHECK(faces::width_of(line) <= 6);
        CHECK((static_cast<unsigned char>(line.front()) & 0xc0u) != 0x80u);
    }
    CHECK(faces::wrap("", 10).size() == 1);
}

TEST_CASE("padding", "[layout]") {
    CHECK(faces::padded("ab", 4) == "ab  ");
    CHECK(faces::padded("ab", 4, true) == "  ab");
    CHECK(faces::padded("ë", 3) == "ë  ");
    CHECK(faces::padded("abcd", 2) == "abcd");
}

TEST_CASE("times as people write them", "[layout]") {
    CHECK(faces::time_text(0) == "0:00");
    CHECK(faces::time_text(59.6) == "1:00");
    CHECK(faces::time_text(754) == "12:34");
    CHECK(faces::time_text(3599.7) == "1:00:00");
    CHECK(faces::time_text(7265) == "2:01:05");
}

TEST_CASE("a long name does not widen the plan", "[layout]") {
    Athlete a = athlete(70, Level::keen);
    a.name = std::string(60, 'W');
    Event event = race("middle", 30);
    event.name = "Ünïcödé " + std::string(52, 'X');
    std::istringstream text(faces::plan_text(compose_plan(a, event, pantry())));
    for (std::string line; std::getline(text, line);)
        CHECK(faces::width_of(line) <= 80);
}
