#include "io/roster.hpp"

#include "base/utf8.hpp"

#include "base/numbers.hpp"
#include "io/event_document.hpp"
#include "io/file_kind.hpp"
#include "io/files.hpp"
#include "io/input_options.hpp"
#include "io/units.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <iostream>

namespace tuck::io {

namespace {

const InputColumn* find_column(const std::string& name) {
    const auto& known = roster_columns();
    const auto found =
        std::find_if(known.begin(), known.end(), [&](const InputColumn& c) { return name == c.name; });
    return found == known.end() ? nullptr : &*found;
}

std::vector<std::string> parts_of(const std::string& text) {
    std::vector<std::string> out;
    for (size_t from = 0; from <= text.size();) {
        const size_t to = std::min(text.find(';', from), text.size());
        if (auto part = trimmed(text.substr(from, to - from)); !part.empty())
            out.push_back(std::move(part));
        from = to + 1;
    }
    return out;
}

bool is_number(const std::string& text, double& value) {
    const auto [end, error] = tuck::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc() && end == text.data() + text.size() && std::isfinite(value);
}

/// "62,7" where a comma is the decimal sign: one comma, no point, one to three digits behind it.
std::string with_point(std::string text) {
    const auto comma = text.find(',');
    if (comma == std::string::npos || text.find(',', comma + 1) != std::string::npos ||
        text.find('.') != std::string::npos || comma == 0)
        return text;
    const auto behind = text.find_first_not_of("0123456789", comma + 1);
    const auto digits = (behind == std::string::npos ? text.size() : behind) - comma - 1;
    if (digits >= 1 && digits <= 3)
        text[comma] = '.';
    return text;
}

/// A number in the column's own unit, or with its unit beside it, in the cell or in the header.
Json number_of(const InputColumn& column, const std::string& unit, const std::string& given) {
    const auto text = with_point(given);
    double value = 0;
    const bool bare = is_number(text, value);
    if (bare && unit.empty())
        return value;
    try {
        if (column.read && (!bare || !unit.empty()))
            return column.read(bare ? (unit.front() == '/' ? text + unit : text + " " + unit) : text);
    } catch (const std::invalid_argument& error) {
        if (bare || std::string_view("0123456789").find(text.front()) != std::string_view::npos)
            throw;
    }
    throw std::invalid_argument(fmt::format(
        "\"{}\" is not a number; allowed: digits, in the unit of the column or with their own", given));
}

/// The value that an event file would hold; lists are parted by semicolons, or commas where no semicolon is.
/// Throws std::invalid_argument.
Json value_of(const InputColumn& column, const std::string& unit, const std::string& text) {
    const Cell cell = column.cell;
    if (cell == Cell::number)
        return number_of(column, unit, text);
    if (cell == Cell::yes_no)
        return yes_or_no(meant_word(text, {"yes", "no"}).empty() ? text : meant_word(text, {"yes", "no"}));
    if (cell == Cell::list)
        return parts_of(text);
    if (cell == Cell::flags) {
        Json flags = Json::object();
        for (const auto& flag : parts_of(text))
            flags[flag] = true;
        return flags;
    }
    return text;
}

/// "52:30", "52 min" over the distance of the header.
Json result_of(const std::string& distance, const std::string& text) {
    const double time_s = duration_s(text);
    return {{"sport", "run"}, {"distance_m", distance_m(distance)}, {"time", duration_text(time_s)}};
}

} // namespace

std::vector<std::string> Roster::known_columns() {
    std::vector<std::string> names;
    for (const auto& column : roster_columns())
        names.push_back(column.name);
    return names;
}

Roster::Roster(const Document& table, const OwnHeaders& own)
    : path_(table.name == "-" ? "standard input" : table.name) {
    const std::string& path = table.name;
    if (table.text) {
        text_.str(*table.text);
        size_ = static_cast<double>(table.text->size());
    } else if (path == "-") {
        take_standard_input();
    } else {
        std::error_code ignored;
        if (std::filesystem::is_directory(path, ignored))
            throw InputError(path, "", "is a directory; a file is needed");
        file_.open(path, std::ios::binary);
        if (!file_)
            throw InputError(path, "", "cannot be read");
        std::string beginning(256, '\0');
        file_.read(beginning.data(), static_cast<std::streamsize>(beginning.size()));
        beginning.resize(static_cast<std::size_t>(file_.gcount()));
        file_.clear();
        file_.seekg(0);
        if (const auto meant = meant_for(beginning, "a table"); !meant.empty())
            throw InputError(path, "", meant);
        const auto size = std::filesystem::file_size(path, ignored);
        size_ = ignored ? -1 : static_cast<double>(size);
    }
    reader_ = std::make_unique<CsvReader>(table.text    ? static_cast<std::istream&>(text_)
                                          : path == "-" ? std::cin
                                                        : file_);
    CsvRecord header;
    if (!reader_->next(header))
        throw InputError(path_, "", "is empty; a header and one row for each athlete are needed");
    if (!header.problem.empty())
        throw InputError(path_, "row 1", header.problem);
    std::string beginning;
    for (const auto& cell : header.cells)
        beginning += cell;
    if (const auto meant = meant_for(beginning, "a table"); !meant.empty())
        throw InputError(path_, "", meant);
    read_header(header, own);
}

namespace {

/// What a spreadsheet may hold in a cell and no terminal should: kept, so that it is seen.
std::string in_one_line(std::string text) {
    for (char& c : text)
        if (c == '\n' || c == '\r' || c == '\t')
            c = ' ';
    return shown(text);
}

} // namespace

void Roster::read_header(const CsvRecord& header, const OwnHeaders& own) {
    std::vector<Fault> faults;
    std::vector<std::string> unused, seen;
    for (const auto& cell : header.cells) {
        const std::string name = trimmed(cell);
        columns_.push_back(roster_header(name, own));
        shown_.push_back(name);
        const auto& column = columns_.back();
        if (!column.known()) {
            const auto near = nearest_word(name, known_columns());
            if (column.left_out)
                continue;
            if (!near.empty())
                faults.push_back(
                    {path_, "row 1",
                     fmt::format("column \"{}\" is not known; did you mean \"{}\"?", name, near)});
            else if (!name.empty()) {
                unused.push_back("\"" + name + "\"");
                unused_.push_back(in_one_line(name));
                unused_at_.push_back(columns_.size() - 1);
            }
            continue;
        }
        const std::string key = column.name + column.result;
        if (std::find(seen.begin(), seen.end(), key) != seen.end())
            faults.push_back({path_, "row 1", fmt::format("column \"{}\" stands twice", name)});
        seen.push_back(key);
    }
    if (std::find(seen.begin(), seen.end(), "mass_kg") == seen.end())
        faults.push_back(
            {path_, "row 1", "column \"mass_kg\" is missing (also taken: \"weight (kg)\", \"weight (lb)\")"});
    if (!faults.empty())
        throw InputError(faults);
    if (unused.empty())
        return;
    constexpr std::size_t most_named = 30;
    const std::size_t more = unused.size() > most_named ? unused.size() - most_named : 0;
    unused.resize(unused.size() - more);
    notes_.push_back(fmt::format("{}: not used: column{} {}{}", path_, unused.size() == 1 ? "" : "s",
                                 fmt::join(unused, ", "), more > 0 ? fmt::format(" and {} more", more) : ""));
}

std::vector<std::string> Roster::unused_cells(const RosterRow& row) const {
    std::vector<std::string> out;
    for (const auto at : unused_at_)
        out.push_back(at < row.record.cells.size() ? in_one_line(trimmed(row.record.cells[at])) : "");
    return out;
}

std::vector<std::string> Roster::notes() const {
    auto out = notes_;
    if (reader_->was_windows_1252())
        out.push_back(path_ + ": is not UTF-8 and was read as Windows-1252; look at the names");
    return out;
}

bool Roster::next(RosterRow& row) {
    do {
        if (!reader_->next(row.record))
            return false;
        row.row = ++row_;
    } while (!row.record.cells.empty() && trimmed(row.record.cells[0]).rfind('#', 0) == 0); // explanations
    return true;
}

double Roster::progress() const {
    return size_ > 0 ? std::min(1.0, static_cast<double>(reader_->bytes_read()) / size_) : -1;
}

std::string Roster::place(std::uint64_t row, const std::string& column) const {
    return fmt::format("{}: row {}{}", path_, row, column.empty() ? "" : ", column " + column);
}

EventInput Roster::input(const EventDocument& event, const RosterRow& row) const {
    const auto& cells = row.record.cells;
    if (!row.record.problem.empty())
        throw InputError(place(row.row, ""), "", row.record.problem);
    const bool empty_end =
        std::all_of(cells.begin() + static_cast<std::ptrdiff_t>(std::min(cells.size(), columns_.size())),
                    cells.end(), [](const std::string& cell) { return trimmed(cell).empty(); });
    if (cells.size() < columns_.size() || !empty_end)
        throw InputError(place(row.row, ""), "",
                         fmt::format("has {} cells, the header {}", cells.size(), columns_.size()));
    EventDocument document = event;
    document.json["athlete"] = Json::object();
    document.option_at["/athlete"] = place(row.row, "");
    std::vector<Fault> faults;
    for (size_t i = 0; i < columns_.size(); ++i) {
        const std::string text = trimmed(cells[i]);
        const auto here = place(row.row, columns_[i].name.empty() ? shown_[i] : columns_[i].name);
        try {
            if (!columns_[i].result.empty() && !text.empty()) {
                auto& recent = document.json["athlete"]["recent"];
                document.option_at[fmt::format("/athlete/recent/{}", recent.size())] = here;
                recent.push_back(result_of(columns_[i].result, text));
            }
            if (columns_[i].name.empty())
                continue;
            const InputColumn& column = *find_column(columns_[i].name);
            document.option_at[column.pointer] = here;
            if (!text.empty())
                document.json[Json::json_pointer(column.pointer)] = value_of(column, columns_[i].unit, text);
        } catch (const std::invalid_argument& error) {
            faults.push_back({here, "", error.what()});
        }
    }
    try {
        auto input = read_event(document);
        if (faults.empty())
            return input;
    } catch (const InputError& error) {
        for (const auto& fault : error.faults)
            if (std::none_of(faults.begin(), faults.end(),
                             [&](const Fault& other) { return other.file == fault.file; }))
                faults.push_back(fault);
    }
    throw InputError(faults);
}

} // namespace tuck::io
