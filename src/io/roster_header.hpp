// Headers of a roster as people write them: "Weight (lb)", "Gewicht (kg)", "5k PB".
#pragma once

#include <optional>
#include <string>

namespace tuck::io {

/// What a column of a roster holds.
struct RosterHeader {
    std::string name;   // a known column, "mass_kg"; empty: see the next
    std::string result; // of a run over this distance: "10km"; empty: none
    std::string unit;   // that the header names and the cells leave out: "lb"
    bool known() const { return !name.empty() || !result.empty(); }
};

/// Known names in any case; else plain words with their unit. Not known: neither name nor result.
RosterHeader roster_header(const std::string& text);

} // namespace tuck::io
