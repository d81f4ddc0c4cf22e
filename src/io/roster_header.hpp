// Headers of a roster as people write them: "Weight (lb)", "Gewicht (kg)", "5k PB".
#pragma once

#include <map>
#include <string>

namespace tuck::io {

/// What a column of a roster holds.
struct RosterHeader {
    std::string name;      // a known column, "mass_kg"; empty: see the next
    std::string result;    // of a run over this distance: "10km"; empty: none
    std::string unit;      // that the header names and the cells leave out: "lb"
    bool left_out = false; // by the user's own file
    bool known() const { return !name.empty() || !result.empty(); }
};

/// Headers of one's own, from a file of lines "their header = our column (unit)", or "= -" for one that is
/// left out. By the header in small letters.
using OwnHeaders = std::map<std::string, RosterHeader>;
/// Throws InputError with every line that cannot be read.
OwnHeaders read_own_headers(const std::string& path);

/// What the header says by one's own file, else by itself.
RosterHeader roster_header(const std::string& text, const OwnHeaders& own);

/// Known names in any case; else plain words with their unit. Not known: neither name nor result.
RosterHeader roster_header(const std::string& text);

} // namespace tuck::io
