#include "io/folder_lock.hpp"

#include "io/fault.hpp"

#include <cerrno>
#include <chrono>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/file.h>
#include <thread>
#include <unistd.h>

namespace tuck::io {

namespace {

constexpr int tries = 1000;
constexpr auto pause = std::chrono::milliseconds(10);

} // namespace

FolderLock::FolderLock(const std::string& file) {
    const auto folder = std::filesystem::path(file).parent_path();
    fd_ = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd_ < 0)
        throw InputError(file, "", std::string("cannot be written: ") + std::strerror(errno));
    for (int i = 0; i < tries; ++i) {
        if (::flock(fd_, LOCK_EX | LOCK_NB) == 0)
            return;
        if (errno != EWOULDBLOCK && errno != EINTR)
            return; // a file system without locks: as before
        std::this_thread::sleep_for(pause);
    }
    ::close(fd_);
    throw InputError(file, "", "is in use by another process; try again");
}

FolderLock::~FolderLock() {
    ::close(fd_);
}

} // namespace tuck::io
