// The version of the library.
#pragma once

namespace tuck {

/// Of the library that is linked: "0.1.0". The same version gives the same bytes for the same input.
const char* version();

} // namespace tuck
