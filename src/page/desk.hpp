// What the page asks beside plans: own foods from their labels, sweat tests, the diary, rehearsals, a squad's
// table.
#pragma once

#include "tuck/ask.hpp"

#include <nlohmann/json.hpp>

#include <functional>
#include <optional>
#include <string>

namespace tuck::page {

/// The answer to one of these wants, or nothing for a want that is none of them. Throws Error.
/// entry_fields, sweat_test, rehearsal_entry, diary, food, rehearsal, table, squad, squad_cards.
std::optional<nlohmann::ordered_json> at_desk(const std::string& want, const nlohmann::ordered_json& question,
                                              const std::function<Ask()>& ask);

} // namespace tuck::page
