// The card in words, for screen readers.
#include "card/card_text.hpp"

#include "card_plans.hpp"
#include "say/line_words.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

using namespace tuck;
using namespace tuck::faces;
using Catch::Matchers::Contains;

TEST_CASE("The text form says the same in at most 60 columns", "[card]") {
    for (const Plan& plan : example::all()) {
        const std::string text = card_text(plan);
        std::istringstream lines(text);
        std::string one_line;
        for (std::string line; std::getline(lines, line);) {
            const auto columns = std::count_if(line.begin(), line.end(),
                                               [](unsigned char byte) { return (byte & 0xC0) != 0x80; });
            CHECK(columns <= 60);
            const std::size_t start = line.find_first_not_of(' ');
            one_line += ' ';
            one_line += start == std::string::npos ? "" : line.substr(start);
        }
        for (const Line& line : plan.lines)
            CHECK(example::count(one_line, "- " + say::when(line) + ": " + say::what(line) + " ") == 1);
        for (const IfThen& help : plan.if_then)
            CHECK_THAT(one_line, Contains(help.when + ": " + help.text));
        CHECK_THAT(one_line,
                   Contains(plan.stop_line) && Contains("not medical advice") && Contains("bib 417"));
    }
    CHECK_THAT(card_text(example::sprint()), Contains("NO FOOD NEEDED on the course"));
}
