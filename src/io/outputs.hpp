// What a command leaves behind: all of its files and its words on standard output, or none of them.
#pragma once

#include "io/file_calls.hpp"

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace tuck::io {

/// A file that grows beside its place and stands there once its Outputs are committed. What exists and is no
/// plain file (a device, a pipe) takes the bytes at once: nothing may be put in its place.
class NewFile {
public:
    ~NewFile();
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    /// Throws InputError when the disk is full or gone.
    void write(std::string_view bytes);
    /// All bytes are there: flushes them to the disk. Only a file that goes on growing needs no call.
    void finish();
    /// Bytes so far.
    std::uint64_t size() const { return size_; }

private:
    friend class Outputs;
    NewFile(FileCalls& calls, std::string shown, std::string place, std::string beside, mode_t mode);
    void flush();
    void place_it();
    void take_back();
    [[noreturn]] void fail(int error) const;

    FileCalls& calls_;
    std::string shown_;  // as the user wrote it
    std::string place_;  // links followed
    std::string beside_; // empty: written through
    std::string waiting_;
    std::uint64_t size_ = 0;
    int fd_ = -1;
    bool stands_ = false, placed_ = false, exchanged_ = false;
};

/// All outputs of one command. They are prepared in full, then put in their places; what fails before leaves
/// every file as it was. Existing files keep their mode, links are followed.
class Outputs {
public:
    explicit Outputs(FileCalls& calls = system_calls()) : calls_(calls) {}

    /// No output may be one of these: the command reads them.
    void never_over(const std::vector<std::string>& inputs);

    /// A file to be written bit by bit, with `mode` where it is new. `beside` is where it grows; not given:
    /// next to its place. Throws InputError for a folder, an input, and a name that stands twice.
    NewFile& open(const std::string& path, const std::string& beside = "", mode_t mode = 0644);

    /// "-": to standard output, in the place of words; no file is ever called that.
    void add(const std::string& path, std::string_view bytes, mode_t mode = 0644);

    /// Words for standard output; they are said once every file stands in its place, and none stays where
    /// they cannot be.
    void print(std::string_view text) { words_ += text; }

    /// Throws InputError; everything is then as it was, but for what a device or a pipe has taken.
    void commit();

private:
    FileCalls& calls_;
    std::vector<std::string> inputs_, places_;
    std::vector<std::unique_ptr<NewFile>> files_;
    std::string words_, piped_;
};

/// Says `text` on standard output and flushes. Throws InputError when it is full or closed.
void say(std::string_view text);

} // namespace tuck::io
