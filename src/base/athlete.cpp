#include "tuck/athlete.hpp"

namespace tuck {

const char* to_string(Level level) {
    switch (level) {
    case Level::beginner:
        return "beginner";
    case Level::steady:
        return "steady";
    case Level::keen:
        return "keen";
    case Level::fast:
        return "fast";
    case Level::unknown:
        break;
    }
    return "unknown";
}

} // namespace tuck
