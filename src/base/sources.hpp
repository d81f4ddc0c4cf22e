// Who says so. One place for the sources that the stages cite, so that every face prints them alike.
#pragma once

namespace tuck::source {

inline constexpr char practice[] = "common practice, no source";
inline constexpr char own_input[] = "the athlete's own input";
inline constexpr char own_diary[] = "the athlete's own diary";
inline constexpr char our_choice[] = "our choice, no source";

} // namespace tuck::source
