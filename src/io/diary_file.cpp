#include "io/diary_file.hpp"

#include "base/utf8.hpp"
#include "io/csv.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>

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

/// Reads line by line; what cannot be read is a fault.
class Reader {
public:
    Reader(const std::string& path, std::vector<Fault>& faults) : path_(path), faults_(faults) {}

    /// Nothing where the line is bad.
    std::optional<DiaryEntry> read(const std::string& line, std::size_t number) {
        const std::size_t before = faults_.size();
        std::optional<DiaryEntry> entry;
        try {
            entry = entry_of_line(line, path_, number);
            judge(*entry, number);
        } catch (const InputError& error) {
            faults_.insert(faults_.end(), error.faults.begin(), error.faults.end());
        }
        if (faults_.size() > before)
            return std::nullopt;
        known_.insert(entry->id);
        return entry;
    }

private:
    void judge(const DiaryEntry& entry, std::size_t number) {
        const auto fault = [&](const char* key, const std::string& text) {
            faults_.push_back({path_, fmt::format("line {}: /{}", number, key), text});
        };
        if (entry.id == 0)
            fault("id", "is missing");
        else if (!known_.empty() && entry.id <= *known_.rbegin())
            fault("id", fmt::format("{} does not come after {}", entry.id, *known_.rbegin()));
        // It may name a line that is bad, or was set aside: then it stands for itself.
        if (entry.corrects && *entry.corrects >= entry.id)
            fault("corrects", fmt::format("names line {}, which does not stand before it", *entry.corrects));
    }

    const std::string& path_;
    std::vector<Fault>& faults_;
    std::set<int> known_;
};

} // namespace

namespace {

DiaryFile diary_of(const LogLines& log, const std::string& path) {
    DiaryFile out;
    out.torn = log.torn;
    Reader reader(path, out.bad);
    for (std::size_t i = 0; i < log.lines.size(); ++i) {
        if (auto entry = reader.read(log.lines[i], i + 1))
            out.entries.push_back(std::move(*entry));
        else
            ++out.bad_lines;
    }
    if (out.bad_lines > 0 && out.entries.empty())
        throw InputError(out.bad);
    if (is_whole(out.torn)) { // only its newline is missing
        out.entries.push_back(entry_of_line(out.torn, path, log.lines.size() + 1));
        out.torn.clear();
    }
    return out;
}

} // namespace

DiaryFile read_diary(const std::string& path) {
    return diary_of(read_lines(path), path);
}

DiaryFile read_existing_diary(const Document& diary) {
    if (diary.text)
        return diary_of(lines_in(*diary.text), diary.name);
    require_there(diary.name);
    return read_diary(diary.name);
}

std::vector<std::string> notes_on(const DiaryFile& file, const std::string& path) {
    std::vector<std::string> notes;
    if (!file.torn.empty())
        notes.push_back(shown(path) +
                        ": the last line was cut short by a crash and does not count; the next entry "
                        "moves it to a file beside the diary");
    for (const auto& fault : first_of(file.bad))
        notes.push_back(line_of(fault));
    if (file.bad_lines > 0)
        notes.push_back(
            fmt::format("{}: {} lines cannot be read and do not count; tuck diary mend sets them aside",
                        shown(path), file.bad_lines));
    return notes;
}

std::string set_aside_name(const std::string& path) {
    return path + ".set-aside";
}

std::size_t mend_diary(const std::string& path) {
    return set_aside_lines(path, set_aside_name(path), [&](const LogLines& log) {
        std::vector<Fault> faults;
        Reader reader(path, faults);
        std::vector<bool> keep;
        for (std::size_t i = 0; i < log.lines.size(); ++i)
            keep.push_back(reader.read(log.lines[i], i + 1).has_value());
        if (std::find(keep.begin(), keep.end(), true) == keep.end() && !keep.empty())
            throw InputError(faults); // another file's name, most likely
        return keep;
    });
}

namespace {

/// The id of the last line; where that cannot be read, one that no line before it can have.
int last_id_of(const std::string& last_line, const std::string& path) {
    if (last_line.empty())
        return 0;
    if (is_whole(last_line))
        return entry_of_line(last_line, path, 1).id;
    int id = 0;
    for (const auto& line : lines_under_lock(path).lines)
        id = std::max(id + 1, is_whole(line) ? entry_of_line(line, path, 1).id : 0);
    return id;
}

} // namespace

DiaryAdded add_to_diary(const std::string& path, const std::vector<DiaryEntry>& entries,
                        const OnceAdded& told) {
    return add_to_diary(path, entries, system_calls(), told);
}

DiaryAdded add_to_diary(const std::string& path, const std::vector<DiaryEntry>& entries, FileCalls& calls,
                        const OnceAdded& told) {
    DiaryAdded out;
    const auto make = [&](const std::string& last_line) {
        int id = last_id_of(last_line, path);
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
    out.torn_moved_to = append_lines(path, make, is_whole, calls, [&] {
                            if (told)
                                told(out.last_id);
                        }).torn_moved_to;
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
        if (entry.corrects && moved.count(*entry.corrects))
            entry.corrects = moved.at(*entry.corrects);
        else if (entry.corrects && entry.withdrawn)
            continue; // it withdraws a line that cannot be read
        else
            entry.corrects.reset();
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
    std::string out = csv_line(columns);
    for (auto& row : rows) {
        std::vector<std::string> cells;
        for (const auto& column : columns)
            cells.push_back(row[column]);
        out += csv_line(cells);
    }
    return out;
}

} // namespace tuck::io
