// The parts of learn(), each on the entries that count, oldest first.
#pragma once

#include "diary/update.hpp"
#include "tuck/diary.hpp"

namespace tuck::diary {

/// log(measured / modelled) in the wanted weather and sport; per 10 C of distance from that weather; in
/// another sport.
using SweatBelief = Belief<3>;
SweatBelief field_sweat();
void observe_sweat(SweatBelief& belief, const Athlete& athlete, const SweatTest& test, double temperature_c,
                   Sport sport);

/// A normal belief's median and 90 % interval of exp(unknown).
Known known_from(double log_mean, double log_variance, int tests);

/// Sweat and sodium into `learned`, whose weather and sport are set.
void learn_sweat(const std::vector<DiaryEntry>& entries, const Athlete& athlete, Learned& learned);
void learn_sodium(const std::vector<DiaryEntry>& entries, Learned& learned);
void learn_gut(const std::vector<DiaryEntry>& entries, const Athlete& athlete, Learned& learned);
void learn_paces(const std::vector<DiaryEntry>& entries, const Athlete& athlete, Learned& learned);
/// What to test next, from the spreads that are left.
void choose_next(const std::vector<DiaryEntry>& entries, const Athlete& athlete, Learned& learned);

} // namespace tuck::diary
