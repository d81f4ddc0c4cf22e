#include "io/fault.hpp"

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
    return out + ": " + fault.text;
}

InputError::InputError(std::vector<Fault> f) : std::runtime_error(lines_of(f)), faults(std::move(f)) {}

InputError::InputError(std::string file, std::string place, std::string text)
    : InputError(std::vector<Fault>{{std::move(file), std::move(place), std::move(text)}}) {}

} // namespace tuck::io
