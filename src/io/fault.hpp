// Faults in what the user gave: where, what is wrong, what is allowed.
#pragma once

#include "base/words.hpp"

#include <stdexcept>
#include <string>
#include <vector>

namespace tuck::io {

struct Fault {
    std::string file;  // or the option: "--mass"
    std::string place; // JSON pointer, or "line 3, column 7"; may be empty
    std::string text;  // what is wrong; what is allowed
};

/// One line: "athlete.json: /mass_kg: 700 is too large; allowed 25 to 250 kg".
std::string line_of(const Fault& fault);

/// All faults found in one go. `what()` holds one line per fault.
class InputError : public std::runtime_error {
public:
    explicit InputError(std::vector<Fault> faults);
    InputError(std::string file, std::string place, std::string text);
    std::vector<Fault> faults;
};

using tuck::nearest_word;

} // namespace tuck::io
