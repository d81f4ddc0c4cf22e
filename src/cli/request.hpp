// What the commands that make a plan take from their line, handed to the library as it is.
#pragma once

#include "card/card.hpp"
#include "tuck/ask.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::cli {

struct Request {
    std::string event_file; // empty: options alone
    Typed options;
    std::string foods;                  // folder of the pantry; empty: found
    std::vector<std::string> own_foods; // files of own foods
    std::string diary;                  // file; empty: none
    bool no_profile = false;
    Edits edits;
    std::optional<faces::CardOptions> card; // its plan has no more lines than the card holds
};

Ask ask_of(const Request& request);

/// Read and checked; what is not whole in a document is told on standard error. Throws io::InputError.
Asked asked_by(const Request& request);

Answer answer_of(const Request& request, const Want& want = {});
/// The plan alone.
Plan plan_of(const Request& request);

} // namespace tuck::cli
