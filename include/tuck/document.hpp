// What is handed over as text: documents, and options as they were typed.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tuck {

/// A document: its text, or the file that holds it. Files that it names (a course, an athlete) lie beside it.
struct Document {
    /// A file to be read ("-": standard input).
    Document(std::string file) : name(std::move(file)) {}
    Document(const char* file) : name(file) {}
    /// The text itself, UTF-8; `name` stands in faults.
    Document(std::string called, std::string says) : name(std::move(called)), text(std::move(says)) {}

    std::string name;
    std::optional<std::string> text;
};

/// What was typed, by option: {"--mass", {"68kg"}}. Some options take several texts; one that takes none has
/// an empty list.
using Typed = std::map<std::string, std::vector<std::string>>;

} // namespace tuck
