// The numbers of one plan read back out of its faces: text, JSON, card and sheet say the same to the printed
// digit.
#pragma once

#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck::properties {

struct FacesCompared {
    bool card = false; // no card is made of a refused plan, nor of one with more rows than twelve sides hold
    std::vector<std::string> faults; // every number on which a face differs
};

/// `no_swim` goes on the sheet where there is one.
FacesCompared compare_faces(const Plan& plan, const Plan* no_swim);

} // namespace tuck::properties
