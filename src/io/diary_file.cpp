#include "io/diary_file.hpp"

#include "io/csv.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <map>
#include <set>
#include <nlohmann/json.hpp>

namespace tuck::io {

namespace {

DiaryEntry entry_of_line(const std::string& line, const std::string& path, std::size_t number) {
    const auto place = fmt::format("line {}", number);
    try {
        return entry_from(parse_json(line, path), path, place + ": ");
    } catch (const InputError& error) {
        auto faults = error.faults;
        for (auto& fault : faults)
            if (fault.place.rfind("line", 0) != 0)
                fault.place = place;
            else if (fault.place.rfind("line 1, column", 0) == 0)
                fault.place = place + fault.place.substr(6);
        throw InputError(faults);
    }
}

bool is_whole(const std::string& line) {
    try {
        entry_of_line(line, "", 1);
        return true;
    } catch (const InputError&) {
        return false;
    }
}

/// What an entry says, whatever its number; a correction includes what it corrects.
std::string identity(DiaryEntry entry, const std::map<int, std::string>& of_id) {
    const auto corrected = entry.corrects ? of_id.find(*entry.corrects) : of_id.end();
    entry.id = 0;
    entry.corrects.reset();
    return json_of(entry).dump() + (corrected == of_id.end() ? "" : " corrects " + corrected->second);
}

} // namespace

DiaryFile read_diary(const std::string& path) {
    const auto log = read_lines(path);
    DiaryFile out;
    out.torn = log.torn;
    std::vector<Fault> faults;
    std::set<int> known;
    for (std::size_t i = 0; i < log.lines.size(); ++i) {
        try {
            auto entry = entry_of_line(log.lines[i], path, i + 1);
            const auto fault = [&](const char* key, const std::string& text) {
                faults.push_back({path, fmt::format("line {}: /{}", i + 1, key), text});
            };
            if (entry.id == 0)
                fault("id", "is missing");
            else if (!known.empty() && entry.id <= *known.rbegin())
                fault("id", fmt::format("{} does not come after {}", entry.id, *known.rbegin()));
            if (entry.corrects && !known.count(*entry.corrects))
                fault("corrects",
                      fmt::format("names line {}, which does not stand before it", *entry.corrects));
            known.insert(entry.id);
            out.entries.push_back(std::move(entry));
        } catch (const InputError& error) {
            faults.insert(faults.end(), error.faults.begin(), error.faults.end());
        }
    }
    if (!faults.empty())
        throw InputError(faults);
    if (is_whole(out.torn)) { // only its newline is missing
        out.entries.push_back(entry_of_line(out.torn, path, log.lines.size() + 1));
        out.torn.clear();
    }
    return out;
}

DiaryFile read_existing_diary(const std::string& path) {
    if (!std::filesystem::exists(path))
        throw InputError(path, "", "cannot be read: No such file or directory");
    return read_diary(path);
}

DiaryAdded add_to_diary(const std::string& path, const std::vector<DiaryEntry>& entries) {
    FileCalls calls;
    return add_to_diary(path, entries, calls);
}

DiaryAdded add_to_diary(const std::string& path, const std::vector<DiaryEntry>& entries, FileCalls& calls) {
    DiaryAdded out;
    const auto make = [&](const std::string& last_line) {
        int id = last_line.empty() ? 0 : entry_of_line(last_line, path, 1).id;
        const int first = id + 1;
        std::string lines;
        for (auto entry : entries) {
            entry.id = ++id;
            if (entry.corrects && *entry.corrects < 0)
                entry.corrects = first - *entry.corrects - 1;
            lines += json_of(entry).dump() + "\n";
        }
        out.last_id = id;
        return lines;
    };
    out.torn_moved_to = append_lines(path, make, is_whole, calls).torn_moved_to;
    return out;
}

std::vector<DiaryEntry> unknown_entries(const std::vector<DiaryEntry>& from,
                                        const std::vector<DiaryEntry>& into) {
    std::map<int, std::string> identity_in_into, identity_in_from;
    std::map<std::string, int> known; // identity -> id in `into`, or place in the batch, counted -1, -2 ...
    for (const auto& entry : into)
        known[identity_in_into[entry.id] = identity(entry, identity_in_into)] = entry.id;
    std::vector<DiaryEntry> out;
    std::map<int, int> moved; // id in `from` -> the same
    for (auto entry : from) {
        const auto& same = identity_in_from[entry.id] = identity(entry, identity_in_from);
        const int id = entry.id;
        if (entry.corrects)
            entry.corrects = moved.at(*entry.corrects);
        if (!known.count(same)) {
            out.push_back(entry);
            known[same] = -static_cast<int>(out.size());
        }
        moved[id] = known[same];
    }
    return out;
}

std::string diary_csv(const std::vector<DiaryEntry>& entries) {
    std::vector<std::string> columns = {"id", "date", "kind", "corrects", "withdrawn", "note"};
    std::vector<std::map<std::string, std::string>> rows;
    std::set<std::string> more;
    for (const auto& entry : entries) {
        auto& row = rows.emplace_back();
        for (const auto& [key, text] : flat_fields(entry)) {
            row[key] = text;
            if (key != "schema" && std::find(columns.begin(), columns.end(), key) == columns.end())
                more.insert(key);
        }
    }
    columns.insert(columns.end(), more.begin(), more.end());
    std::string out = csv_record(columns);
    for (auto& row : rows) {
        std::vector<std::string> cells;
        for (const auto& column : columns)
            cells.push_back(row[column]);
        out += csv_record(cells);
    }
    return out;
}

} // namespace tuck::io
