// Faults in what the user gave: where, what is wrong, what is allowed.
#pragma once

#include "base/words.hpp"
#include "tuck/error.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace tuck::io {

using tuck::Fault;
using tuck::line_of;
using tuck::nearest_word;
using InputError = tuck::Error;

/// More are counted and not told: a file of another kind is wrong in every line.
inline constexpr std::size_t most_faults_told = 50;

/// The first 50 faults; where there are more the last says "and 150 more".
std::vector<Fault> first_of(std::vector<Fault> faults);

} // namespace tuck::io
