// Faults in what the user gave: where, what is wrong, what is allowed.
#pragma once

#include "base/words.hpp"
#include "tuck/error.hpp"

#include <string>
#include <vector>

namespace tuck::io {

using tuck::Fault;
using tuck::first_of;
using tuck::line_of;
using tuck::most_faults_told;
using tuck::nearest_word;
using InputError = tuck::Error;

} // namespace tuck::io
