#include "cli/squad_faults.hpp"

#include "base/hash.hpp"
#include "base/utf8.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::cli {

namespace {

constexpr std::size_t rows_named = 8, most_kinds = 50;

/// The text without what differs from row to row: quoted values and numbers.
std::string kind_of(const std::string& text) {
    std::string out;
    bool quoted = false;
    for (const char c : text) {
        if (c == '"')
            quoted = !quoted;
        else if (!quoted && !std::isdigit(static_cast<unsigned char>(c)))
            out += c;
    }
    return out;
}

} // namespace

void FaultKinds::add(std::uint64_t row, const std::vector<io::Fault>& faults) {
    for (const auto& fault : io::first_of(faults)) {
        const auto line = line_of(fault);
        const auto key = kind_of(line);
        auto kind =
            std::find_if(kinds_.begin(), kinds_.end(), [&key](const Kind& k) { return k.key == key; });
        if (kind == kinds_.end()) {
            if (kinds_.size() == most_kinds) {
                ++untold_;
                continue;
            }
            kinds_.push_back({key, line, {}, 0});
            kind = kinds_.end() - 1;
        }
        ++kind->count;
        if (kind->rows.size() < rows_named)
            kind->rows.push_back(row);
    }
}

std::vector<std::string> FaultKinds::lines() const {
    std::vector<std::string> out;
    for (const auto& kind : kinds_) {
        if (kind.count == 1)
            out.push_back(kind.first);
        else
            out.push_back(fmt::format("{} (in {} rows: {}{})", kind.first, kind.count,
                                      fmt::join(kind.rows, ", "),
                                      kind.count > kind.rows.size() ? " ..." : ""));
    }
    if (untold_ > 0)
        out.push_back(fmt::format("and {} more", untold_));
    return out;
}

void TwiceTold::add(std::uint64_t row, const std::string& word, Kind& kind) {
    constexpr std::size_t most_watched = 5000; // memory does not grow with a season's roster
    if (word.empty() || (kind.first.size() == most_watched && !kind.first.count(fnv1a_64(word))))
        return;
    const auto [known, is_new] = kind.first.emplace(fnv1a_64(word), row);
    if (is_new)
        return;
    ++kind.count;
    if (kind.examples.size() < rows_named)
        kind.examples.push_back(fmt::format("\"{}\" (rows {} and {})", shown(word), known->second, row));
}

void TwiceTold::add(std::uint64_t row, const std::string& bib, const std::string& name) {
    add(row, bib, bibs_);
    add(row, name, names_);
    if (!bib.empty() || !name.empty())
        return;
    ++nobody_.count;
    if (nobody_.examples.size() < rows_named)
        nobody_.examples.push_back(std::to_string(row));
}

std::vector<std::string> TwiceTold::notes(const std::string& roster) const {
    std::vector<std::string> out;
    const auto tell = [&](const Kind& kind, const char* what) {
        if (kind.count > 0)
            out.push_back(fmt::format("{}: {} {}{}", roster, what, fmt::join(kind.examples, ", "),
                                      kind.count > kind.examples.size() ? " ..." : ""));
    };
    tell(bibs_, "one bib, two rows:");
    tell(names_, "one name, two rows:");
    tell(nobody_, "neither bib nor name, a card without an owner: row");
    return out;
}

} // namespace tuck::cli
