#include "io/file_calls.hpp"

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <filesystem>
#include <unistd.h>

namespace tuck::io {

ssize_t FileCalls::write(int fd, const void* bytes, std::size_t count) {
    return ::write(fd, bytes, count);
}

int FileCalls::sync(int fd) {
    return ::fsync(fd);
}

int FileCalls::truncate(int fd, off_t size) {
    return ::ftruncate(fd, size);
}

int FileCalls::rename(const char* from, const char* to, bool exchange) {
#ifdef RENAME_EXCHANGE
    return ::renameat2(AT_FDCWD, from, AT_FDCWD, to, exchange ? RENAME_EXCHANGE : 0);
#else // only Linux exchanges two files in one step
    if (!exchange)
        return std::rename(from, to);
    errno = ENOTSUP;
    return -1;
#endif
}

FileCalls& system_calls() {
    static FileCalls calls; // holds no state
    return calls;
}

int write_all(FileCalls& calls, int fd, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t n = calls.write(fd, bytes.data(), bytes.size());
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return n == 0 ? ENOSPC : errno;
        bytes.remove_prefix(static_cast<std::size_t>(n));
    }
    return 0;
}

void sync_folder_of(FileCalls& calls, const char* path) {
    const auto folder = std::filesystem::path(path).parent_path();
    const int fd = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0)
        return;
    calls.sync(fd);
    ::close(fd);
}

} // namespace tuck::io
