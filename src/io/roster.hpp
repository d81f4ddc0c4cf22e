// A squad's roster: CSV after RFC 4180 with a header, one athlete in a row.
#pragma once

#include "io/event_file.hpp"

#include <cstdint>
#include <fstream>
#include <istream>
#include <memory>
#include <string>
#include <vector>

namespace tuck::io {

/// One record. `problem` tells why it cannot be taken apart; the cells are then empty.
struct CsvRecord {
    std::vector<std::string> cells;
    std::string problem;
};

/// Reads records one by one: comma, quotes doubled inside quotes, CRLF or LF, line breaks inside quotes. A
/// byte order mark at the beginning is skipped. Records over 64 kB are a problem, and end the reading.
class CsvReader {
public:
    explicit CsvReader(std::istream& in);
    /// False at the end. Empty lines are skipped.
    bool next(CsvRecord& record);
    std::uint64_t bytes_read() const { return bytes_; }

private:
    bool get(char& c);
    bool read_record(CsvRecord& record);

    std::istream& in_;
    std::uint64_t bytes_ = 0;
    bool ended_ = false;
};

/// Text that a spreadsheet would take for a formula (= + - @ at the beginning, no number) with an apostrophe
/// before it; any other text as it is.
std::string csv_cell(const std::string& text);
/// A cell as RFC 4180 writes it.
std::string csv_field(const std::string& text);
/// Fields parted by commas, with the line end of RFC 4180.
std::string csv_line(const std::vector<std::string>& fields);

/// One athlete's row as it was read. `row` counts as spreadsheets do: the header is row 1.
struct RosterRow {
    std::uint64_t row = 0;
    CsvRecord record;
};

class Roster {
public:
    /// Opens the file ("-": standard input) and reads the header. Throws InputError for what cannot be read,
    /// and for unknown, repeated or missing columns.
    explicit Roster(const std::string& path);

    bool next(RosterRow& row);

    /// The event for the athlete of this row; faults name row and column. Throws InputError.
    EventInput input(const EventDocument& event, const RosterRow& row) const;

    /// Share of the file that has been read, 0..1; negative for standard input.
    double progress() const;

    /// The columns that a roster may have.
    static std::vector<std::string> known_columns();

private:
    std::string place(std::uint64_t row, const std::string& column) const;

    std::string path_;
    std::ifstream file_;
    std::unique_ptr<CsvReader> reader_;
    std::vector<std::string> columns_;
    std::uint64_t row_ = 1;
    double size_ = -1;
};

} // namespace tuck::io
