// Faults of a roster, one line for each kind of them.
#pragma once

#include "io/fault.hpp"

#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

namespace tuck::cli {

/// Gathers the faults of rows and tells them: one row as it is, several of a kind with their rows.
class FaultKinds {
public:
    void add(std::uint64_t row, const std::vector<io::Fault>& faults);
    /// One line each, in the order of the first row of a kind.
    std::vector<std::string> lines() const;

private:
    struct Kind {
        std::string key, first;
        std::vector<std::uint64_t> rows; // the first ones
        std::uint64_t count = 0;
    };
    std::vector<Kind> kinds_;
    std::uint64_t untold_ = 0;
};

/// Notices a bib or a name of the first 5,000 rows that stands again, and rows without either.
class TwiceTold {
public:
    void add(std::uint64_t row, const std::string& bib, const std::string& name);
    /// One line for each kind.
    std::vector<std::string> notes(const std::string& roster) const;

private:
    struct Kind {
        std::unordered_map<std::uint64_t, std::uint64_t> first; // hash of the word -> row
        std::vector<std::string> examples;
        std::uint64_t count = 0;
    };
    static void add(std::uint64_t row, const std::string& word, Kind& kind);

    Kind bibs_, names_, nobody_;
};

} // namespace tuck::cli
