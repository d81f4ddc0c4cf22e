// `tuck rehearse --live`: a clock with the next feed, and one key for each mark.
#pragma once

#include "io/marks_file.hpp"

#include <string>

namespace tuck::cli {

/// Runs until q, Ctrl-C or the end of the input. `session` begins the file if it is new; else the file's own
/// session goes on. Every mark is on the disk before it is shown.
/// `speed` above 1: a dry run, that much faster than the clock, of which nothing is kept.
int run_live(const std::string& path, const io::Marks& session, double speed = 1);

} // namespace tuck::cli
