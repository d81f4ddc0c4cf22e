// Calendar days as text, ISO 8601.
#pragma once

#include <string>

namespace tuck::diary {

/// Days from one date to a later one (negative: earlier). The dates must be valid.
int days_between(const std::string& from, const std::string& to);
std::string date_minus(const std::string& date, int days);

} // namespace tuck::diary
