// What is wrong with what was given: the one error of this library.
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

namespace tuck {

/// One thing that is wrong. All texts are UTF-8; any of them may be empty but `what`.
struct Fault {
    std::string file;         // the document, or the option: "athlete.json", "--mass"
    std::string place;        // in it: a JSON pointer, or "line 3, column 7"
    std::string what;         // what is wrong; where `allowed` is empty it says what is allowed too
    std::string allowed = {}; // "25 to 250 kg"
    std::string nearest = {}; // the known word that was most likely meant
};

/// One line, fit for a terminal: "athlete.json: /mass_kg: 700 is out of range; allowed 25 to 250 kg".
std::string line_of(const Fault& fault);
/// The end of that line: what is wrong, and the word that was most likely meant, else what is allowed.
std::string words_of(const Fault& fault);

/// More are counted and not told: a file of another kind is wrong in every line.
inline constexpr std::size_t most_faults_told = 50;
/// The first 50 faults; where there are more the last says "and 150 more".
std::vector<Fault> first_of(std::vector<Fault> faults);

/// Everything that was found wrong in one go. `what()` holds a line for each of the first 50 faults. Thrown
/// by whatever reads documents, options or edits, and by compose_plan for a day of over 48 h and for own
/// lines that the day has no place for. What is wrong with this library itself is an OwnFault
/// (own_fault.hpp).
class Error : public std::runtime_error {
public:
    explicit Error(std::vector<Fault> faults);
    Error(std::string file, std::string place, std::string what);
    std::vector<Fault> faults;
};

} // namespace tuck
