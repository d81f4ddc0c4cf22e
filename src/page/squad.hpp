// A coach's table as it is: which column means what, and the risk of each athlete.
#pragma once

#include "tuck/ask.hpp"

#include <nlohmann/json.hpp>

#include <string>

namespace tuck::page {

/// {"text": CSV, or cells pasted from a spreadsheet} -> {"mark": ";", "heads": [s], "guesses": [column or
/// ""], "rows": [[s]], "columns": [every column that is known], "problems": [s]}. Throws Error.
nlohmann::ordered_json table_json(const nlohmann::ordered_json& question);

/// {"columns": [s], "rows": [[s]]} beside an event -> {"athletes": [{"faults"} or {"name", "bib", "risks",
/// "missing", "over_drinking", "refused", "card", "lines"}]}, riskiest first left to the caller by "order".
nlohmann::ordered_json squad_json(const nlohmann::ordered_json& question, const Ask& ask);

/// The cards of those rows, side after side on sheets. Bytes of a PDF. Rows with faults or a refused plan are
/// left out.
std::string squad_cards(const nlohmann::ordered_json& question, const Ask& ask);

} // namespace tuck::page
