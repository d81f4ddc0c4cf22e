#include "io/fault.hpp"

#include <algorithm>
#include <numeric>

namespace tuck::io {

namespace {

std::string lines_of(const std::vector<Fault>& faults) {
    std::string out;
    for (const auto& fault : faults) {
        if (!out.empty())
            out += '\n';
        out += line_of(fault);
    }
    return out;
}

size_t edit_distance(const std::string& a, const std::string& b) {
    std::vector<size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), size_t{0});
    for (size_t i = 1; i <= a.size(); ++i) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t j = 1; j <= b.size(); ++j) {
            const size_t above = row[j];
            row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)});
            diagonal = above;
        }
    }
    return row[b.size()];
}

} // namespace

std::string line_of(const Fault& fault) {
    std::string out = fault.file;
    if (!fault.place.empty())
        out += ": " + fault.place;
    return out + ": " + fault.text;
}

InputError::InputError(std::vector<Fault> f) : std::runtime_error(lines_of(f)), faults(std::move(f)) {}

InputError::InputError(std::string file, std::string place, std::string text)
    : InputError(std::vector<Fault>{{std::move(file), std::move(place), std::move(text)}}) {}

std::string nearest_word(const std::string& word, const std::vector<std::string>& known) {
    std::string best;
    size_t best_distance = std::max<size_t>(1, word.size() / 3) + 1;
    for (const auto& candidate : known) {
        const size_t distance = edit_distance(word, candidate);
        if (distance < best_distance) {
            best_distance = distance;
            best = candidate;
        }
    }
    return best;
}

} // namespace tuck::io
