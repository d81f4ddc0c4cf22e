// Faults in what the user gave: where, what is wrong, what is allowed.
#pragma once

#include "base/words.hpp"

#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

namespace tuck::io {

struct Fault {
    std::string file;  // or the option: "--mass"
    std::string place; // JSON pointer, or "line 3, column 7"; may be empty
    std::string text;  // what is wrong; what is allowed
};

/// More are counted and not told: a file of another kind is wrong in every line.
inline constexpr std::size_t most_faults_told = 50;

/// One line, fit for a terminal: "athlete.json: /mass_kg: 700 is too large; allowed 25 to 250 kg".
std::string line_of(const Fault& fault);

/// The first 50 faults; where there are more the last says "and 150 more".
std::vector<Fault> first_of(std::vector<Fault> faults);

/// All faults found in one go. `what()` holds one line for each of the first 50.
class InputError : public std::runtime_error {
public:
    explicit InputError(std::vector<Fault> faults);
    InputError(std::string file, std::string place, std::string text);
    std::vector<Fault> faults;
};

using tuck::nearest_word;

} // namespace tuck::io
