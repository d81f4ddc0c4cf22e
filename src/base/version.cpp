#include "tuck/version.hpp"

namespace tuck {

const char* version() {
    return TUCK_VERSION;
}

} // namespace tuck
