// Ctrl-C and its like, so that a command can clean up behind itself.
#pragma once

namespace tuck::cli {

/// While it lives, Ctrl-C, SIGTERM and SIGHUP are taken down instead of ending the program; the second time
/// they end it.
class StopSignals {
public:
    StopSignals();
    ~StopSignals();
    StopSignals(const StopSignals&) = delete;
    StopSignals& operator=(const StopSignals&) = delete;

    /// The signal that came, or 0.
    static int asked();
    /// Ends the program by that signal, as if it had never been held up; nothing when none came.
    void die_of_it();
};

} // namespace tuck::cli
