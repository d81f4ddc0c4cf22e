// The table of figures: every row has a source that is there, and is read by the code.
#include "places.hpp"
#include "tuck/figures.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>

using namespace tuck;

namespace {

/// All that the stages and headers say.
std::string code() {
    std::string all;
    const std::filesystem::path root = std::filesystem::path(places::tests()).parent_path();
    for (const char* folder : {"src", "include"})
        for (const auto& entry : std::filesystem::recursive_directory_iterator(root / folder))
            if (entry.is_regular_file() && entry.path().filename() != "figures.hpp") {
                std::ostringstream text;
                text << std::ifstream(entry.path()).rdbuf();
                all += text.str();
            }
    return all;
}

} // namespace

TEST_CASE("every figure has one row, a value, a unit and a known source", "[figures]") {
    std::set<std::string_view> ids, keys, used;
    for (const auto& figure : figures()) {
        INFO(figure.id);
        CHECK(ids.insert(figure.id).second);
        CHECK(std::isfinite(figure.value));
        CHECK_FALSE(figure.unit.empty());
        CHECK_FALSE(figure.where.empty());
        CHECK(find_source(figure.source) != nullptr);
        used.insert(figure.source);
    }
    for (const auto& source : sources()) {
        INFO(source.key);
        CHECK(keys.insert(source.key).second);
        CHECK(used.count(source.key) == 1); // a source that nothing rests on is none
        const bool paper = source.seen == Seen::read || source.seen == Seen::second_hand;
        CHECK((!paper || !source.authors.empty()));
    }
}

TEST_CASE("every figure is read by the code", "[figures]") {
    const auto text = code();
    for (const auto& figure : figures()) {
        INFO(figure.id);
        CHECK(text.find('"' + std::string(figure.id) + '"') != std::string::npos);
    }
}
