// The words of a packet's label, as they were pasted or read off a photograph.
#pragma once

#include "io/label.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace tuck::io {

/// What could be read of it. Amounts are texts with their unit, as typed: "60g".
struct PastedLabel {
    LabelStyle style = LabelStyle::eu;
    LabelPer per = LabelPer::hundred_g;
    std::map<std::string, std::string> amounts; // by option: "--energy", "--serving", ...
    std::vector<std::string> notes;             // what was taken for granted, in plain sentences
};

/// EU or US, per 100 g, 100 ml or serving, with points or commas; English, German, French, Spanish and
/// Italian words; one amount a line, or all in one. Of several columns the first is taken. Throws InputError
/// where no amount at all is found.
PastedLabel read_pasted_label(const std::string& text, const std::string& name);

} // namespace tuck::io
