// Outputs: all stand in their places, or none. The disk that fails at every call, and places that take no
// file.
#include "folder.hpp"
#include "io/fault.hpp"
#include "io/files.hpp"
#include "io/outputs.hpp"

#include <catch2/catch.hpp>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

using namespace tuck::io;
using Catch::Contains;
using tuck::example::Folder;
using tuck::example::text_of;

namespace {

namespace fs = std::filesystem;

void put(const std::string& path, const std::string& text) {
    std::ofstream(path) << text;
}

mode_t mode_of(const std::string& path) {
    struct stat info {};
    REQUIRE(::stat(path.c_str(), &info) == 0);
    return info.st_mode & 07777;
}

/// The disk is full at call number `at`.
class Failing : public FileCalls {
public:
    explicit Failing(int at) : at_(at) {}
    ssize_t write(int fd, const void* bytes, std::size_t count) override {
        return now() ? -1 : FileCalls::write(fd, bytes, count);
    }
    int sync(int fd) override { return now() ? -1 : FileCalls::sync(fd); }
    int rename(const char* from, const char* to, bool exchange) override {
        // A swap that fails is tried as a plain rename: both fail here.
        if (exchange && calls + 1 == at_)
            at_ += 1, ++calls;
        else if (!now())
            return FileCalls::rename(from, to, exchange);
        errno = ENOSPC;
        return -1;
    }
    int calls = 0;
    bool failed = false;

private:
    bool now() {
        errno = ENOSPC;
        const bool fails = ++calls == at_;
        failed = failed || fails;
        return fails;
    }
    int at_;
};

} // namespace

TEST_CASE("2026-11 late faults left files: whatever call fails, every file is as it was", "[outputs]") {
    const Folder folder;
    const auto old = folder.file("old.pdf"), fresh = folder.file("fresh.pdf"),
               third = folder.file("third.pdf");
    int failures = 0;
    for (int at = 1;; ++at) {
        put(old, "as it was");
        fs::remove(fresh);
        put(third, "as it was too");
        Failing calls(at);
        bool refused = false;
        try {
            Outputs outputs(calls);
            outputs.add(old, "new");
            outputs.add(fresh, "new");
            outputs.add(third, "new");
            outputs.commit();
        } catch (const InputError&) {
            refused = true;
        }
        INFO("call " << at);
        if (refused) {
            ++failures;
            CHECK(text_of(old) == "as it was");
            CHECK_FALSE(fs::exists(fresh));
            CHECK(text_of(third) == "as it was too");
        } else {
            CHECK(text_of(old) + text_of(fresh) + text_of(third) == "newnewnew");
        }
        CHECK(folder.entries() == (refused ? 2u : 3u)); // no temporary stays
        if (!calls.failed)
            break;
    }
    CHECK(failures >= 9); // three files: written, flushed, put in place
}

TEST_CASE("2026-11 an output over an input, over another output, over a folder or a device", "[outputs]") {
    const Folder folder;
    const auto input = folder.file("event.json"), out = folder.file("a.pdf");
    put(input, "{}");
    fs::create_symlink(input, folder.file("link.json"));
    Outputs outputs;
    outputs.never_over({input});
    CHECK_THROWS_WITH(outputs.add(input, "x"), Contains("is read by this command"));
    CHECK_THROWS_WITH(outputs.add(folder.file("link.json"), "x"), Contains("is read by this command"));
    CHECK_THROWS_WITH(
        outputs.add(folder.file("./../" + folder.path.filename().string() + "/event.json"), "x"),
        Contains("is read by this command"));
    outputs.add(out, "x");
    CHECK_THROWS_WITH(outputs.add(folder.file("./a.pdf"), "x"), Contains("to be written twice"));
    CHECK_THROWS_WITH(outputs.add(folder.path.string(), "x"), Contains("is a directory"));
    CHECK_THROWS_WITH(outputs.add("", "x"), Contains("empty name"));
    CHECK_THROWS_WITH(outputs.add("/dev/full", "x"), Contains("cannot be written"));
    struct stat info {};
    REQUIRE(::stat("/dev/full", &info) == 0);
    CHECK(S_ISCHR(info.st_mode));
    CHECK(text_of(input) == "{}");
    CHECK_FALSE(fs::exists(out)); // not committed
}

TEST_CASE("2026-11 a card of mode 600 became 644: files keep their mode, links are followed", "[outputs]") {
    const Folder folder;
    const auto card = folder.file("card.pdf");
    put(card, "old");
    REQUIRE(::chmod(card.c_str(), 0600) == 0);
    fs::create_symlink("card.pdf", folder.file("link.pdf"));
    write_file(folder.file("link.pdf"), "new");
    CHECK(text_of(card) == "new");
    CHECK(mode_of(card) == 0600);
    CHECK(fs::is_symlink(folder.file("link.pdf")));
    CHECK(folder.entries() == 2);
}

TEST_CASE("a file that grows bit by bit is whole or not there", "[outputs]") {
    const Folder folder;
    const auto path = folder.file("plans.ndjson");
    const std::string line(1000, 'x');
    {
        Outputs outputs;
        auto& file = outputs.open(path);
        for (int i = 0; i < 200; ++i)
            file.write(line);
        CHECK(file.size() == 200000);
        CHECK_FALSE(fs::exists(path));
    }
    CHECK(folder.entries() == 0); // given up
    Outputs outputs;
    auto& file = outputs.open(path);
    for (int i = 0; i < 200; ++i)
        file.write(line);
    outputs.commit();
    CHECK(fs::file_size(path) == 200000);
    CHECK(folder.entries() == 1);
}
