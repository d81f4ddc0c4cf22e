// A text file that only grows, line by line: what was acknowledged stays, whatever happens next.
#pragma once

#include "io/file_calls.hpp"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace tuck::io {

struct Appended {
    std::string last_line;     // written; without its newline
    std::string torn_moved_to; // a torn last line was found: it is kept in this file
};

/// What to add, one or more lines that each end in a newline. It is asked with the last whole line of the
/// file (empty: none), under the lock.
using MakeLines = std::function<std::string(const std::string& last_line)>;
/// True for a line that is whole although its newline is missing.
using IsWhole = std::function<bool(const std::string& line)>;

/// Called once the lines are on the disk, under the lock; what it throws takes them back.
using OnceOnDisk = std::function<void()>;

/// Adds lines at the end; a new file is for its owner alone. One writer at a time (flock; waits up to 10 s).
/// Returns when the lines are on the disk. If that fails the file is as it was before, or at worst ends in a
/// torn line that the next call moves to a file beside it. Throws InputError.
Appended append_lines(const std::string& path, const MakeLines& make, const IsWhole& whole);
Appended append_lines(const std::string& path, const MakeLines& make, const IsWhole& whole, FileCalls& calls,
                      const OnceOnDisk& told = {});

struct LogLines {
    std::vector<std::string> lines; // whole ones, without newlines
    std::string torn;               // what stands after the last newline
};

/// The whole file; a missing one has no lines. Throws InputError for what cannot be read or is over 64 MB.
LogLines read_lines(const std::string& path);
/// The lines of a text that was read by other means.
LogLines lines_in(const std::string& bytes);
/// The same for who holds the lock already: inside MakeLines.
LogLines lines_under_lock(const std::string& path);
/// Throws InputError where there is no such file.
void require_there(const std::string& path);

/// Moves the lines that `keep` does not want, byte for byte, to the end of the file `beside`; nothing else
/// changes. Both files stand in their places together. Returns how many there were. Throws InputError; both
/// are then as they were.
std::size_t set_aside_lines(const std::string& path, const std::string& beside,
                            const std::function<std::vector<bool>(const LogLines&)>& keep);

inline constexpr std::size_t longest_line = 1u << 18; // bytes

} // namespace tuck::io
