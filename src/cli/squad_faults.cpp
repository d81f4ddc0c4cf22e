#include "cli/squad_faults.hpp"

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

} // namespace tuck::cli
