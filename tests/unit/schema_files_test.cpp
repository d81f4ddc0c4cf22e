// The published schemas are those that the fields make. TUCK_ACCEPT=1 build/tests/tuck_tests "*schemas*"
// writes them.
#include "io/files.hpp"
#include "io/input_options.hpp"
#include "io/input_schema.hpp"
#include "places.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <set>

using namespace tuck;
using namespace tuck::io;

TEST_CASE("the published schemas are what the fields make", "[schemas]") {
    for (const auto& name : schema_names()) {
        const auto path = std::string(places::tests()) + "/../src/io/schema/" + name + ".schema.json";
        if (std::getenv("TUCK_ACCEPT"))
            write_file(path, schema_text(name));
        INFO(name << ": TUCK_ACCEPT=1 build/tests/tuck_tests \"*schemas*\" writes it");
        CHECK(read_file(path) == schema_text(name));
    }
}

TEST_CASE("every option and every column stands once", "[schemas]") {
    std::set<std::string> seen;
    for (const auto* options : {&athlete_field_options(), &event_field_options()})
        for (const auto& option : *options) {
            CHECK(seen.insert(option.option).second);
            CHECK_FALSE(option.help.empty());
        }
    for (const auto& column : roster_columns())
        CHECK(seen.insert(column.name).second);
}
