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

/// Reads records one by one, as spreadsheets of many countries write them: cells parted by comma, semicolon
/// or tab, as the first line tells (or says: "sep=;"); quotes doubled inside quotes, CRLF or LF, line breaks
/// inside quotes; UTF-8 or UTF-16 with or without its mark, else Windows-1252. Records over 64 kB are a
/// problem, and end the reading.
class CsvReader {
public:
    explicit CsvReader(std::istream& in);
    /// False at the end. Empty lines are skipped.
    bool next(CsvRecord& record);
    std::uint64_t bytes_read() const { return bytes_; }
    char separator() const { return separator_; }
    /// A cell was no UTF-8 and was read as Windows-1252.
    bool was_windows_1252() const { return windows_1252_; }

private:
    enum class Units { bytes, utf16_little, utf16_big };

    bool get(char& c);
    int peek();
    bool fill();
    void find_separator();
    bool read_record(CsvRecord& record);
    void to_utf8(std::string& cell);

    std::istream& in_;
    std::string ahead_; // read and not yet taken
    std::size_t taken_ = 0;
    std::uint64_t bytes_ = 0;
    Units units_ = Units::bytes;
    char separator_ = ',';
    bool ended_ = false, windows_1252_ = false;
};

/// The text with an apostrophe before everything that a spreadsheet would take for a formula: = + - @ at the
/// beginning, or after a semicolon, tab or line break, where spreadsheets of many countries begin a new cell.
/// A number stays as it is.
std::string csv_cell(const std::string& text);

/// Cells parted by commas, guarded by csv_cell, quoted where needed, with the line end CR LF.
std::string csv_line(const std::vector<std::string>& cells);

} // namespace tuck::io
