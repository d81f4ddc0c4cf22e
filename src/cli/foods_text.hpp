// How foods look on the terminal: 80 columns, no colour.
#pragma once

#include "io/fault.hpp"
#include "tuck/food.hpp"

#include <string>
#include <vector>

namespace tuck::cli {

std::string list_text(const std::vector<const Food*>& foods);
std::string list_json(const std::vector<const Food*>& foods);
std::string show_text(const Food& food);
std::string added_text(const Food& food, const std::string& path, const std::vector<std::string>& assumptions,
                       const std::vector<io::Fault>& notes);
std::string check_summary(size_t foods, size_t files, size_t faults, size_t notes);
/// "\"gel_52\" is not known; did you mean \"gel_25\"?", or what is allowed.
std::string unknown_text(const std::string& word, std::vector<std::string> known);

} // namespace tuck::cli
