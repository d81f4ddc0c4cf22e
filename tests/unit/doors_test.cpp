// Every door by which strange bytes come in, knocked at with seeds and a few thousand spoilt copies of them.
// With sanitizers and coverage to lead it: tests/fuzz.
#include "folder.hpp"
#include "fuzz/doors.hpp"
#include "places.hpp"
#include "tuck/error.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

using namespace tuck;
using tuck::example::text_of;

namespace {

std::vector<std::string> seeds_of(const std::string& door) {
    std::vector<std::filesystem::path> paths;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::filesystem::path(places::tests()) / "fuzz/seeds" / door))
        paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    std::vector<std::string> out;
    for (const auto& path : paths)
        out.push_back(text_of(path));
    return out;
}

/// Words that the documents know, and what has hurt programs before.
const std::vector<std::string> words{"\"",
                                     "{",
                                     "}",
                                     "[",
                                     "]",
                                     ",",
                                     ":",
                                     ";",
                                     "\n",
                                     "\r\n",
                                     "\t",
                                     "-",
                                     "0",
                                     "1e999",
                                     "-0",
                                     "1e-320",
                                     "99999999999999999999",
                                     "null",
                                     "true",
                                     "NaN",
                                     "inf",
                                     "%s",
                                     "\\u0000",
                                     "\\ud800",
                                     std::string("\0", 1),
                                     "\xff\xfe",
                                     "\xe2\x80\xae",
                                     "\xc3\x28",
                                     "\x1b[2J",
                                     "=1+1",
                                     "<script>",
                                     "&lt;",
                                     "<!DOCTYPE",
                                     "<trkpt lat=\"91\" lon=\"0\">",
                                     "68kg",
                                     "5'9\"",
                                     "every 15min",
                                     "km",
                                     "24C",
                                     "\"legs\"",
                                     "\"mass_kg\"",
                                     "\"stations\"",
                                     "\"schema\"",
                                     "9e8",
                                     "0.1",
                                     "../../x",
                                     "sep=;"};

std::string spoilt(std::string text, const std::vector<std::string>& seeds, std::mt19937& random) {
    const auto below = [&random](std::size_t n) { return n == 0 ? 0 : random() % n; };
    for (auto times = 1 + below(4); times > 0; --times) {
        const std::size_t at = below(text.size() + 1),
                          length = std::min<std::size_t>(below(20), text.size() - at);
        switch (below(6)) {
        case 0:
            text.erase(at, length);
            break;
        case 1:
            text.insert(at, words[below(words.size())]);
            break;
        case 2:
            text.replace(at, length, words[below(words.size())]);
            break;
        case 3:
            if (at < text.size())
                text[at] = static_cast<char>(random());
            break;
        case 4:
            text.insert(at, text.substr(at, length));
            break;
        default: {
            const auto& other = seeds[below(seeds.size())];
            text = text.substr(0, at) + other.substr(std::min(at, other.size()));
        }
        }
    }
    return text;
}

/// Refusals have words; everything else that is thrown is a fault of ours.
bool knock(const fuzz::Door& door, const std::string& bytes) {
    try {
        return door.knock(bytes);
    } catch (const Error& error) {
        CHECK(!error.faults.empty());
        CHECK(!std::string(error.what()).empty());
        CHECK(std::string(error.what()).find('\x1b') == std::string::npos);
    } catch (const std::invalid_argument& error) {
        CHECK(!std::string(error.what()).empty());
    } catch (const std::exception& error) {
        FAIL(door.name << ": " << error.what() << "\n" << bytes);
    }
    return false;
}

} // namespace

TEST_CASE("every door reads its seeds, and refuses in words what is spoilt", "[fuzz]") {
    int read = 0, tried = 0;
    for (const auto& door : fuzz::doors()) {
        INFO(door.name);
        const auto seeds = seeds_of(door.name);
        REQUIRE(!seeds.empty());
        for (const auto& seed : seeds)
            CHECK(knock(door, seed));
        std::mt19937 random(20261129);
        const bool plans = std::string("plan own_line page").find(door.name) != std::string::npos;
        for (int n = plans ? 300 : 1500; n > 0; --n, ++tried)
            read += knock(door, spoilt(seeds[random() % seeds.size()], seeds, random)) ? 1 : 0;
    }
    CHECK(read > tried / 20); // not all of it is beyond reading
    CHECK(read < tried * 9 / 10);
}
