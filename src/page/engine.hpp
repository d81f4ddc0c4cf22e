// The door of the page: a question as JSON in, an answer as JSON or PDF out. It decides nothing: what a plan
// is comes from src/ask, its words from src/say, its papers from the faces.
#pragma once

#include "tuck/ask.hpp"

#include <nlohmann/json.hpp>

#include <map>
#include <memory>
#include <optional>
#include <string>

namespace tuck::page {

using Json = nlohmann::ordered_json;

/// `code` is the exit code of the command line: 0 done, 1 refused as unsafe, 2 bad input, 70 our own fault.
/// Bytes of code 2 and 70 are {"faults": [{"said", "file", "place", "what", "allowed", "nearest", "text"}]}.
struct Reply {
    int code = 0;
    std::string bytes;
};

/// Holds what one page has opened. A question that was asked just before is not worked out again.
class Engine {
public:
    /// `pantry`: folder of foods; empty: the installed one.
    explicit Engine(std::string pantry = "");

    /// {"want": "plan", "event": {...}, "set": {"--mass": "68kg"}, ...}; the wants stand in engine.cpp. Never
    /// throws.
    Reply ask(const std::string& question);

    /// A file that the user opened: a course or an athlete that events name. Answers what it holds.
    Reply open(const std::string& name, const std::string& text, const std::string& language = "en");

private:
    struct Planned {
        Asked asked;
        Answer answer;
        Json document;
    };
    const Planned& planned(const Json& question, bool no_swim);
    Ask ask_of(const Json& question);
    const std::shared_ptr<const Pantry>& pantry();

    Json start(const Json& question);
    std::string plan(const Json& question);
    std::string card(const Json& question);
    std::string sheet(const Json& question);
    Json card_sides(const Json& question);
    Json why(const Json& question);

    std::string folder_; // of the pantry, which is read once
    std::shared_ptr<const Pantry> pantry_;
    std::shared_ptr<NamedFiles> files_;
    std::string last_; // the question that `planned_` answers
    std::optional<Planned> planned_;
};

} // namespace tuck::page
