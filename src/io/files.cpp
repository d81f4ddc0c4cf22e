#include "io/files.hpp"

#include "io/fault.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
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

bool write_all(int fd, const std::string& bytes) {
    size_t done = 0;
    while (done < bytes.size()) {
        const ssize_t n = ::write(fd, bytes.data() + done, bytes.size() - done);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return false;
        done += static_cast<size_t>(n);
    }
    return true;
}

} // namespace

void read_pieces(const std::string& path, std::size_t limit, const std::function<void(std::string_view)>& take) {
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
        fail(path, "is not a regular file");
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
}

std::string read_file(const std::string& path, std::size_t limit) {
    std::string bytes;
    read_pieces(path, limit, [&bytes](std::string_view piece) { bytes.append(piece); });
    return bytes;
}

namespace {

/// A device or a pipe takes the bytes itself: a rename would put a plain file in its place.
void write_through(const std::string& path, const std::string& bytes) {
    Descriptor file(::open(path.c_str(), O_WRONLY | O_NOCTTY | O_CLOEXEC));
    if (file.fd < 0 || !write_all(file.fd, bytes))
        fail(path, std::string("cannot be written: ") + std::strerror(errno));
}

} // namespace

void write_file(const std::string& path, const std::string& bytes) {
    struct stat info {};
    const bool stands = ::stat(path.c_str(), &info) == 0;
    if (stands && S_ISDIR(info.st_mode))
        fail(path, "is a directory; a file name is needed");
    if (stands && !S_ISREG(info.st_mode))
        return write_through(path, bytes);
    const std::string beside = path + "." + std::to_string(::getpid()) + ".tmp";
    std::string problem;
    {
        Descriptor file(::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644));
        if (file.fd < 0)
            fail(path, std::string("cannot be written: ") + std::strerror(errno));
        if (!write_all(file.fd, bytes) || ::fsync(file.fd) != 0)
            problem = std::strerror(errno);
    }
    if (problem.empty() && ::rename(beside.c_str(), path.c_str()) != 0)
        problem = std::strerror(errno);
    if (!problem.empty()) {
        ::unlink(beside.c_str());
        fail(path, "cannot be written: " + problem);
    }
}

} // namespace tuck::io
