#include "tuck/error.hpp"

#include "base/utf8.hpp"

namespace tuck {

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

std::string words_of(const Fault& fault) {
    if (!fault.nearest.empty())
        return fault.what + "; did you mean \"" + fault.nearest + "\"?";
    const bool is_list = fault.allowed.find(", ") != std::string::npos;
    return fault.what + (fault.allowed.empty() ? "" : is_list ? "; allowed: " : "; allowed ") + fault.allowed;
}

std::string line_of(const Fault& fault) {
    std::string out = fault.file == "-" ? "standard input" : fault.file;
    for (const auto& part : {fault.place, words_of(fault)})
        if (!part.empty())
            out += (out.empty() ? "" : ": ") + part;
    return told_line(out);
}

std::vector<Fault> first_of(std::vector<Fault> faults) {
    if (faults.size() <= most_faults_told)
        return faults;
    const auto more = faults.size() - most_faults_told;
    faults.resize(most_faults_told);
    faults.push_back({faults.back().file, "", "and " + std::to_string(more) + " more"});
    return faults;
}

Error::Error(std::vector<Fault> all) : std::runtime_error(lines_of(first_of(all))), faults(std::move(all)) {}

Error::Error(std::string file, std::string place, std::string what)
    : Error(std::vector<Fault>{{std::move(file), std::move(place), std::move(what)}}) {}

} // namespace tuck
