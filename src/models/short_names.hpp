// The literature's own symbols for inputs, beside the registry's names with units.
#pragma once

#include "tuck/model.hpp"

namespace tuck::registry {

/// The arguments with every known symbol ("CdA", "Vg", "t200", "accl") under the model's own input name, and
/// "100" or "0" as yes or no where the model asks that. A symbol beside the name that it stands for throws
/// std::invalid_argument.
ModelArguments with_full_names(const Model& model, const ModelArguments& arguments);

} // namespace tuck::registry
