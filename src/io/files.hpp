// Files in and out: bounded reads, and writes that never leave half a file.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace tuck::io {

inline constexpr std::size_t largest_text_file = 4u << 20; // bytes; the largest sample is 10 kB

/// The whole file ("-": standard input, once). Throws InputError for what cannot be read, a directory, an
/// empty or an oversized file.
std::string read_file(const std::string& path, std::size_t limit = largest_text_file);

/// The same file piece by piece, for those that are too large to hold.
void read_pieces(const std::string& path, std::size_t limit,
                 const std::function<void(std::string_view)>& take);

/// For readers of standard input that do not go through read_file. Throws InputError the second time.
void take_standard_input();

/// The files that this process has read so far, each once: what no output of the same command may replace.
std::vector<std::string> files_read();
/// For readers that do not go through read_file.
void note_read(const std::string& path);

/// Writes one file through Outputs. Throws InputError; the target is then as it was before.
void write_file(const std::string& path, const std::string& bytes);

} // namespace tuck::io
