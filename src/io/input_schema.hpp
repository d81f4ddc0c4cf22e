// The published JSON Schemas of the inputs, made of the fields that the readers read.
#pragma once

#include <string>
#include <vector>

namespace tuck::io {

/// "athlete", "diary", "event", "pantry".
const std::vector<std::string>& schema_names();

/// The text of src/io/schema/NAME.schema.json. Throws std::out_of_range for other names.
std::string schema_text(const std::string& name);

} // namespace tuck::io
