// The diary on the disk: nothing acknowledged is ever lost, whatever is cut short. The order of calls that
// makes this true (write, flush, then acknowledge) is that of POSIX write and fsync.
#include "folder.hpp"
#include "io/csv.hpp"
#include "io/diary_file.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cerrno>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace tuck;
using namespace tuck::io;
using tuck::example::Folder;

namespace {

DiaryEntry entry(const std::string& note) {
    DiaryEntry out;
    out.date = "2027-05-01";
    out.note = note;
    SweatTest test;
    test.before_kg = 71.42;
    test.after_kg = 70.31;
    test.drank_ml = 750;
    test.minutes = 90;
    test.temperature_c = 24;
    out.what = test;
    return out;
}

std::set<std::string> notes(const std::string& path) {
    std::set<std::string> out;
    for (const auto& known : read_diary(path).entries)
        out.insert(known.note);
    return out;
}

/// Dies or fails at call number `at`: a write has then put down half of its bytes.
class CutShort : public FileCalls {
public:
    CutShort(int at, bool die) : at_(at), die_(die) {}
    ssize_t write(int fd, const void* bytes, std::size_t count) override {
        if (!now())
            return FileCalls::write(fd, bytes, count);
        const ssize_t half = FileCalls::write(fd, bytes, count / 2);
        if (die_)
            ::raise(SIGKILL);
        ++failed;
        full_ = true;
        return half > 0 ? half : fail();
    }
    int sync(int fd) override { return now() ? fail() : FileCalls::sync(fd); }
    int truncate(int fd, off_t size) override { return now() ? fail() : FileCalls::truncate(fd, size); }
    int rename(const char* from, const char* to, bool exchange) override {
        return now() ? fail() : FileCalls::rename(from, to, exchange);
    }
    int calls = 0, failed = 0;

private:
    bool now() {
        if (full_) { // the disk stays full: the rest of the write fails whole
            full_ = false;
            ++calls;
            return true;
        }
        return ++calls == at_;
    }
    int fail() {
        if (die_)
            ::raise(SIGKILL);
        ++failed;
        errno = ENOSPC;
        return -1;
    }
    int at_;
    bool die_, full_ = false;
};

/// Ended by SIGKILL?
bool killed(pid_t child) {
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
}

/// A diary with one acknowledged entry, and with a torn line after it if asked.
void begin(const std::string& path, bool torn) {
    std::filesystem::remove_all(path);
    add_to_diary(path, {entry("first")});
    if (torn)
        std::ofstream(path, std::ios::app) << "{\"schema\":\"tuck.diary/1\",\"id\":2,\"da";
}

} // namespace

TEST_CASE("kill -9 at every call that changes the file: what was acknowledged stays, and the file reads") {
    const Folder folder;
    const auto path = folder.file("d.jsonl");
    for (const bool torn : {false, true}) {
        int deaths = 0;
        for (int at = 1;; ++at) {
            begin(path, torn);
            const pid_t child = ::fork();
            if (child == 0) {
                CutShort calls(at, true);
                add_to_diary(path, {entry("second")}, calls);
                ::_exit(0);
            }
            const bool died = killed(child);
            const auto after = notes(path);
            INFO("call " << at << ", torn " << torn);
            CHECK(after.count("first") == 1);
            if (!died)
                CHECK(after.count("second") == 1); // it was acknowledged
            add_to_diary(path, {entry("third")});
            CHECK(notes(path).count("first") == 1);
            CHECK(notes(path).count("third") == 1);
            CHECK(read_diary(path).torn.empty());
            deaths += died;
            if (!died)
                break;
        }
        CHECK(deaths >= (torn ? 6 : 2)); // it was really walked
    }
}

TEST_CASE("a full disk at every call: an error, the file as it was, and the next entry goes in") {
    const Folder folder;
    const auto path = folder.file("d.jsonl");
    for (const bool torn : {false, true})
        for (int at = 1;; ++at) {
            begin(path, torn);
            CutShort calls(at, false);
            bool refused = false;
            try {
                add_to_diary(path, {entry("second")}, calls);
            } catch (const InputError& error) {
                refused = true;
                CHECK(std::string(error.what()).find("cannot be written") != std::string::npos);
            }
            if (calls.failed == 0)
                break;
            INFO("call " << at << ", torn " << torn);
            const auto after = notes(path);
            CHECK(after.count("first") == 1);
            CHECK((refused || after.count("second") == 1));
            add_to_diary(path, {entry("third")});
            CHECK(notes(path).count("third") == 1);
        }
}

TEST_CASE("a torn last line is moved beside the diary, byte for byte, and said") {
    const Folder folder;
    const auto path = folder.file("d.jsonl");
    begin(path, true);
    CHECK(!read_diary(path).torn.empty());
    const auto added = add_to_diary(path, {entry("second")});
    REQUIRE(!added.torn_moved_to.empty());
    std::ifstream kept(added.torn_moved_to);
    std::string text((std::istreambuf_iterator<char>(kept)), {});
    CHECK(text == "{\"schema\":\"tuck.diary/1\",\"id\":2,\"da");
    CHECK(added.last_id == 2);
}

TEST_CASE("a whole last line that lacks its newline is an entry") {
    const Folder folder;
    const auto path = folder.file("d.jsonl");
    begin(path, false);
    add_to_diary(path, {entry("second")});
    std::filesystem::resize_file(path, std::filesystem::file_size(path) - 1);
    CHECK(notes(path).count("second") == 1);
    CHECK(add_to_diary(path, {entry("third")}).last_id == 3);
    CHECK(notes(path).size() == 3);
}

TEST_CASE("two processes add 10,000 entries in all: none is lost, none doubled, ids rise", "[slow]") {
    const Folder folder;
    const auto path = folder.file("d.jsonl");
    constexpr int each = 5000;
    struct NoWait : FileCalls { // the disk's flush is not what is tested here
        int sync(int) override { return 0; }
    };
    pid_t children[2];
    for (int c = 0; c < 2; ++c) {
        children[c] = ::fork();
        if (children[c] == 0) {
            NoWait calls;
            for (int i = 0; i < each; ++i)
                add_to_diary(path, {entry(std::to_string(c) + "/" + std::to_string(i))}, calls);
            ::_exit(0);
        }
    }
    for (const pid_t child : children) {
        int status = 0;
        ::waitpid(child, &status, 0);
        CHECK(status == 0);
    }
    const auto diary = read_diary(path); // checks that ids rise
    CHECK(diary.entries.size() == 2 * each);
    CHECK(notes(path).size() == 2 * each);
    CHECK(diary.entries.back().id == 2 * each);
}

TEST_CASE("places that take no diary") {
    const Folder folder;
    CHECK_THROWS_AS(add_to_diary(folder.path.string(), {entry("x")}), InputError);
    CHECK_THROWS_AS(add_to_diary(folder.file("no/such/d.jsonl"), {entry("x")}), InputError);
    CHECK_THROWS_AS(add_to_diary("/dev/full", {entry("x")}), InputError);
    CHECK_THROWS_AS(read_existing_diary(folder.file("none.jsonl")), InputError);
    CHECK(read_diary(folder.file("none.jsonl")).entries.empty());
    if (::geteuid() != 0) { // root writes everywhere
        std::filesystem::permissions(folder.path,
                                     std::filesystem::perms::owner_read | std::filesystem::perms::owner_exec);
        CHECK_THROWS_AS(add_to_diary(folder.file("d.jsonl"), {entry("x")}), InputError);
        std::filesystem::permissions(folder.path, std::filesystem::perms::owner_all);
    }
}

TEST_CASE("bad lines are faults with their number, and the others are read") {
    const Folder folder;
    const auto path = folder.file("d.jsonl");
    const auto faults = [&](const std::string& line) {
        begin(path, false);
        std::ofstream(path, std::ios::app) << line << "\n";
        const auto diary = read_diary(path);
        CHECK(diary.entries.size() == 1);
        CHECK(diary.bad_lines == 1);
        REQUIRE(!diary.bad.empty());
        return line_of(diary.bad[0]);
    };
    CHECK(faults("not json").find(path + ": line 2, column") != std::string::npos);
    CHECK(faults("{}").find(path + ": line 2: /schema: is missing") != std::string::npos);
    CHECK(faults("{\"schema\":\"tuck.diary/2\",\"id\":2,\"kind\":\"race\",\"date\":\"2027-05-01\"}")
              .find("allowed: \"tuck.diary/1\"") != std::string::npos);
    auto good = json_of(entry("x"));
    good["id"] = 1;
    CHECK(faults(good.dump()).find("does not come after") != std::string::npos);
    good["id"] = 2;
    good["corrects"] = 7;
    CHECK(faults(good.dump()).find("does not stand before it") != std::string::npos);
    good.erase("corrects");
    good["before_kg"] = 700;
    CHECK(faults(good.dump()).find("line 2: /before_kg: 700 is out of range") != std::string::npos);
    good["before_kg"] = 71;
    good["befor_kg"] = 71;
    CHECK(faults(good.dump()).find("did you mean \"before_kg\"") != std::string::npos);
}

TEST_CASE("2026-11 one corrupt line blocked the whole diary: it is mended byte for byte") {
    const Folder folder;
    const auto path = folder.file("d.jsonl");
    begin(path, false);
    add_to_diary(path, {entry("second")});
    std::ofstream(path, std::ios::app) << "gar\x01"
                                       << "bage\n";
    CHECK(add_to_diary(path, {entry("after")}).last_id > 2); // it goes on behind a corrupt last line
    auto fix = entry("put right");
    fix.corrects = 3; // a line that may be the corrupt one
    add_to_diary(path, {fix});
    CHECK(notes(path) == std::set<std::string>{"first", "second", "after", "put right"});
    CHECK(read_diary(path).bad_lines == 1);
    CHECK(mend_diary(path) == 1);
    CHECK(read_diary(path).bad.empty());
    CHECK(notes(path) == std::set<std::string>{"first", "second", "after", "put right"});
    std::ifstream aside(set_aside_name(path));
    CHECK(std::string(std::istreambuf_iterator<char>(aside), {}) == "gar\x01"
                                                                    "bage\n");
    CHECK(mend_diary(path) == 0);
    // Another file's name: nothing of it is touched.
    std::ofstream(folder.file("event.json")) << "{\n}\n";
    CHECK_THROWS_AS(mend_diary(folder.file("event.json")), InputError);
    CHECK(std::filesystem::file_size(folder.file("event.json")) == 4);
}

TEST_CASE("2026-11 a diary holds body mass: a new one is for its owner alone, an old one keeps its mode") {
    const Folder folder;
    const auto path = folder.file("d.jsonl");
    const auto mode = [&] { return std::filesystem::status(path).permissions(); };
    begin(path, false);
    CHECK(mode() == (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
    std::filesystem::permissions(path, std::filesystem::perms(0640));
    add_to_diary(path, {entry("second")});
    std::ofstream(path, std::ios::app) << "x\n";
    mend_diary(path);
    CHECK(mode() == std::filesystem::perms(0640));
}

TEST_CASE("2026-11 the table of the diary holds no formula") {
    auto risky = entry("=cmd|'/C calc'!A0");
    risky.id = 1;
    CHECK(diary_csv({risky}).find(",'=cmd|") != std::string::npos);
}

TEST_CASE("every kind of entry comes back as it was written") {
    DiaryEntry race = entry("a, \"b\"\u00e9");
    RaceRecord r;
    r.event_name = "Invented";
    r.legs = {{Sport::bike, 40000, 4800, 5000, 100}};
    r.bike = {80, 70, 900, 300, {{"nausea", 2}}};
    r.temperature_c = 0;
    race.what = r;
    race.id = 4;
    DiaryEntry fed = entry("");
    RehearsalRecord s;
    s.bike.minutes = 150;
    s.race_effort = false;
    s.thirst = 0;
    s.change_next = "less";
    fed.what = s;
    auto test = entry("t");
    std::get<SweatTest>(test.what).sodium = SodiumTest{55, "forearm"};
    std::get<SweatTest>(test.what).energy_kcal = 0;
    for (const auto& given : {race, fed, test}) {
        const auto json = json_of(given);
        CHECK(json_of(entry_from(json, "f")) == json);
    }
    CHECK(std::get<RehearsalRecord>(entry_from(json_of(fed), "f").what).thirst == 0);
    CHECK(!std::get<RehearsalRecord>(entry_from(json_of(fed), "f").what).race_effort);
}

TEST_CASE("import adds what is missing once, corrections with what they correct") {
    const Folder folder;
    const auto here = folder.file("here.jsonl"), there = folder.file("there.jsonl");
    add_to_diary(here, {entry("mine")});
    add_to_diary(there, {entry("theirs"), entry("both")});
    add_to_diary(here, {entry("both")});
    auto fix = entry("theirs, put right");
    fix.corrects = 1;
    add_to_diary(there, {fix});
    auto fix_both = entry("both, put right");
    fix_both.corrects = 2;
    add_to_diary(there, {fix_both});
    add_to_diary(here, unknown_entries(read_diary(there).entries, read_diary(here).entries));
    const auto merged = read_diary(here).entries;
    REQUIRE(merged.size() == 5);
    CHECK(merged[3].note == "theirs, put right");
    CHECK(merged[3].corrects == merged[2].id);
    CHECK(merged[4].corrects == 2); // the one that stood here already
    CHECK(unknown_entries(read_diary(there).entries, merged).empty());
}

TEST_CASE("cells of a table are quoted where RFC 4180 asks for it") {
    // RFC 4180, section 2: rules 1 (CRLF), 5, 6 and 7.
    CHECK(csv_line({"aaa", "b,bb", "c\"c", "d\r\nd", ""}) == "aaa,\"b,bb\",\"c\"\"c\",\"d\r\nd\",\r\n");
}
