// The finished PDF, measured again by the part that reads PDFs. That part stands in a program of its own,
// tuck-check, which is tuck with it: so no other command loads a PDF reader and the twenty libraries behind
// it.
#pragma once

#include "card/card.hpp"

#include <string>
#include <vector>

namespace tuck::cli {

/// Does not return in tuck: it becomes tuck-check, with the same command line. Throws io::InputError where
/// that program does not stand beside it.
void need_checker();

struct Measured {
    std::string text; // each figure and limit
    bool all_hold = false;
};
/// After need_checker().
Measured measure(const std::string& pdf, const std::vector<faces::CardLayout>& layouts,
                 const faces::CardOptions& options);

} // namespace tuck::cli
