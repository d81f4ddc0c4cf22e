// Every door by which bytes of a stranger come in. A door reads what it is given, or refuses it with an
// Error; anything else that comes out is a fault of ours.
#pragma once

#include <string>
#include <vector>

namespace tuck::fuzz {

struct Door {
    const char* name;
    /// True: read; false: refused.
    bool (*knock)(const std::string& bytes);
};

const std::vector<Door>& doors();
/// Throws std::out_of_range where there is none of that name.
const Door& door(const std::string& name);

} // namespace tuck::fuzz
