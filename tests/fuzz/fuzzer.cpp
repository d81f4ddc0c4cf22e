// One door before libFuzzer; which one, TUCK_DOOR says when it is built.
#include "fuzz/doors.hpp"

#include "tuck/error.hpp"

#include <cstddef>
#include <cstdint>
#include <stdexcept>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    static const auto& door = tuck::fuzz::door(TUCK_DOOR);
    try {
        door.knock(std::string(reinterpret_cast<const char*>(bytes), size));
    } catch (const tuck::Error&) { // refused, in words
    } catch (const std::invalid_argument&) {
    }
    return 0;
}
