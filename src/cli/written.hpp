// What a command tells of the files that it wrote.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace tuck::cli {

/// "tuck.written/1": the command, its files as the user named them, and what else there is to say.
std::string written_json(const std::string& command, const std::vector<std::string>& files,
                         const nlohmann::ordered_json& more = nlohmann::ordered_json::object());

} // namespace tuck::cli
