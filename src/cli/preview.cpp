#include "cli/preview.hpp"

#include "io/fault.hpp"

#include <array>
#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <memory>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace tuck::cli {

namespace {

constexpr char option[] = "--preview";
constexpr char needs_pdftoppm[] =
    "a PNG is drawn by the program pdftoppm, which is not here: install poppler-utils, or choose a .svg";

[[noreturn]] void fail(const std::string& what) {
    throw io::InputError(option, "", what);
}

using File = std::unique_ptr<std::FILE, int (*)(std::FILE*)>;

/// A file without a name that holds `bytes`, read from its beginning.
File scratch(const std::string& bytes) {
    File file(std::tmpfile(), std::fclose);
    if (!file || std::fwrite(bytes.data(), 1, bytes.size(), file.get()) != bytes.size() ||
        std::fflush(file.get()) != 0)
        fail("no room for a temporary file");
    std::rewind(file.get());
    return file;
}

std::string content(std::FILE* file) {
    std::rewind(file);
    std::string out;
    std::array<char, 1 << 16> part{};
    while (const std::size_t count = std::fread(part.data(), 1, part.size(), file))
        out.append(part.data(), count);
    return out;
}

/// Runs the program with `from` as its standard input and `to` as its standard output. Its own messages are
/// dropped: they speak of our file's inside.
int run(std::array<const char*, 9> words, std::FILE* from, std::FILE* to) {
    posix_spawn_file_actions_t files;
    posix_spawn_file_actions_init(&files);
    posix_spawn_file_actions_adddup2(&files, ::fileno(from), STDIN_FILENO);
    posix_spawn_file_actions_adddup2(&files, ::fileno(to), STDOUT_FILENO);
    posix_spawn_file_actions_addopen(&files, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    pid_t child = 0;
    const int problem =
        ::posix_spawnp(&child, words[0], &files, nullptr, const_cast<char**>(words.data()), environ);
    posix_spawn_file_actions_destroy(&files);
    if (problem == ENOENT)
        fail(needs_pdftoppm);
    int status = 0;
    while (problem == 0 && ::waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    return problem != 0 || !WIFEXITED(status) ? -1 : WEXITSTATUS(status);
}

std::string png(const std::string& pdf) {
    const File from = scratch(pdf), to = scratch("");
    const int code =
        run({"pdftoppm", "-png", "-r", "200", "-f", "1", "-l", "1", nullptr}, from.get(), to.get());
    std::string bytes = content(to.get());
    if (code != 0 || bytes.compare(0, 8, "\x89PNG\r\n\x1a\n") != 0)
        fail("pdftoppm could not draw the card; choose a .svg");
    return bytes;
}

} // namespace

void require_preview_name(const std::string& file) {
    if (!file.empty() && file != "-" && !file.ends_with(".svg") && !file.ends_with(".png"))
        fail("\"" + file + "\": allowed: a file name that ends in .svg or .png");
}

std::string preview_of(const std::string& file, const std::string& pdf, const faces::CardLayout& first_page) {
    if (file.ends_with(".png"))
        return png(pdf);
    return faces::pdf::svg(faces::page_of(first_page), first_page.title, faces::Fonts());
}

} // namespace tuck::cli
