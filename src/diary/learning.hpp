// The parts of learn(), each on the entries that count, oldest first.
#pragma once

#include "diary/update.hpp"
#include "tuck/diary.hpp"

namespace tuck::diary {

/// log(own / modelled) in the wanted weather and sport; per 10 C of distance from that weather; in another
/// sport.
using SweatBelief = Belief<3>;

/// A sweat test as the update sees it: rates and one SD of the measured one in ml/h.
struct SweatReading {
    double measured = 0, modelled = 0, sd = 0;
    double temperature_c = 20;
    Sport sport = Sport::bike;
};
SweatReading reading_of(const Athlete& athlete, const SweatTest& test);
/// A race that was weighed, in its real weather and times; nothing where it was not, or a time is missing.
std::optional<SweatReading> reading_of(const Athlete& athlete, const RaceRecord& race);

/// What the readings leave of the field's spread, for this weather and sport. A test's error is in ml/h and
/// the belief is about a logarithm, so the update is repeated around its own result until that stands
/// (Gauss-Newton).
SweatBelief believe(const std::vector<SweatReading>& readings, double temperature_c, Sport sport);

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
