// The marks of one session as they are made: JSON Lines that only grow ("tuck.marks/1").
#pragma once

#include "io/diary_json.hpp"
#include "io/fault.hpp"
#include "tuck/document.hpp"
#include "tuck/event.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::io {

/// A feed of the session, as planned.
struct MarkedFeed {
    LegKind leg = LegKind::bike;
    double at_s = 0; // from the start of its leg
    std::string what;
    double carb_g = 0, fluid_ml = 0;
};

/// One press of a key, `at_s` seconds after the start of the session.
struct Mark {
    std::string kind; // "taken", "half", "skipped", "stomach", "run" (the run began)
    double at_s = 0;
    std::optional<int> feed;  // place in the list of feeds, from 0
    std::optional<int> level; // stomach, 0 to 10
};

struct Marks {
    long long start_unix_s = 0; // 0: no session has begun in this file
    std::string plan;           // its version
    double bike_min = 0, run_min = 0;
    double bike_asked_carb_g_per_h = 0, run_asked_carb_g_per_h = 0;
    std::string foods;   // ids, parted by commas
    double run_at_s = 0; // planned begin of the run
    std::vector<MarkedFeed> feeds;
    std::vector<Mark> marks;
    std::vector<Fault> bad; // lines that cannot be read and do not count

    /// The first feed without a mark; feeds.size() when all have one.
    std::size_t open_feed() const;
    /// Seconds from the start at which the run began, as marked, else as planned.
    double run_start_s() const;
    /// When a feed is due, seconds after the start.
    double due_s(std::size_t feed) const;
};

/// What the user should know of marks that are not whole: a line each, fit for a terminal.
std::vector<std::string> notes_on(const Marks& marks, const std::string& path);

/// A missing file has no session; a mark that cannot be read does not count (`bad`). Throws InputError for a
/// session that cannot be read.
Marks read_marks(const std::string& path);
/// The same, for a text, or a file that must exist; it must hold a session.
Marks read_existing_marks(const Document& file);
/// The first line: the session and its feeds. Returns when it is on the disk.
void begin_marks(const std::string& path, const Marks& session);
/// One more line. Returns when it is on the disk.
void add_mark(const std::string& path, const Mark& mark);

/// The keys of a rehearsal that the marks fill: minutes, food, drink, feeds, and the worst stomach mark as
/// nausea. A half counts a half, an open feed nothing.
Json rehearsal_fields(const Marks& marks);

} // namespace tuck::io
