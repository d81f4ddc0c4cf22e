#include "io/csv.hpp"

namespace tuck::io {

std::string csv_record(const std::vector<std::string>& cells) {
    std::string out;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i > 0)
            out += ',';
        if (cells[i].find_first_of(",\"\r\n") == std::string::npos) {
            out += cells[i];
            continue;
        }
        out += '"';
        for (const char c : cells[i])
            out += c == '"' ? std::string("\"\"") : std::string(1, c);
        out += '"';
    }
    return out + "\r\n";
}

} // namespace tuck::io
