#include "io/line_log.hpp"

#include "io/fault.hpp"
#include "io/files.hpp"
#include "io/outputs.hpp"

#include <cerrno>
#include <chrono>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <thread>
#include <unistd.h>
#include <utility>

namespace tuck::io {

namespace {

constexpr std::size_t largest_log = 64u << 20;
constexpr int lock_tries = 1000;
constexpr mode_t private_mode = 0600; // it holds body mass and health
constexpr auto lock_pause = std::chrono::milliseconds(10);

[[noreturn]] void fail(const std::string& path, const std::string& what) {
    throw InputError(path, "", what);
}

[[noreturn]] void fail_on_write(const std::string& path, int error) {
    fail(path, std::string("cannot be written: ") + std::strerror(error));
}

/// An open file under a lock; both end with it.
class Locked {
public:
    Locked(const std::string& path, int flags, int lock) {
        do {
            close();
            open(path, flags, lock);
        } while (!still_there(path)); // replaced while we waited: mended
    }
    Locked(const Locked&) = delete;
    Locked& operator=(const Locked&) = delete;
    ~Locked() { close(); }

    int fd() const { return fd_; }
    off_t size() const {
        struct stat info {};
        return ::fstat(fd_, &info) == 0 ? info.st_size : 0;
    }
    std::string read(const std::string& path, off_t from, std::size_t count) const {
        std::string bytes(count, '\0');
        std::size_t done = 0;
        while (done < count) {
            const ssize_t n =
                ::pread(fd_, bytes.data() + done, count - done, from + static_cast<off_t>(done));
            if (n < 0 && errno == EINTR)
                continue;
            if (n < 0)
                fail(path, std::string("cannot be read: ") + std::strerror(errno));
            if (n == 0)
                break;
            done += static_cast<std::size_t>(n);
        }
        bytes.resize(done);
        return bytes;
    }

private:
    void open(const std::string& path, int flags, int lock) {
        fd_ = ::open(path.c_str(), flags | O_CLOEXEC, private_mode);
        if (fd_ < 0)
            fail(path,
                 fmt::format("cannot be {}: {}", lock == LOCK_EX ? "written" : "read", std::strerror(errno)));
        try {
            require_regular(path);
            wait_for(path, lock);
        } catch (...) {
            close();
            throw;
        }
    }
    void close() {
        if (fd_ >= 0)
            ::close(std::exchange(fd_, -1));
    }
    bool still_there(const std::string& path) const {
        struct stat ours {
        }, there{};
        return ::fstat(fd_, &ours) == 0 && ::stat(path.c_str(), &there) == 0 && ours.st_ino == there.st_ino &&
               ours.st_dev == there.st_dev;
    }
    void require_regular(const std::string& path) const {
        struct stat info {};
        if (::fstat(fd_, &info) != 0 || !S_ISREG(info.st_mode))
            fail(path, S_ISDIR(info.st_mode) ? "is a directory; a file is needed" : "is not a regular file");
    }
    void wait_for(const std::string& path, int lock) const {
        for (int i = 0; i < lock_tries; ++i) {
            if (::flock(fd_, lock | LOCK_NB) == 0)
                return;
            if (errno != EWOULDBLOCK && errno != EINTR)
                fail(path, std::string("cannot be locked: ") + std::strerror(errno));
            std::this_thread::sleep_for(lock_pause);
        }
        fail(path, "is in use by another process; try again");
    }

    int fd_ = -1;
};

/// 0, or the error; the file is then cut back to what it was, as far as the disk lets us.
int add_on_disk(FileCalls& calls, const Locked& file, const std::string& bytes) {
    const off_t before = file.size();
    int error = write_all(calls, file.fd(), bytes);
    if (error == 0 && calls.sync(file.fd()) != 0)
        error = errno;
    if (error != 0 && calls.truncate(file.fd(), before) == 0)
        calls.sync(file.fd());
    return error;
}

/// A free name beside the log, or one that holds these bytes already: an earlier try was cut short.
std::string name_for_torn(const std::string& path, off_t offset, const std::string& bytes) {
    const std::string base = fmt::format("{}.torn-{}", path, offset);
    std::string name = base;
    for (int n = 2; std::filesystem::exists(name) && read_file(name) != bytes; ++n)
        name = fmt::format("{}-{}", base, n);
    return name;
}

struct Tail {
    std::string last_line, torn;
    off_t torn_at = 0;
};

Tail tail_of(const Locked& file, const std::string& path) {
    const off_t size = file.size();
    const auto count = std::min<off_t>(size, static_cast<off_t>(2 * longest_line));
    const std::string bytes = file.read(path, size - count, static_cast<std::size_t>(count));
    const auto newline = bytes.rfind('\n');
    const auto torn_from = newline == std::string::npos ? 0 : newline + 1;
    if (newline == std::string::npos && count < size)
        fail(path, "is not a file of lines");
    Tail tail;
    tail.torn = bytes.substr(torn_from);
    tail.torn_at = size - static_cast<off_t>(tail.torn.size());
    if (newline != std::string::npos && newline > 0) {
        const auto previous = bytes.rfind('\n', newline - 1);
        const auto from = previous == std::string::npos ? 0 : previous + 1;
        tail.last_line = bytes.substr(from, newline - from);
    }
    return tail;
}

/// Ends a whole line that lacks its newline, or moves a torn one beside the file. Nothing is lost: the copy
/// is on the disk before the cut.
std::string repair(const Locked& file, const std::string& path, Tail& tail, const IsWhole& whole,
                   FileCalls& calls) {
    if (tail.torn.empty())
        return {};
    if (whole(tail.torn)) {
        if (const int error = add_on_disk(calls, file, "\n"))
            fail_on_write(path, error);
        tail.last_line = tail.torn;
        return {};
    }
    auto beside = name_for_torn(path, tail.torn_at, tail.torn);
    Outputs outputs(calls);
    outputs.add(beside, tail.torn, private_mode);
    outputs.commit();
    if (calls.truncate(file.fd(), tail.torn_at) != 0 || calls.sync(file.fd()) != 0)
        fail_on_write(path, errno);
    return beside;
}

} // namespace

Appended append_lines(const std::string& path, const MakeLines& make, const IsWhole& whole, FileCalls& calls,
                      const OnceOnDisk& told) {
    if (path == "-")
        fail("-", "cannot be added to; a file that grows needs a name");
    const bool is_new = !std::filesystem::exists(path);
    const Locked file(path, O_RDWR | O_APPEND | O_CREAT, LOCK_EX);
    Tail tail = tail_of(file, path);
    Appended out;
    out.torn_moved_to = repair(file, path, tail, whole, calls);
    const off_t before = file.size();
    std::string lines;
    try {
        lines = make(tail.last_line);
        if (const int error = add_on_disk(calls, file, lines))
            fail_on_write(path, error);
        if (is_new)
            sync_folder_of(calls, path.c_str());
        if (told)
            told();
    } catch (...) {
        if (is_new && before == 0)
            ::unlink(path.c_str());
        else if (file.size() > before && calls.truncate(file.fd(), before) == 0)
            calls.sync(file.fd());
        throw;
    }
    const auto end = lines.size() - 1;
    const auto start = lines.rfind('\n', end - 1);
    out.last_line = lines.substr(start == std::string::npos ? 0 : start + 1);
    out.last_line.pop_back();
    return out;
}

Appended append_lines(const std::string& path, const MakeLines& make, const IsWhole& whole) {
    return append_lines(path, make, whole, system_calls());
}

namespace {

LogLines lines_of(const Locked& file, const std::string& path) {
    const off_t size = file.size();
    if (static_cast<std::size_t>(size) > largest_log)
        fail(path, fmt::format("is too large; allowed up to {} MB", largest_log >> 20));
    return lines_in(file.read(path, 0, static_cast<std::size_t>(size)));
}

} // namespace

LogLines lines_in(const std::string& bytes) {
    LogLines out;
    std::size_t at = 0;
    for (auto end = bytes.find('\n'); end != std::string::npos; end = bytes.find('\n', at)) {
        out.lines.push_back(bytes.substr(at, end - at));
        at = end + 1;
    }
    out.torn = bytes.substr(at);
    return out;
}

LogLines read_lines(const std::string& path) {
    if (path == "-")
        return lines_in(read_file(path, largest_log));
    if (!std::filesystem::exists(path))
        return {};
    note_read(path);
    return lines_of(Locked(path, O_RDONLY | O_NONBLOCK, LOCK_SH), path);
}

LogLines lines_under_lock(const std::string& path) {
    return lines_of(Locked(path, O_RDONLY, LOCK_UN), path);
}

void require_there(const std::string& path) {
    if (path != "-" && !std::filesystem::exists(path))
        fail(path, "cannot be read: No such file or directory");
}

std::size_t set_aside_lines(const std::string& path, const std::string& beside,
                            const std::function<std::vector<bool>(const LogLines&)>& keep) {
    require_there(path);
    const Locked file(path, O_RDWR, LOCK_EX);
    const auto log = lines_of(file, path);
    const auto wanted = keep(log);
    std::string kept, aside = std::filesystem::exists(beside) ? read_file(beside, largest_log) : "";
    std::size_t count = 0;
    for (std::size_t i = 0; i < log.lines.size(); ++i) {
        (wanted[i] ? kept : aside) += log.lines[i] + "\n";
        count += !wanted[i];
    }
    if (count == 0)
        return 0;
    Outputs outputs;
    outputs.add(beside, aside, private_mode);
    outputs.add(path, kept + log.torn, private_mode);
    outputs.commit();
    return count;
}

} // namespace tuck::io
