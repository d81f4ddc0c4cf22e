// The first files of an athlete, from a few plain answers.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace tuck::ask {

/// One question. `key` is also its option on the line ("--distance").
struct Question {
    const char* key;
    const char* text;
    const char* usual;   // taken where nothing is said; empty: has to be said
    const char* example; // of an answer
    bool of_event = false;
};

/// In the order in which they are asked.
const std::vector<Question>& new_questions();

/// The answer as it stands in a file, or why it cannot: throws std::invalid_argument that says what is
/// allowed.
std::string checked_answer(const Question& question, const std::string& answer);

/// By key; what is not there is the usual answer.
using Answers = std::map<std::string, std::string>;

/// Two documents, "tuck.event/1" and "tuck.athlete/1". `athlete_name` is what the event calls the athlete's
/// file; empty: it names none. Throws std::invalid_argument.
std::string new_event(const Answers& answers, const std::string& athlete_name);
std::string new_athlete(const Answers& answers);

} // namespace tuck::ask
