#include "io/outputs.hpp"

#include "io/fault.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace tuck::io {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t bytes_at_a_time = 64u << 10;

/// One name for each file, however it is written.
std::string place_of(const std::string& path) {
    std::error_code none;
    const auto place = fs::weakly_canonical(fs::absolute(path, none), none);
    return none ? path : place.string();
}

} // namespace

NewFile::NewFile(FileCalls& calls, std::string shown, std::string place, std::string beside, mode_t mode)
    : calls_(calls), shown_(std::move(shown)), place_(std::move(place)), beside_(std::move(beside)) {
    struct stat old {};
    stands_ = ::stat(place_.c_str(), &old) == 0;
    if (stands_ && S_ISDIR(old.st_mode))
        throw InputError(shown_, "", "is a directory; a file name is needed");
    if (stands_ && !S_ISREG(old.st_mode))
        beside_.clear();
    else if (beside_.empty())
        beside_ = place_ + "." + std::to_string(::getpid()) + ".tmp";
    fd_ = beside_.empty() ? ::open(place_.c_str(), O_WRONLY | O_NOCTTY | O_CLOEXEC)
                          : ::open(beside_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
    if (fd_ < 0) {
        beside_.clear(); // not ours: it may be another's
        fail(errno);
    }
    if (stands_ && !beside_.empty())
        ::fchmod(fd_, old.st_mode & 07777);
}

NewFile::~NewFile() {
    if (fd_ >= 0)
        ::close(fd_);
    if (!beside_.empty() && (!placed_ || exchanged_))
        ::unlink(beside_.c_str()); // what did not come to stand, or what stood here before
}

void NewFile::fail(int error) const {
    throw InputError(shown_, "", std::string("cannot be written: ") + std::strerror(error));
}

void NewFile::write(std::string_view bytes) {
    size_ += bytes.size();
    waiting_ += bytes;
    if (waiting_.size() >= bytes_at_a_time || beside_.empty())
        flush();
}

void NewFile::flush() {
    if (const int error = write_all(calls_, fd_, waiting_))
        fail(error);
    waiting_.clear();
}

void NewFile::finish() {
    if (fd_ < 0)
        return;
    flush();
    std::string().swap(waiting_); // its room too: a season has hundreds of finished volumes
    if (!beside_.empty() && calls_.sync(fd_) != 0)
        fail(errno);
    if (::close(std::exchange(fd_, -1)) != 0)
        fail(errno);
}

void NewFile::place_it() {
    if (beside_.empty())
        return;
    // Swapped rather than replaced, so that it can be taken back; not every file system can.
    exchanged_ = stands_ && calls_.rename(beside_.c_str(), place_.c_str(), true) == 0;
    if (!exchanged_ && calls_.rename(beside_.c_str(), place_.c_str(), false) != 0)
        fail(errno);
    placed_ = true;
}

void NewFile::take_back() {
    if (placed_ && !beside_.empty() && calls_.rename(place_.c_str(), beside_.c_str(), exchanged_) == 0)
        placed_ = exchanged_ = false;
}

void Outputs::never_over(const std::vector<std::string>& inputs) {
    for (const auto& input : inputs)
        inputs_.push_back(place_of(input));
}

NewFile& Outputs::open(const std::string& path, const std::string& beside, mode_t mode) {
    if (path.empty())
        throw InputError("output", "", "has an empty name; allowed: the name of a file");
    if (path == "-")
        throw InputError("output", "", "cannot go to standard output here; allowed: the name of a file");
    const auto place = place_of(path);
    const auto holds = [&](const std::vector<std::string>& places) {
        return std::find(places.begin(), places.end(), place) != places.end();
    };
    struct stat there {
    }, link{};
    if (::lstat(path.c_str(), &link) == 0 && S_ISLNK(link.st_mode) && ::stat(path.c_str(), &there) != 0)
        throw InputError(path, "", "is a link that leads nowhere; allowed: a file, or a link to one");
    const bool plain = ::stat(place.c_str(), &there) != 0 || S_ISREG(there.st_mode);
    if (plain && holds(inputs_))
        throw InputError(path, "", "is read by this command; write to another file");
    if (plain && holds(places_))
        throw InputError(path, "", "is to be written twice; give each output a name of its own");
    places_.push_back(place);
    files_.push_back(std::unique_ptr<NewFile>(new NewFile(calls_, path, place, beside, mode)));
    return *files_.back();
}

void Outputs::add(const std::string& path, std::string_view bytes, mode_t mode) {
    if (path == "-") {
        if (!piped_.empty())
            throw InputError("output", "", "standard output takes one document; give the others names");
        piped_ = bytes;
        return;
    }
    auto& file = open(path, "", mode);
    file.write(bytes);
    file.finish();
}

void Outputs::commit() {
    for (auto& file : files_)
        file->finish();
    try {
        for (auto& file : files_)
            file->place_it();
        for (auto& file : files_)
            if (!file->beside_.empty())
                sync_folder_of(calls_, file->place_.c_str());
        if (const auto& said = piped_.empty() ? words_ : piped_; !said.empty())
            say(said);
    } catch (...) {
        for (auto& file : files_)
            file->take_back();
        throw;
    }
    files_.clear();
    words_.clear();
    piped_.clear();
}

void say(std::string_view text) {
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0)
        throw InputError("standard output", "", "cannot be written");
}

} // namespace tuck::io
