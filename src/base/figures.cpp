#include "tuck/figures.hpp"

#include <algorithm>

namespace tuck {

const Source* find_source(std::string_view key) {
    const auto all = sources();
    const auto found = std::find_if(all.begin(), all.end(), [key](const Source& s) { return s.key == key; });
    return found == all.end() ? nullptr : &*found;
}

std::string_view to_string(Seen seen) {
    switch (seen) {
    case Seen::read:
        return "read";
    case Seen::second_hand:
        return "second hand";
    case Seen::memory:
        return "memory";
    case Seen::practice:
        return "common practice";
    case Seen::choice:
        break;
    }
    return "our choice";
}

} // namespace tuck
