#include "tuck/reason.hpp"

namespace tuck {

const char* to_string(Severity severity) {
    return severity == Severity::danger ? "danger" : severity == Severity::caution ? "caution" : "note";
}

} // namespace tuck
