#include "io/fault.hpp"

#include "base/utf8.hpp"

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

} // namespace

std::string line_of(const Fault& fault) {
    std::string out = fault.file;
    if (!fault.place.empty())
        out += ": " + fault.place;
    return shown(out + ": " + fault.text);
}

std::vector<Fault> first_of(std::vector<Fault> faults) {
    if (faults.size() <= most_faults_told)
        return faults;
    const auto more = faults.size() - most_faults_told;
    faults.resize(most_faults_told);
    faults.push_back({faults.back().file, "", "and " + std::to_string(more) + " more"});
    return faults;
}

InputError::InputError(std::vector<Fault> all)
    : std::runtime_error(lines_of(first_of(all))), faults(std::move(all)) {}

InputError::InputError(std::string file, std::string place, std::string text)
    : InputError(std::vector<Fault>{{std::move(file), std::move(place), std::move(text)}}) {}

} // namespace tuck::io
