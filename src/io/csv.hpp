// Tables as comma-separated values (RFC 4180).
#pragma once

#include <string>
#include <vector>

namespace tuck::io {

/// One record, ending in CR LF. A cell with a comma, a quote or a line break is quoted.
std::string csv_record(const std::vector<std::string>& cells);

} // namespace tuck::io
