// In tuck-check.
#include "card/card_check.hpp"
#include "cli/checker.hpp"

#include <algorithm>

namespace tuck::cli {

void need_checker() {}

Measured measure(const std::string& pdf, const std::vector<faces::CardLayout>& layouts,
                 const faces::CardOptions& options) {
    const auto findings = faces::check_card(pdf, layouts, options);
    return {faces::check_text(findings, options),
            std::all_of(findings.begin(), findings.end(), [](const auto& finding) { return finding.ok; })};
}

} // namespace tuck::cli
