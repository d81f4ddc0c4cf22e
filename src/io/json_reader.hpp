// JSON in, faults out: a view on a parsed value that knows where it stands and collects every fault.
#pragma once

#include "base/utf8.hpp"
#include "io/fault.hpp"
#include "tuck/document.hpp"

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tuck::io {

using Json = nlohmann::json;

/// Parses JSON text. Throws InputError with line and column; repeated keys and a byte-order mark are faults.
Json parse_json(const std::string& text, const std::string& file);
/// The document, read if its text is not given, and parsed.
Json read_json(const Document& document);

/// An object of the document. Every getter notes its key as known; a value of the wrong kind or out of its
/// range is a fault and reads as absent. Call `finish` last: it reports the keys that nobody asked for.
class Node {
public:
    Node(const Json& value, std::string file, std::string pointer, std::vector<Fault>& faults);

    bool has(const std::string& key) const;
    std::optional<double> number(const std::string& key, double low, double high, const char* unit);
    double required_number(const std::string& key, double low, double high, const char* unit);
    std::optional<int> whole(const std::string& key, int low, int high);
    std::optional<bool> flag(const std::string& key);
    /// UTF-8 text without control characters.
    std::optional<std::string> text(const std::string& key, size_t longest = 200);
    std::string required_text(const std::string& key, size_t longest = 200);
    std::vector<std::string> texts(const std::string& key, size_t most = 50);
    std::vector<double> numbers(const std::string& key, double low, double high, const char* unit,
                                size_t most);
    std::optional<Node> object(const std::string& key);
    std::vector<Node> objects(const std::string& key, size_t most);
    /// The value of one of `words`.
    template <typename T>
    std::optional<T> choice(const std::string& key, const std::vector<std::pair<std::string, T>>& words) {
        const auto word = text(key);
        if (!word)
            return std::nullopt;
        std::vector<std::string> known;
        for (const auto& [name, value] : words)
            known.push_back(name);
        const auto meant = meant_word(*word, known);
        for (const auto& [name, value] : words)
            if (name == meant)
                return value;
        unknown_word(key, *word, known);
        return std::nullopt;
    }
    void missing(const std::string& key);
    void fault(const std::string& key, const std::string& what, const std::string& allowed = "",
               const std::string& nearest = "");
    /// Reports unknown keys, with the nearest known one.
    void finish();
    const std::string& pointer() const { return pointer_; }
    const std::string& file() const { return file_; }
    std::vector<Fault>& faults() { return *faults_; }

private:
    const Json* find(const std::string& key);
    void unknown_word(const std::string& key, const std::string& word, const std::vector<std::string>& known);

    const Json* value_;
    std::string file_;
    std::string pointer_;
    std::vector<Fault>* faults_;
    std::vector<std::string> known_;
};

using tuck::is_plain_text;

} // namespace tuck::io
