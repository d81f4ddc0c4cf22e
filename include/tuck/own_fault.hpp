// A fault of ours, not of what was given.
#pragma once

#include <stdexcept>
#include <string>

namespace tuck {

/// The program found that it is wrong: nothing that it made may be used. `what()` says what was found.
class OwnFault : public std::logic_error {
public:
    explicit OwnFault(const std::string& found) : std::logic_error(found) {}
};

} // namespace tuck
