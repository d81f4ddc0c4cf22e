// A plan asked for in one line: the texts of the options, and their merge with an event file.
#pragma once

#include "io/event_file.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace tuck::io {

using OptionText = std::optional<std::string>;

/// The options as typed; empty where not given.
struct PlanOptions {
    OptionText athlete_file; // --athlete
    OptionText distance, legs;
    OptionText bike_course, run_course; // GPX files, from the working folder
    OptionText bike_laps, run_laps;
    bool training = false;
    /// What was typed of the fields (see input_options.hpp), by option: "--mass". Lists hold one text for
    /// each use.
    std::map<std::string, std::string> texts;
    std::map<std::string, std::vector<std::string>> lists;

    bool says(const std::string& option) const { return texts.count(option) > 0; }
    /// The text of an option, which then counts as not given.
    OptionText take(const std::string& option) {
        const auto found = texts.find(option);
        if (found == texts.end())
            return std::nullopt;
        OptionText text = std::move(found->second);
        texts.erase(found);
        return text;
    }
};

/// Event file (if any) and options as one input. What the file says an option may repeat but not contradict;
/// lists (likes, allergies, recent results) add up. Ranges are those of the files. Throws InputError with
/// every fault; the fault of an option has the option's name as its file. With the athlete's mass missing the
/// input is at fault.
EventInput plan_input(const std::optional<std::string>& event_file, const PlanOptions& options);

} // namespace tuck::io
