// Breaking text into lines: no word lost, no line too wide.
#include "paper/text_fit.hpp"

#include <catch2/catch.hpp>

using namespace tuck::faces;
using Lines = std::vector<std::string>;

TEST_CASE("Lines break at spaces and are never wider than asked", "[text_fit]") {
    CHECK(wrap("every 20 minutes half a bar", 10, columns) == Lines{"every 20", "minutes", "half a bar"});
    CHECK(wrap("", 10, columns).empty());
    CHECK(wrap("  two   words ", 20, columns) == Lines{"two words"});
}

TEST_CASE("The first line can be shorter", "[text_fit]") {
    CHECK(wrap("skip it, next one", 10, columns, 4) == Lines{"skip", "it, next", "one"});
    CHECK(wrap("unfitting word", 10, columns, 6) == Lines{"", "unfitting", "word"});
}

TEST_CASE("A word wider than the line is broken with a hyphen, at its own hyphen where it has one",
          "[text_fit]") {
    CHECK(wrap("abcdefghij", 5, columns) == Lines{"abcd-", "efgh-", "ij"});
    CHECK(wrap("Żukowska-Őrsi", 10, columns) == Lines{"Żukowska-", "Őrsi"});
    CHECK(wrap("ŻŻŻŻ", 3, columns) == Lines{"ŻŻ-", "ŻŻ"});
    CHECK_THROWS(wrap("ab", 1, columns));
}

TEST_CASE("Cut text ends in an ellipsis and in a whole letter", "[text_fit]") {
    CHECK(cut("Zoë", 3, columns) == "Zoë");
    CHECK(cut("Őrsi Zoë", 5, columns) == "Őrsi…");
    CHECK(cut("Őrsi Zoë", 6, columns) == "Őrsi…");
    CHECK(wrap_at_most(2, "one two three four", 5, columns) == Lines{"one", "two…"});
    CHECK(wrap_at_most(2, "one two", 5, columns) == Lines{"one", "two"});
}
