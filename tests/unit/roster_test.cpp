// Rosters: RFC 4180, and faults that name row and column.
#include "io/event_document.hpp"
#include "io/roster.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <unistd.h>

using namespace tuck;
using namespace tuck::io;
using Catch::Matchers::Contains;

namespace {

std::vector<CsvRecord> records(const std::string& text) {
    std::istringstream in(text);
    CsvReader reader(in);
    std::vector<CsvRecord> out;
    for (CsvRecord record; reader.next(record);)
        out.push_back(record);
    return out;
}

using Cells = std::vector<std::string>;

/// A roster in a file of its own.
struct RosterFile {
    explicit RosterFile(const std::string& text)
        : path((std::filesystem::temp_directory_path() /
                ("roster_test." + std::to_string(::getpid()) + ".csv"))
                   .string()) {
        std::ofstream(path, std::ios::binary) << text;
    }
    ~RosterFile() { std::filesystem::remove(path); }
    std::string path;
};

EventDocument sprint() {
    EventDocument event;
    event.file = "event.json";
    event.json = {{"distance", "sprint"}, {"weather", {{"temperature_c", 20}}}};
    return event;
}

std::string faults(const std::string& csv) {
    const RosterFile file(csv);
    std::string all;
    try {
        Roster roster(file.path);
        for (RosterRow row; roster.next(row);)
            try {
                roster.input(sprint(), row);
            } catch (const InputError& error) {
                for (const Fault& fault : error.faults)
                    all += line_of(fault) + "\n";
            }
    } catch (const InputError& error) {
        for (const Fault& fault : error.faults)
            all += "whole: " + line_of(fault) + "\n";
    }
    for (std::size_t at; (at = all.find(file.path)) != std::string::npos;)
        all.replace(at, file.path.size(), "F");
    return all;
}

} // namespace

TEST_CASE("Records are those of RFC 4180", "[roster]") {
    // The examples of RFC 4180, section 2, rules 1 to 7.
    CHECK(records("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")[1].cells == Cells{"zzz", "yyy", "xxx"});
    CHECK(records("aaa,bbb,ccc\r\nzzz,yyy,xxx")[1].cells == Cells{"zzz", "yyy", "xxx"});
    CHECK(records("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx")[0].cells == Cells{"aaa", "bbb", "ccc"});
    CHECK(records("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx")[0].cells == Cells{"aaa", "b\r\nbb", "ccc"});
    CHECK(records("\"aaa\",\"b\"\"bb\",\"ccc\"")[0].cells == Cells{"aaa", "b\"bb", "ccc"});
    CHECK(records("a, b ,c")[0].cells == Cells{"a", " b ", "c"}); // spaces are part of a field
    CHECK(records("a,,\n\nb,c,d\n")[0].cells == Cells{"a", "", ""});
    CHECK(records("a,,\n\nb,c,d\n")[1].cells == Cells{"b", "c", "d"});
    CHECK(records("\xEF\xBB\xBFname\nx\n")[0].cells == Cells{"name"});
    CHECK(records("").empty());
    CHECK_THAT(records("a,b\"c\n")[0].problem, Contains("a quote inside a cell"));
    CHECK_THAT(records("\"a\"b,c\n")[0].problem, Contains("a quote inside a cell"));
    CHECK_THAT(records("a,\"b\nc")[0].problem, Contains("never ends"));
    const auto endless = records("\"" + std::string(200000, 'x') + "\n1,2\n");
    REQUIRE(endless.size() == 1);
    CHECK_THAT(endless[0].problem, Contains("64 kB"));
}

TEST_CASE("What is written reads back, and no cell is a formula", "[roster]") {
    for (const Cells& cells : {Cells{"a", "b,c", "d\"e", "f\r\ng", ""}, Cells{"Zoë", "Żółć", "Nguyễn"}})
        CHECK(records(csv_line(cells))[0].cells == cells);
    CHECK(csv_line({"a", "b"}) == "a,b\r\n");
    CHECK(csv_line({"=1+1"}) == "'=1+1\r\n");
    CHECK(csv_line({"@x", "-2.5"}) == "'@x,-2.5\r\n");
    CHECK(csv_line({"+x,y"}) == "\"'+x,y\"\r\n");
}

TEST_CASE("2026-11 a semicolon or a tab begins a cell in the spreadsheets of many countries", "[roster]") {
    CHECK(csv_cell("Bob;=cmd|'/C calc'!A0") == "Bob;'=cmd|'/C calc'!A0");
    CHECK(csv_cell("a\t@x;+y\n-z") == "a\t'@x;'+y\n'-z");
    CHECK(csv_cell("a; =x") == "a; '=x");
    CHECK(csv_cell("a;\"=x\"") == "a;\"'=x\"");
    CHECK(csv_cell("milk; eggs") == "milk; eggs");
    CHECK(csv_cell("Smith-Jones") == "Smith-Jones");
}

TEST_CASE("2026-11 half a byte order mark is part of the first cell", "[roster]") {
    // What is no UTF-8 is read as Windows-1252: EF is i with a diaeresis, BB and BF are ">>" and "?"
    // reversed.
    CHECK(records("\xEFname\nx\n")[0].cells == Cells{"\u00EFname"});
    CHECK(records("\xBB\xBFname\nx\n")[0].cells == Cells{"\u00BB\u00BFname"});
}

TEST_CASE("Every column goes to its place", "[roster]") {
    const RosterFile file(
        "name,bib,wave,mass_kg,age_y,level,hands,allergy,like,sweat_ml_per_h,carb_g_per_h,"
        "caffeine,bike_time,stations,health\r\n"
        "\"Lou \"\"Lo\"\" Maple, junior\",212,C,52.5,16,beginner,bottle,milk; eggs,gel_25,900,40,"
        "no,45:00,typical,coeliac\r\n");
    Roster roster(file.path);
    RosterRow row;
    REQUIRE(roster.next(row));
    CHECK(row.row == 2);
    const EventInput input = roster.input(sprint(), row);
    CHECK(input.athlete.name == "Lou \"Lo\" Maple, junior");
    CHECK(input.athlete.bib == "212");
    CHECK(input.event.wave == "C");
    CHECK(input.athlete.mass_kg == 52.5);
    CHECK(input.athlete.age_y == 16);
    CHECK(input.athlete.level == Level::beginner);
    CHECK(input.athlete.hands == Hands::bottle);
    CHECK(input.athlete.allergy == Cells{"milk", "eggs"});
    CHECK(input.athlete.sweat->sweat_ml_per_h == 900);
    CHECK(input.athlete.rehearsed.carb_g_per_h == 40);
    CHECK_FALSE(input.athlete.caffeine);
    CHECK(input.event.legs[2].time_s == 2700);
    CHECK(input.event.station_policy == StationPolicy::typical);
    CHECK(input.athlete.health.coeliac);
    CHECK_FALSE(roster.next(row));
    CHECK(roster.progress() == 1);
}

TEST_CASE("Faults name row and column", "[roster]") {
    const std::string head = "name,mass_kg,level,caffeine\n";
    CHECK(faults(head + "A,70,keen,yes\n").empty());
    CHECK_THAT(faults(head + "A,700,keen,yes\n"),
               Contains("F: row 2, column mass_kg: ") && Contains("25 to 250"));
    CHECK_THAT(faults(head + "A,70,keen,yes\nB,,keen,yes\n"), Contains("F: row 3, column mass_kg: "));
    CHECK_THAT(faults(head + "A,\"70,5,1\",keen,yes\n"), Contains("\"70,5,1\""));
    CHECK_THAT(faults(head + "A,nan,keen,yes\n"), Contains("\"nan\" is not a number"));
    CHECK_THAT(faults(head + "A,70,kene,maybe\n"), Contains("column level") && Contains("column caffeine"));
    CHECK(faults(head + "A,70,keen\n") == "F: row 2: has 3 cells, the header 4\n");
    CHECK_THAT(faults(head + "A,7\"0,keen,yes\n"), Contains("F: row 2: a quote inside a cell"));
    CHECK_THAT(faults("name,mas_kg\nA,70\n"),
               Contains("did you mean \"mass_kg\"?") && Contains("is missing"));
    CHECK_THAT(faults("name,name,mass_kg\nA,B,70\n"), Contains("stands twice"));
    CHECK_THAT(faults(""), Contains("whole: F: is empty"));
    CHECK_THROWS_WITH(Roster("/nowhere/squad.csv"), Contains("cannot be read"));
    CHECK_THROWS_WITH(Roster("/tmp"), Contains("is a directory"));
}

TEST_CASE("tables as spreadsheets of many countries save them", "[roster]") {
    // RFC 4180 parts cells by commas; where the comma is the decimal sign, spreadsheets part them by
    // semicolons.
    const std::string bom = "\xEF\xBB\xBF";
    const auto read = [](const std::string& bytes) {
        const RosterFile file(bytes);
        Roster roster(file.path);
        RosterRow row;
        REQUIRE(roster.next(row));
        return roster.input(sprint(), row);
    };
    const auto wide = [](const std::string& text, bool little) {
        std::string out = little ? "\xFF\xFE" : "\xFE\xFF";
        for (const char c : text)
            out += little ? std::string{c, '\0'} : std::string{'\0', c};
        return out;
    };
    const std::string table = "Startnr;Name;Gewicht (kg);Level;Notes\r\n7;Lou;62,7;Keen;fast start\r\n";
    for (const auto& bytes :
         {table, bom + table, "sep=;\r\n" + table, wide(table, true), wide(table, false)}) {
        const auto input = read(bytes);
        CHECK(input.athlete.bib == "7");
        CHECK(input.athlete.mass_kg == Approx(62.7));
        CHECK(input.athlete.level == Level::keen);
    }
    CHECK(read("Name\tWeight (lb)\nLou\t150\n").athlete.mass_kg ==
          Approx(68.04).margin(0.005)); // 1 lb = 0.45359237 kg
    CHECK(read("Name,weight lb\nLou,150\n").athlete.mass_kg == Approx(68.04).margin(0.005));
    CHECK(read("Name,Weight\nLou,150 lb\n").athlete.mass_kg == Approx(68.04).margin(0.005));
    CHECK(read("Name;mass kg;sweat rate (L/h)\nLou;62,7;1,2\n").athlete.sweat->sweat_ml_per_h ==
          Approx(1200));
    CHECK(read("Name,mass_kg\nL\xFC"
               "tz,62\n")
              .athlete.name == "L\u00FCtz"); // Windows-1252
    const auto fast = read("Name,mass_kg,10k PB\nLou,62,44:30\n").athlete;
    REQUIRE(fast.recent.size() == 1);
    CHECK(fast.recent[0].distance_m == 10000);
    CHECK(fast.recent[0].time_s == 2670);
}

TEST_CASE("columns that are not used are told, and near misses stay faults", "[roster]") {
    const RosterFile file("name,mass_kg,Club,\nLou,62,Lake,\n");
    Roster roster(file.path);
    REQUIRE(roster.notes().size() == 1);
    CHECK_THAT(roster.notes()[0], Contains("\"Club\""));
    CHECK_THAT(faults("name,mass_kg,levl\nA,70,keen\n"), Contains("did you mean \"level\"?"));
    // A pound is no kilogram: 150 lb were once made 150 kg by following a hint.
    const RosterFile pounds("name,mass_lb\nA,150\n");
    Roster in_pounds(pounds.path);
    RosterRow row;
    REQUIRE(in_pounds.next(row));
    CHECK(in_pounds.input(sprint(), row).athlete.mass_kg == Approx(68.04).margin(0.005));
    CHECK_THAT(faults("PK\x03\x04name,mass_kg\nA,70\n"), Contains("save the sheet as CSV"));
    CHECK_THAT(faults("%PDF-1.4\n"), Contains("is a PDF"));
}
