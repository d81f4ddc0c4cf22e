// Athlete and event in one line: the options as data, and their merge with an event file.
#pragma once

#include "io/event_file.hpp"
#include "tuck/document.hpp"
#include "tuck/named_files.hpp"

#include <memory>
#include <optional>
#include <vector>

namespace tuck::io {

/// One option that says something of the athlete or of the event.
struct PlanOption {
    const char* name;  // "--mass"
    const char* help;  // "body mass: 68kg, 150lb"
    const char* kind;  // of value: "MASS"; empty: takes none
    bool many = false; // may be given more than once; what is said adds up
};
const std::vector<PlanOption>& athlete_options();
const std::vector<PlanOption>& event_options();

/// Event (if any) and options as one input. What is typed outranks what the event says, and stands in
/// `instead`; lists (likes, allergies, recent results) add up. `profile`: the athlete where nothing else
/// names one. Ranges are those of the files. Throws InputError with every fault; the fault of an option has
/// the option's name as its file. With the athlete's mass missing the input is at fault. `files`: where the
/// files are that the documents name; nothing: on the disk.
EventInput plan_input(const std::optional<Document>& event, const Typed& typed,
                      const std::optional<Document>& profile = std::nullopt,
                      std::shared_ptr<const NamedFiles> files = nullptr);

} // namespace tuck::io
