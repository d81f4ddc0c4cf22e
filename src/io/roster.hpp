// A squad's roster: a table with a header, one athlete in a row, as spreadsheets write it.
#pragma once

#include "io/csv.hpp"
#include "io/event_file.hpp"
#include "io/roster_header.hpp"
#include "tuck/document.hpp"

#include <cstdint>
#include <fstream>
#include <memory>
#include <sstream>
#include <string>
#include <vector>

namespace tuck::io {

/// One athlete's row as it was read. `row` counts as spreadsheets do: the header is row 1.
struct RosterRow {
    std::uint64_t row = 0;
    CsvRecord record;
};

class Roster {
public:
    /// Opens the table ("-": standard input) and reads the header. Throws InputError for what cannot be read,
    /// and for unknown, repeated or missing columns.
    explicit Roster(const Document& table, const OwnHeaders& own = {});

    bool next(RosterRow& row);

    /// The event for the athlete of this row; faults name row and column. Throws InputError.
    EventInput input(const EventDocument& event, const RosterRow& row) const;

    /// Headers of the columns that are not used, and what a row has in them.
    const std::vector<std::string>& unused() const { return unused_; }
    std::vector<std::string> unused_cells(const RosterRow& row) const;

    /// Share of the file that has been read, 0..1; negative for standard input.
    double progress() const;

    /// What the user should know of the table: columns that are not used, another encoding.
    std::vector<std::string> notes() const;

    /// The columns that a roster may have; plain words with a unit are taken too (see roster_header.hpp).
    static std::vector<std::string> known_columns();

private:
    std::string place(std::uint64_t row, const std::string& column) const;

    std::string path_;
    std::ifstream file_;
    std::istringstream text_;
    std::unique_ptr<CsvReader> reader_;
    void read_header(const CsvRecord& header, const OwnHeaders& own);

    std::vector<RosterHeader> columns_;
    std::vector<std::string> shown_; // as the header has them
    std::vector<std::string> unused_;
    std::vector<std::size_t> unused_at_;
    std::vector<std::string> notes_;
    std::uint64_t row_ = 1;
    double size_ = -1;
};

} // namespace tuck::io
