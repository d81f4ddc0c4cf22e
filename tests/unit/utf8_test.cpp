// Text as UTF-8: the edges of RFC 3629, and what a terminal may be sent.
#include "base/utf8.hpp"
#include "io/fault.hpp"

#include <catch2/catch.hpp>

using namespace tuck;
using Catch::Contains;

TEST_CASE("UTF-8 is that of RFC 3629", "[utf8]") {
    CHECK(code_points("a\xc3\xa9\xe2\x82\xac\xf0\x9d\x84\x9e") ==
          std::vector<char32_t>{'a', 0xe9, 0x20ac, 0x1d11e});
    // Overlong forms, surrogates, beyond U+10FFFF, cut short (sections 3 and 4).
    for (const char* bad :
         {"\xc0\x80", "\xe0\x80\x80", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xe2\x82", "\x80", "\xff"}) {
        CHECK_FALSE(is_plain_text(bad));
        CHECK_THROWS_WITH(code_points(std::string("ab") + bad), Contains("not UTF-8 at byte 3"));
    }
    CHECK(characters("\xc3\xa9t\xc3\xa9") == 3);
    CHECK(first_characters("\xc3\xa9t\xc3\xa9", 1) == "\xc3\xa9");
    CHECK(first_characters("ab", 5) == "ab");
}

TEST_CASE("2026-11 names that turn the direction of writing are refused, names of all scripts are not",
          "[utf8]") {
    CHECK_FALSE(is_plain_text("Bob\xe2\x80\xae"
                              "gpj.exe"));       // U+202E
    CHECK_FALSE(is_plain_text("\xe2\x81\xa6x")); // U+2066
    CHECK_FALSE(is_plain_text("a\xe2\x80\xa8"
                              "b")); // U+2028
    CHECK_FALSE(is_plain_text("a\x1b[31m"));
    CHECK_FALSE(is_plain_text("a\xc2\x9b"));
    CHECK(is_plain_text("Zo\xc3\xab \xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d \xe0\xa4\xa8\xe0\xa4\xae"));
}

TEST_CASE("2026-11 control characters reached the terminal from keys and file names", "[utf8]") {
    CHECK(shown("\x1b[31mX\nfake\x07\x7f") == "\\x1b[31mX\\x0afake\\x07\\x7f");
    CHECK(shown("\xff\xc3\xa9") == "\\xff\xc3\xa9");
    CHECK(shown("a\xe2\x80\xae") == "a\\u202e");
    CHECK(io::line_of({"f\x1b.json", "/\x1b[31mX", "is not known"}) ==
          "f\\x1b.json: /\\x1b[31mX: is not known");
}

TEST_CASE("2026-11 200,000 unknown keys: 50 faults are told, the others counted", "[utf8]") {
    const io::InputError error(std::vector<io::Fault>(200000, {"f", "/x", "is not known"}));
    CHECK(error.faults.size() == 200000);
    CHECK(std::string(error.what()).size() < 50 * 30);
    const auto told = io::first_of(error.faults);
    REQUIRE(told.size() == 51);
    CHECK(line_of(told.back()) == "f: and 199950 more");
    CHECK(io::first_of(std::vector<io::Fault>(50, {"f", "/x", "y"})).size() == 50);
}
