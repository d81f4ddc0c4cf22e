// The doors before libFuzzer; which one, the environment's TUCK_DOOR says.
#include "fuzz/doors.hpp"

#include "tuck/error.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <stdexcept>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    static const auto& door = tuck::fuzz::door(std::getenv("TUCK_DOOR") ? std::getenv("TUCK_DOOR") : "");
    try {
        door.knock(std::string(reinterpret_cast<const char*>(bytes), size));
    } catch (const tuck::Error&) { // refused, in words
    } catch (const std::invalid_argument&) {
    }
    return 0;
}
