#include "places.hpp"

namespace tuck::places {

const char* foods() {
    return TUCK_FOODS_DIR;
}
const char* samples() {
    return TUCK_SAMPLES_DIR;
}
const char* tests() {
    return TUCK_TEST_DIR;
}

} // namespace tuck::places
