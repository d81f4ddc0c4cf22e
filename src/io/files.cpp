#include "io/files.hpp"

#include "io/fault.hpp"
#include "io/outputs.hpp"

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <mutex>
#include <set>
#include <string>
#include <sys/stat.h>
#include <unistd.h>

namespace tuck::io {

namespace {

/// A file descriptor that closes itself.
struct Descriptor {
    int fd;
    explicit Descriptor(int f) : fd(f) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (fd >= 0)
            ::close(fd);
    }
};

[[noreturn]] void fail(const std::string& path, const std::string& what) {
    throw InputError(path, "", what);
}

} // namespace

void take_standard_input() {
    static std::atomic<bool> taken = false;
    if (taken.exchange(true))
        fail("standard input", "is named twice; give one of the two the name of a file");
}

namespace {

void read_standard_input(std::size_t limit, const std::function<void(std::string_view)>& take) {
    take_standard_input();
    std::string piece(1u << 16, '\0');
    std::size_t done = 0;
    for (;;) {
        const ssize_t n = ::read(STDIN_FILENO, piece.data(), piece.size());
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            fail("standard input", std::string("cannot be read: ") + std::strerror(errno));
        if (n == 0)
            break;
        done += static_cast<std::size_t>(n);
        if (done > limit)
            fail("standard input", "is too large; allowed up to " + std::to_string(limit >> 20) + " MB");
        take(std::string_view(piece.data(), static_cast<std::size_t>(n)));
    }
    if (done == 0)
        fail("standard input", "is empty");
}

} // namespace

void read_pieces(const std::string& path, std::size_t limit,
                 const std::function<void(std::string_view)>& take) {
    if (path == "-")
        return read_standard_input(limit, take);
    // O_NONBLOCK: opening a named pipe must not hang.
    Descriptor file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
    if (file.fd < 0)
        fail(path, std::string("cannot be read: ") + std::strerror(errno));
    struct stat info {};
    if (::fstat(file.fd, &info) != 0)
        fail(path, std::string("cannot be read: ") + std::strerror(errno));
    if (S_ISDIR(info.st_mode))
        fail(path, "is a directory; a file is needed");
    if (!S_ISREG(info.st_mode))
        fail(path, "is not a regular file; standard input is called -");
    if (info.st_size == 0)
        fail(path, "is empty");
    if (static_cast<size_t>(info.st_size) > limit)
        fail(path, "is too large (" + std::to_string(info.st_size >> 20) + " MB); allowed up to " +
                       std::to_string(limit >> 20) + " MB");
    std::string piece(1u << 16, '\0');
    for (size_t done = 0; done < limit;) {
        const ssize_t n = ::read(file.fd, piece.data(), std::min(piece.size(), limit - done));
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            fail(path, std::string("cannot be read: ") + std::strerror(errno));
        if (n == 0)
            break;
        take(std::string_view(piece.data(), static_cast<size_t>(n)));
        done += static_cast<size_t>(n);
    }
    note_read(path);
}

std::string read_file(const std::string& path, std::size_t limit) {
    std::string bytes;
    read_pieces(path, limit, [&bytes](std::string_view piece) { bytes.append(piece); });
    return bytes;
}

namespace {

struct Read {
    std::mutex mutex;
    std::set<std::string> paths;
};

Read& read_so_far() {
    static Read read;
    return read;
}

} // namespace

std::vector<std::string> files_read() {
    Read& read = read_so_far();
    const std::lock_guard lock(read.mutex);
    return {read.paths.begin(), read.paths.end()};
}

void note_read(const std::string& path) {
    Read& read = read_so_far();
    const std::lock_guard lock(read.mutex);
    read.paths.insert(path);
}

void write_file(const std::string& path, const std::string& bytes) {
    Outputs outputs;
    outputs.add(path, bytes);
    outputs.commit();
}

} // namespace tuck::io
