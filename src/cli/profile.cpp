#include "cli/profile.hpp"

#include <cstdlib>
#include <filesystem>

namespace tuck::cli {

namespace {

std::string variable(const char* name) {
    const char* value = std::getenv(name);
    return value ? value : "";
}

} // namespace

std::string profile_file() {
    const auto config = variable("XDG_CONFIG_HOME"), home = variable("HOME");
    const std::filesystem::path folder = !config.empty() ? std::filesystem::path(config)
                                         : !home.empty() ? std::filesystem::path(home) / ".config"
                                                         : std::filesystem::path();
    return folder.empty() ? "" : (folder / "tuck" / "athlete.json").string();
}

std::string standing_profile() {
    const auto file = profile_file();
    std::error_code error;
    return !file.empty() && std::filesystem::is_regular_file(file, error) ? file : "";
}

} // namespace tuck::cli
