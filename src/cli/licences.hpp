// Whose work the program and the page are made of, and under which terms.
#pragma once

namespace tuck::cli {

/// A list, and the texts of those licences that ask to be handed on with a compiled program.
/// src/page/assemble.py carries it into the page.
const char* licences_text();

} // namespace tuck::cli
