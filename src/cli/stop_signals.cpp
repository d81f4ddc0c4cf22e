#include "cli/stop_signals.hpp"

#include <csignal>
#include <initializer_list>

namespace tuck::cli {

namespace {

volatile std::sig_atomic_t came = 0;

void take_down(int signal) {
    came = signal;
}

void handle(void (*handler)(int)) {
    struct sigaction action {};
    action.sa_handler = handler;
    action.sa_flags = static_cast<int>(SA_RESETHAND); // no SA_RESTART: what waits for input has to wake up
    for (const int signal : {SIGINT, SIGTERM, SIGHUP})
        ::sigaction(signal, &action, nullptr);
}

} // namespace

StopSignals::StopSignals() {
    came = 0;
    handle(take_down);
}

StopSignals::~StopSignals() {
    handle(SIG_DFL);
}

int StopSignals::asked() {
    return came;
}

void StopSignals::die_of_it() {
    if (came == 0)
        return;
    ::signal(came, SIG_DFL);
    ::raise(came);
}

} // namespace tuck::cli
