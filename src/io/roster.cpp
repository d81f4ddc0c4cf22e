#include "io/roster.hpp"

#include "base/numbers.hpp"
#include "io/event_document.hpp"
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

std::string trimmed(const std::string& text) {
    const size_t first = text.find_first_not_of(" \t");
    return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(" \t") - first + 1);
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

/// The value that an event file would hold; lists are parted by semicolons. Throws std::invalid_argument.
Json value_of(Cell cell, const std::string& text) {
    if (cell == Cell::number) {
        double value = 0;
        const auto [end, error] = tuck::from_chars(text.data(), text.data() + text.size(), value);
        if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
            throw std::invalid_argument(fmt::format(
                "\"{}\" is not a number; allowed: digits with a point, the unit is the column's", text));
        return value;
    }
    if (cell == Cell::yes_no)
        return yes_or_no(text);
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

} // namespace

std::vector<std::string> Roster::known_columns() {
    std::vector<std::string> names;
    for (const auto& column : roster_columns())
        names.push_back(column.name);
    return names;
}

Roster::Roster(const Document& table) : path_(table.name == "-" ? "standard input" : table.name) {
    const std::string& path = table.name;
    if (table.text) {
        text_.str(*table.text);
        size_ = static_cast<double>(table.text->size());
    } else if (path != "-") {
        std::error_code ignored;
        if (std::filesystem::is_directory(path, ignored))
            throw InputError(path, "", "is a directory; a file is needed");
        file_.open(path, std::ios::binary);
        if (!file_)
            throw InputError(path, "", "cannot be read");
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
    std::vector<Fault> faults;
    for (const auto& cell : header.cells) {
        const std::string name = trimmed(cell);
        if (!find_column(name)) {
            const auto near = nearest_word(name, known_columns());
            faults.push_back(
                {path_, "row 1",
                 fmt::format("column \"{}\" is not known{}", name,
                             near.empty() ? fmt::format("; allowed: {}", fmt::join(known_columns(), ", "))
                                          : fmt::format("; did you mean \"{}\"?", near))});
        } else if (std::find(columns_.begin(), columns_.end(), name) != columns_.end())
            faults.push_back({path_, "row 1", fmt::format("column \"{}\" stands twice", name)});
        columns_.push_back(name);
    }
    if (std::find(columns_.begin(), columns_.end(), "mass_kg") == columns_.end())
        faults.push_back({path_, "row 1", "column \"mass_kg\" is missing"});
    if (!faults.empty())
        throw InputError(faults);
}

bool Roster::next(RosterRow& row) {
    if (!reader_->next(row.record))
        return false;
    row.row = ++row_;
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
    if (cells.size() != columns_.size())
        throw InputError(place(row.row, ""), "",
                         fmt::format("has {} cells, the header {}", cells.size(), columns_.size()));
    EventDocument document = event;
    document.json["athlete"] = Json::object();
    document.option_at["/athlete"] = place(row.row, "");
    std::vector<Fault> faults;
    for (size_t i = 0; i < cells.size(); ++i) {
        const InputColumn& column = *find_column(columns_[i]);
        document.option_at[column.pointer] = place(row.row, columns_[i]);
        const std::string text = trimmed(cells[i]);
        if (text.empty())
            continue;
        try {
            document.json[Json::json_pointer(column.pointer)] = value_of(column.cell, text);
        } catch (const std::invalid_argument& error) {
            faults.push_back({place(row.row, columns_[i]), "", error.what()});
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
