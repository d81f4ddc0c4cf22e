// Entries of a diary for tests, one a day in May.
#pragma once

#include "tuck/diary.hpp"

namespace tuck::example {

inline DiaryEntry entry(int id, decltype(DiaryEntry::what) what) {
    DiaryEntry out;
    out.id = id;
    out.date = "2027-05-" + std::to_string(9 + id);
    out.what = std::move(what);
    return out;
}

} // namespace tuck::example
