#include "cli/squad_files.hpp"

#include "io/fault.hpp"
#include "io/roster.hpp"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <fmt/format.h>
#include <unistd.h>

namespace tuck::cli {

namespace {

namespace fs = std::filesystem;

/// FNV-1a, 64 bits: which card is whose, and whether it says the same.
std::uint64_t fingerprint(const std::string& text) {
    std::uint64_t hash = 14695981039346656037ull;
    for (const char c : text)
        hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ull;
    return hash;
}

std::uint64_t key_of(const std::string& bib, const std::string& name) {
    return fingerprint(bib + "\n" + name);
}

[[noreturn]] void cannot_write(const std::string& path) {
    throw io::InputError(path, "", "cannot be written");
}

} // namespace

GrowingFile::GrowingFile(std::string path)
    : path_(std::move(path)), beside_(path_ + "." + std::to_string(::getpid()) + ".tmp"),
      out_(beside_, std::ios::binary) {
    if (!out_)
        cannot_write(path_);
}

GrowingFile::~GrowingFile() {
    out_.close();
    std::error_code ignored;
    fs::remove(beside_, ignored);
}

void GrowingFile::write(const std::string& bytes) {
    size_ += bytes.size();
    if (!out_.write(bytes.data(), static_cast<std::streamsize>(bytes.size())))
        cannot_write(path_);
}

void GrowingFile::finish() {
    out_.close();
    std::error_code error;
    if (out_.fail() || (fs::rename(beside_, path_, error), error))
        cannot_write(path_);
}

Summary::Summary(const std::string& folder, bool with_private)
    : path_(folder + "/summary.csv"), unsorted_path_(path_ + "." + std::to_string(::getpid()) + ".unsorted"),
      with_private_(with_private), unsorted_(unsorted_path_, std::ios::binary) {
    if (!unsorted_)
        cannot_write(path_);
}

Summary::~Summary() {
    unsorted_.close();
    std::error_code ignored;
    fs::remove(unsorted_path_, ignored);
}

void Summary::add(const faces::SquadRisk& risk, const std::vector<std::string>& line) {
    const std::string bytes = io::csv_line(line);
    entries_.push_back({risk, at_, static_cast<std::uint32_t>(bytes.size())});
    at_ += bytes.size();
    if (!unsorted_.write(bytes.data(), static_cast<std::streamsize>(bytes.size())))
        cannot_write(path_);
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
    GrowingFile out(path_);
    out.write(io::csv_line(faces::squad_heads(with_private_)));
    std::string line;
    for (const Entry& entry : entries_) {
        line.resize(entry.length);
        lines.seekg(static_cast<std::streamoff>(entry.at));
        if (!lines.read(line.data(), static_cast<std::streamsize>(line.size())))
            throw io::InputError(unsorted_path_, "", "cannot be read back");
        out.write(line);
    }
    out.finish();
}

Changes::Changes(std::string folder)
    : folder_(std::move(folder)), cards_(folder_ + "/cards.csv"), changed_(folder_ + "/changed.csv") {
    std::ifstream old(folder_ + "/cards.csv", std::ios::binary);
    if (old) {
        first_run_ = false;
        io::CsvReader reader(old);
        io::CsvRecord record;
        reader.next(record); // the header
        while (reader.next(record)) {
            if (record.cells.size() != 4)
                continue;
            std::uint64_t card = 0;
            const std::string& text = record.cells[3];
            std::from_chars(text.data(), text.data() + text.size(), card, 16);
            before_.push_back({key_of(record.cells[1], record.cells[2]), card, false});
        }
        std::sort(before_.begin(), before_.end(),
                  [](const Known& a, const Known& b) { return a.key < b.key; });
    }
    cards_.write(io::csv_line({"row", "bib", "name", "card"}));
    changed_.write(io::csv_line({"row", "bib", "name", "what"}));
}

Changes::Known* Changes::find(std::uint64_t key) {
    const auto at = std::lower_bound(before_.begin(), before_.end(), key,
                                     [](const Known& known, std::uint64_t k) { return known.key < k; });
    return at != before_.end() && at->key == key ? &*at : nullptr;
}

void Changes::add(std::uint64_t row, const std::string& bib, const std::string& name,
                  const std::string& card_text) {
    const std::uint64_t card = fingerprint(card_text);
    cards_.write(io::csv_line({std::to_string(row), bib, name, fmt::format("{:016x}", card)}));
    if (first_run_)
        return;
    // As the last run's file gives them back.
    Known* known = find(key_of(io::csv_cell(bib), io::csv_cell(name)));
    if (known)
        known->seen = true;
    if (known && known->card == card)
        return;
    changed_.write(io::csv_line({std::to_string(row), bib, name, known ? "changed" : "new"}));
    ++count_;
}

std::uint64_t Changes::finish() {
    if (!first_run_) {
        std::ifstream old(folder_ + "/cards.csv", std::ios::binary);
        io::CsvReader reader(old);
        io::CsvRecord record;
        reader.next(record);
        while (reader.next(record)) {
            const Known* known =
                record.cells.size() == 4 ? find(key_of(record.cells[1], record.cells[2])) : nullptr;
            if (known && !known->seen) {
                changed_.write(io::csv_line({"", record.cells[1], record.cells[2], "gone"}));
                ++count_;
            }
        }
    }
    cards_.finish();
    changed_.finish();
    return count_;
}

void remove_later_volumes(const std::string& folder, const std::string& kind, unsigned last) {
    std::error_code ignored;
    for (unsigned volume = last + 1;
         fs::remove(fmt::format("{}/{}-{:03}.pdf", folder, kind, volume), ignored); ++volume) {
    }
}

} // namespace tuck::cli
