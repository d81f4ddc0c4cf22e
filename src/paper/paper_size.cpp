#include "paper/paper_size.hpp"

#include <fmt/format.h>

#include <stdexcept>

namespace tuck::faces {

Paper paper_of(const std::string& word) {
    if (word == "a4")
        return {"A4", 210, 297};
    if (word == "letter")
        return {"Letter", 215.9, 279.4};
    throw std::runtime_error(fmt::format("paper \"{}\" is not known; allowed: a4, letter", word));
}

} // namespace tuck::faces
