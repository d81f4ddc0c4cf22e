// The athlete that plans take where nothing else names one.
#pragma once

#include <string>

namespace tuck::cli {

/// $XDG_CONFIG_HOME/tuck/athlete.json, or ~/.config/tuck/athlete.json; empty where neither place is known.
std::string profile_file();

/// The same, where such a file stands; else empty.
std::string standing_profile();

} // namespace tuck::cli
