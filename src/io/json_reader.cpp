#include "io/json_reader.hpp"

#include "base/utf8.hpp"

#include "io/file_kind.hpp"
#include "io/files.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <set>

namespace tuck::io {

namespace {

std::string line_and_column(const std::string& text, size_t byte) {
    size_t line = 1, column = 1;
    for (size_t i = 0; i + 1 < byte && i < text.size(); ++i) {
        if (text[i] == '\n') {
            ++line;
            column = 1;
        } else {
            ++column;
        }
    }
    return fmt::format("line {}, column {}", line, column);
}

constexpr char no_json[] =
    "is not valid JSON here: a comma, a quote or a bracket is missing, or one is too many";

std::string escaped(const std::string& key) {
    std::string out;
    for (const char c : key)
        out += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
    return out;
}

/// Notices repeated keys while the library parses.
class DuplicateWatch {
public:
    explicit DuplicateWatch(std::string file) : file_(std::move(file)) {}
    bool operator()(int, Json::parse_event_t event, Json& parsed) {
        if (event == Json::parse_event_t::object_start) {
            seen_.emplace_back();
        } else if (event == Json::parse_event_t::object_end) {
            seen_.pop_back();
        } else if (event == Json::parse_event_t::key) {
            const auto key = parsed.get<std::string>();
            if (!seen_.back().insert(key).second)
                throw InputError(file_, "", "the key \"" + key + "\" stands twice in one object");
        }
        return true;
    }

private:
    std::string file_;
    std::vector<std::set<std::string>> seen_;
};

} // namespace

Json parse_json(const std::string& text, const std::string& file) {
    if (text.rfind("\xef\xbb\xbf", 0) == 0)
        return parse_json(text.substr(3), file);
    if (const auto meant = meant_for(text, "JSON"); !meant.empty())
        throw InputError(file, "", meant);
    if (const auto nul = text.find('\0'); nul != std::string::npos) // the library takes it for the end
        throw InputError(file, line_and_column(text, nul + 1), "not valid JSON: a zero byte");
    try {
        return Json::parse(text, DuplicateWatch(file));
    } catch (const Json::parse_error& error) {
        throw InputError(file, line_and_column(text, error.byte), no_json);
    } catch (const Json::exception&) {
        throw InputError(file, "", no_json);
    }
}

Json read_json(const Document& document) {
    return parse_json(document.text ? *document.text : read_file(document.name), document.name);
}

Node::Node(const Json& value, std::string file, std::string pointer, std::vector<Fault>& faults)
    : value_(&value), file_(std::move(file)), pointer_(std::move(pointer)), faults_(&faults) {
    if (!value.is_object())
        faults.push_back({file_, pointer_.empty() ? "/" : pointer_, "must be an object: { ... }"});
}

bool Node::has(const std::string& key) const {
    return value_->is_object() && value_->contains(key);
}

const Json* Node::find(const std::string& key) {
    known_.push_back(key);
    return has(key) ? &(*value_)[key] : nullptr;
}

void Node::fault(const std::string& key, const std::string& what, const std::string& allowed,
                 const std::string& nearest) {
    faults_->push_back(
        {file_, key.empty() ? pointer_ : pointer_ + "/" + escaped(key), what, allowed, nearest});
}

void Node::missing(const std::string& key) {
    fault(key, "is missing");
}

std::optional<double> Node::number(const std::string& key, double low, double high, const char* unit) {
    const Json* value = find(key);
    if (!value)
        return std::nullopt;
    const std::string allowed = fmt::format("{:.9g} to {:.9g} {}", low, high, unit);
    if (!value->is_number()) {
        fault(key, "must be a number", allowed);
        return std::nullopt;
    }
    const double number = value->get<double>();
    if (!std::isfinite(number) || number < low || number > high) {
        const bool written_out = std::abs(number) >= 1e9 && std::abs(number) < 1e15; // 1000000000, not 1e+09
        fault(key,
              fmt::format(fmt::runtime(written_out ? "{:.0f} is out of range" : "{:.9g} is out of range"),
                          number),
              allowed);
        return std::nullopt;
    }
    return number + 0.0; // -0 becomes 0
}

double Node::required_number(const std::string& key, double low, double high, const char* unit) {
    if (!has(key)) {
        find(key);
        fault(key, "is missing", fmt::format("{:.9g} to {:.9g} {}", low, high, unit));
        return low;
    }
    return number(key, low, high, unit).value_or(low);
}

std::optional<int> Node::whole(const std::string& key, int low, int high) {
    const auto value = number(key, low, high, "(whole number)");
    if (value && *value != std::floor(*value)) {
        fault(key, fmt::format("{:g} is not whole", *value), fmt::format("{} to {}", low, high));
        return std::nullopt;
    }
    return value ? std::optional<int>(static_cast<int>(*value)) : std::nullopt;
}

std::optional<bool> Node::flag(const std::string& key) {
    const Json* value = find(key);
    if (!value)
        return std::nullopt;
    if (!value->is_boolean()) {
        fault(key, "must be true or false");
        return std::nullopt;
    }
    return value->get<bool>();
}

std::optional<std::string> Node::text(const std::string& key, size_t longest) {
    const Json* value = find(key);
    if (!value)
        return std::nullopt;
    if (!value->is_string()) {
        fault(key, "must be text in double quotes");
        return std::nullopt;
    }
    auto text = value->get<std::string>();
    if (!is_plain_text(text)) {
        fault(key, "holds a control character or one that turns the direction of writing, or is not UTF-8");
        return std::nullopt;
    }
    if (const auto length = characters(text); length > longest) {
        fault(key, fmt::format("is too long ({} characters); allowed up to {}", length, longest));
        return std::nullopt;
    }
    return text;
}

std::string Node::required_text(const std::string& key, size_t longest) {
    if (!has(key)) {
        find(key);
        missing(key);
        return {};
    }
    return text(key, longest).value_or("");
}

std::vector<std::string> Node::texts(const std::string& key, size_t most) {
    std::vector<std::string> out;
    const Json* value = find(key);
    if (!value)
        return out;
    if (!value->is_array() || value->size() > most) {
        fault(key, fmt::format("must be a list of at most {} texts", most));
        return out;
    }
    for (size_t i = 0; i < value->size(); ++i) {
        const auto& item = (*value)[i];
        if (!item.is_string() || item.get<std::string>().empty() || !is_plain_text(item.get<std::string>()))
            faults_->push_back({file_, pointer_ + "/" + escaped(key) + "/" + std::to_string(i),
                                "must be text in double quotes"});
        else
            out.push_back(item.get<std::string>());
    }
    return out;
}

std::vector<double> Node::numbers(const std::string& key, double low, double high, const char* unit,
                                  size_t most) {
    std::vector<double> out;
    const Json* value = find(key);
    if (!value)
        return out;
    if (!value->is_array() || value->size() > most) {
        fault(key, fmt::format("must be a list of at most {} numbers", most));
        return out;
    }
    for (size_t i = 0; i < value->size(); ++i) {
        const auto& item = (*value)[i];
        const double number = item.is_number() ? item.get<double>() : std::nan("");
        if (!(number >= low && number <= high))
            faults_->push_back(
                {file_, pointer_ + "/" + escaped(key) + "/" + std::to_string(i),
                 fmt::format("must be a number; allowed {:.9g} to {:.9g} {}", low, high, unit)});
        else
            out.push_back(number);
    }
    return out;
}

std::optional<Node> Node::object(const std::string& key) {
    const Json* value = find(key);
    if (!value)
        return std::nullopt;
    Node node(*value, file_, pointer_ + "/" + escaped(key), *faults_);
    return value->is_object() ? std::optional<Node>(node) : std::nullopt;
}

std::vector<Node> Node::objects(const std::string& key, size_t most) {
    std::vector<Node> out;
    const Json* value = find(key);
    if (!value)
        return out;
    if (!value->is_array() || value->size() > most) {
        fault(key, fmt::format("must be a list of at most {} objects", most));
        return out;
    }
    for (size_t i = 0; i < value->size(); ++i) {
        Node node((*value)[i], file_, pointer_ + "/" + escaped(key) + "/" + std::to_string(i), *faults_);
        if ((*value)[i].is_object())
            out.push_back(node);
    }
    return out;
}

void Node::unknown_word(const std::string& key, const std::string& word,
                        const std::vector<std::string>& known) {
    fault(key, fmt::format("\"{}\" is not known", word), fmt::format("{}", fmt::join(known, ", ")),
          nearest_word(word, known));
}

void Node::finish() {
    if (!value_->is_object())
        return;
    for (const auto& [key, value] : value_->items()) {
        if (std::find(known_.begin(), known_.end(), key) != known_.end())
            continue;
        if (faults_->size() >= most_faults_told) { // only counted
            fault(key, "is not known");
            continue;
        }
        fault(key, "is not known", fmt::format("{}", fmt::join(known_, ", ")), nearest_word(key, known_));
    }
}

} // namespace tuck::io
