#include "cli/written.hpp"

namespace tuck::cli {

std::string written_json(const std::string& command, const std::vector<std::string>& files,
                         const nlohmann::ordered_json& more) {
    nlohmann::ordered_json out{{"schema", "tuck.written/1"}, {"command", command}, {"files", files}};
    out.update(more);
    return out.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

} // namespace tuck::cli
