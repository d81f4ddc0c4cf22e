// Tables as comma-separated values (RFC 4180), in and out.
#pragma once

#include <cstdint>
#include <istream>
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
    /// `mark` parts the cells: semicolons and tabs are what spreadsheets of many countries write.
    explicit CsvReader(std::istream& in, char mark = ',');
    /// False at the end. Empty lines are skipped.
    bool next(CsvRecord& record);
    std::uint64_t bytes_read() const { return bytes_; }

private:
    bool get(char& c);
    int peek();
    bool read_record(CsvRecord& record);

    std::istream& in_;
    char mark_;
    std::string ahead_; // read while looking for the mark
    std::uint64_t bytes_ = 0;
    bool ended_ = false;
};

/// The text with an apostrophe before everything that a spreadsheet would take for a formula: = + - @ at the
/// beginning, or after a semicolon, tab or line break, where spreadsheets of many countries begin a new cell.
/// A number stays as it is.
std::string csv_cell(const std::string& text);

/// Cells parted by commas, guarded by csv_cell, quoted where needed, with the line end CR LF.
std::string csv_line(const std::vector<std::string>& cells);

} // namespace tuck::io
