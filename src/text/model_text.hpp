// Models and their results, as text and JSON.
#pragma once

#include "tuck/model.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

std::string model_list_text(const std::vector<Model>& models);
std::string model_list_json(const std::vector<Model>& models);
std::string model_result_text(const Model& model, const ModelResult& result);
/// {"model", "inputs", "value", "unit", "in_range", "source"} and a note where there is one.
std::string model_result_json(const Model& model, const ModelArguments& arguments, const ModelResult& result);

/// The figures that a plan rests on, each with its source; then the sources.
std::string figures_text();
/// {"figures": [{"id", "value", "unit", "source", "where", "note"}], "sources": [{"key", "authors", ...}]}
std::string figures_json();

} // namespace tuck::faces
