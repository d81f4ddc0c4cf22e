#include "cli/squad_files.hpp"

#include "base/hash.hpp"
#include "io/csv.hpp"
#include "io/fault.hpp"

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace tuck::cli {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t card_columns = 4; // row, bib, name, card; what follows says where it stands

std::uint64_t key_of(const std::string& bib, const std::string& name) {
    return fnv1a_64(bib + "\n" + name);
}

[[noreturn]] void cannot_write(const std::string& path) {
    throw io::InputError(path, "", "cannot be written");
}

} // namespace

SquadFolder::SquadFolder(std::string path) : path_(std::move(path)) {
    std::error_code error;
    made_ = fs::create_directories(path_, error);
    if (error)
        throw io::InputError(path_, "", "cannot be made: " + error.message());
    lock_ = ::open(path_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (lock_ < 0 || ::flock(lock_, LOCK_EX | LOCK_NB) != 0) {
        const bool busy = lock_ >= 0 && errno == EWOULDBLOCK;
        const std::string why = std::strerror(errno);
        if (lock_ >= 0)
            ::close(lock_);
        throw io::InputError(path_, "",
                             busy ? "another tuck squad is at work in this folder; wait, or choose another"
                                  : "cannot be used: " + why);
    }
    fs::remove_all(unfinished(""), error); // of a run that was killed
    if (::mkdir(unfinished("").c_str(), 0700) != 0) {
        ::close(lock_);
        cannot_write(path_);
    }
}

SquadFolder::~SquadFolder() {
    std::error_code ignored;
    fs::remove_all(unfinished(""), ignored);
    ::close(lock_);
    if (made_)
        fs::remove(path_, ignored); // only where it is empty
}

std::string SquadFolder::unfinished(const std::string& name) const {
    return place(".unfinished/" + name);
}

io::NewFile& SquadFolder::open(io::Outputs& outputs, const std::string& name) const {
    return outputs.open(place(name), unfinished(name));
}

Summary::Summary(const SquadFolder& folder, io::Outputs& outputs, const std::vector<std::string>& heads)
    : unsorted_path_(folder.unfinished("summary.unsorted")), sorted_(folder.open(outputs, "summary.csv")),
      heads_(heads), unsorted_(unsorted_path_, std::ios::binary) {
    if (!unsorted_)
        cannot_write(unsorted_path_);
}

void Summary::add(const faces::SquadRisk& risk, const std::vector<std::string>& line) {
    const std::string bytes = io::csv_line(line);
    entries_.push_back({risk, at_, static_cast<std::uint32_t>(bytes.size())});
    at_ += bytes.size();
    if (!unsorted_.write(bytes.data(), static_cast<std::streamsize>(bytes.size())))
        cannot_write(unsorted_path_);
}

void Summary::finish() {
    unsorted_.close();
    // In roster order among equals: `at` rises with the row.
    std::sort(entries_.begin(), entries_.end(), [](const Entry& a, const Entry& b) {
        if (faces::riskier(a.risk, b.risk) || faces::riskier(b.risk, a.risk))
            return faces::riskier(a.risk, b.risk);
        return a.at < b.at;
    });
    std::ifstream lines(unsorted_path_, std::ios::binary);
    sorted_.write(io::csv_line(heads_));
    std::string line;
    for (const Entry& entry : entries_) {
        line.resize(entry.length);
        lines.seekg(static_cast<std::streamoff>(entry.at));
        if (!lines.read(line.data(), static_cast<std::streamsize>(line.size())))
            throw io::InputError(unsorted_path_, "", "cannot be read back");
        sorted_.write(line);
    }
}

Changes::Changes(const SquadFolder& folder, io::Outputs& outputs)
    : old_cards_(folder.place("cards.csv")), cards_(folder.open(outputs, "cards.csv")),
      changed_(folder.open(outputs, "changed.csv")) {
    std::ifstream old(old_cards_, std::ios::binary);
    if (old) {
        first_run_ = false;
        io::CsvReader reader(old);
        io::CsvRecord record;
        reader.next(record); // the header
        while (reader.next(record)) {
            if (record.cells.size() < card_columns)
                continue;
            Known known;
            const std::string& text = record.cells[3];
            std::from_chars(text.data(), text.data() + text.size(), known.card, 16);
            known.key = key_of(record.cells[1], record.cells[2]);
            before_.push_back(known);
        }
        std::stable_sort(before_.begin(), before_.end(),
                         [](const Known& a, const Known& b) { return a.key < b.key; });
    }
    cards_.write(io::csv_line({"row", "bib", "name", "card", "file", "page"}));
    changed_.write(io::csv_line({"row", "bib", "name", "what", "file", "page"}));
}

std::pair<Changes::Known*, std::size_t> Changes::find(std::uint64_t key) {
    const auto by_key = [](const Known& known, std::uint64_t k) { return known.key < k; };
    const auto from = std::lower_bound(before_.begin(), before_.end(), key, by_key);
    const auto to =
        key == UINT64_MAX ? before_.end() : std::lower_bound(before_.begin(), before_.end(), key + 1, by_key);
    return {from == to ? nullptr : &*from, static_cast<std::size_t>(to - from)};
}

bool Changes::add(std::uint64_t row, const std::string& bib, const std::string& name,
                  const std::string& card_text, const std::string& file, std::size_t page) {
    const std::uint64_t card = fnv1a_64(card_text);
    // As the file of this run will give them back.
    const std::uint64_t key = key_of(io::csv_cell(bib), io::csv_cell(name));
    const auto at = std::to_string(page);
    cards_.write(io::csv_line({std::to_string(row), bib, name, fmt::format("{:016x}", card), file, at}));
    keys_.push_back(key);
    if (first_run_)
        return false;
    const auto [first, count] = find(key);
    const Known* known = first && first->met < count ? first + first->met++ : nullptr;
    if (known && known->card == card)
        return false;
    changed_.write(io::csv_line({std::to_string(row), bib, name, known ? "changed" : "new", file, at}));
    ++count_;
    return true;
}

std::uint64_t Changes::finish() {
    std::sort(keys_.begin(), keys_.end());
    alike_ =
        keys_.size() - static_cast<std::uint64_t>(std::unique(keys_.begin(), keys_.end()) - keys_.begin());
    if (first_run_)
        return 0;
    std::ifstream old(old_cards_, std::ios::binary);
    io::CsvReader reader(old);
    io::CsvRecord record;
    reader.next(record);
    while (reader.next(record)) {
        if (record.cells.size() < card_columns)
            continue;
        Known* first = find(key_of(record.cells[1], record.cells[2])).first;
        if (first && first->passed++ >= first->met) {
            changed_.write(io::csv_line({"", record.cells[1], record.cells[2], "gone", "", ""}));
            ++count_;
        }
    }
    return count_;
}

void remove_later_volumes(const SquadFolder& folder, const std::string& kind, unsigned last) {
    std::error_code ignored;
    for (unsigned volume = last + 1;
         fs::remove(folder.place(fmt::format("{}-{:03}.pdf", kind, volume)), ignored); ++volume) {
    }
}

} // namespace tuck::cli
