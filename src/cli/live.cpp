#include "cli/live.hpp"

#include "base/utf8.hpp"
#include "cli/stop_signals.hpp"

#include <cmath>
#include <csignal>
#include <ctime>
#include <fmt/format.h>
#include <poll.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

namespace tuck::cli {

namespace {

volatile std::sig_atomic_t suspend_asked = 0, continued = 0;

void note_suspend(int) {
    suspend_asked = 1;
}

void note_continue(int) {
    continued = 1;
}

/// Keys at once and unseen, until it goes out of scope; the shell has its terminal back while suspended.
class RawTerminal {
public:
    RawTerminal() : is_terminal_(::tcgetattr(STDIN_FILENO, &before_) == 0) {
        handle(SIGTSTP, note_suspend);
        handle(SIGCONT, note_continue);
        take();
    }
    RawTerminal(const RawTerminal&) = delete;
    RawTerminal& operator=(const RawTerminal&) = delete;
    ~RawTerminal() {
        give_back();
        handle(SIGTSTP, SIG_DFL);
        handle(SIGCONT, SIG_DFL);
    }

    /// After each wait: Ctrl-Z stops here, and whoever comes back has keys again.
    void follow_the_shell() {
        if (suspend_asked) {
            suspend_asked = 0;
            give_back();
            ::raise(SIGSTOP);
            continued = 1;
        }
        if (continued) {
            continued = 0;
            take();
        }
    }

private:
    static void handle(int signal, void (*handler)(int)) {
        struct sigaction action {};
        action.sa_handler = handler; // no SA_RESTART: poll has to wake up
        ::sigaction(signal, &action, nullptr);
    }
    void take() {
        if (!is_terminal_)
            return;
        termios raw = before_;
        raw.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO);
        ::tcsetattr(STDIN_FILENO, TCSANOW, &raw);
    }
    void give_back() {
        if (is_terminal_)
            ::tcsetattr(STDIN_FILENO, TCSANOW, &before_);
    }

    termios before_{};
    bool is_terminal_;
};

/// Columns of the terminal, one left free so that no line wraps.
std::size_t columns() {
    winsize size{};
    const bool known = ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 1;
    return (known ? size.ws_col : 80u) - 1u;
}

std::string clock_text(double seconds) {
    const auto s = static_cast<long>(std::lround(std::abs(seconds)));
    return fmt::format("{}{}:{:02}:{:02}", seconds < 0 ? "-" : "", s / 3600, s / 60 % 60, s % 60);
}

class Live {
public:
    Live(std::string path, io::Marks marks) : path_(std::move(path)), marks_(std::move(marks)) {}

    /// False: enough.
    bool press(char key) {
        if (stomach_) {
            stomach_ = false;
            if (key >= '0' && key <= '9')
                mark({"stomach", elapsed_s(), {}, key - '0'});
            return true;
        }
        switch (key) {
        case 't':
            mark_feed("taken");
            return true;
        case 'h':
            mark_feed("half");
            return true;
        case 's':
            mark_feed("skipped");
            return true;
        case 'r':
            mark({"run", elapsed_s(), {}, {}});
            return true;
        case 'b':
            stomach_ = true;
            return true;
        default:
            return key != 'q' && key != 4; // Ctrl-D
        }
    }

    void show() {
        const auto open = marks_.open_feed();
        std::string text = clock_text(elapsed_s()) + "  ";
        if (stomach_)
            text += "stomach, 0 to 9?";
        else if (open == marks_.feeds.size())
            text += "no more feeds";
        else
            text += feed_text(open);
        if (::isatty(STDOUT_FILENO))
            fmt::print("\r\x1b[K{}{}", first_characters(text, columns()), due_now(open) ? "\a" : "");
        else if (text.substr(text.find(' ')) != shown_)
            fmt::print("{}\n", text);
        shown_ = text.substr(text.find(' '));
        std::fflush(stdout);
    }

    void say_end() const {
        fmt::print("\n{} of {} feeds marked in {}. The same command goes on from here.\n", marks_.open_feed(),
                   marks_.feeds.size(), path_);
    }

private:
    double elapsed_s() const {
        return std::max(0.0, static_cast<double>(std::time(nullptr) - marks_.start_unix_s));
    }
    std::string feed_text(std::size_t open) const {
        const double due = marks_.due_s(open);
        const bool late = elapsed_s() >= due;
        return fmt::format("{} {}: {}", late ? "NOW, due" : "next at", clock_text(due),
                           marks_.feeds[open].what);
    }
    /// True once for each feed.
    bool due_now(std::size_t open) {
        if (open == marks_.feeds.size() || elapsed_s() < marks_.due_s(open) || rung_ == open)
            return false;
        rung_ = open;
        return true;
    }
    void mark_feed(const char* kind) {
        const auto open = marks_.open_feed();
        if (open < marks_.feeds.size())
            mark({kind, elapsed_s(), static_cast<int>(open), {}});
    }
    void mark(const io::Mark& mark) {
        io::add_mark(path_, mark);
        marks_.marks.push_back(mark);
    }

    std::string path_;
    io::Marks marks_;
    bool stomach_ = false;
    std::size_t rung_ = static_cast<std::size_t>(-1);
    std::string shown_;
};

} // namespace

int run_live(const std::string& path, const io::Marks& session) {
    auto marks = io::read_marks(path);
    if (marks.start_unix_s == 0) {
        marks = session;
        marks.start_unix_s = std::time(nullptr);
        io::begin_marks(path, marks);
    }
    StopSignals signals;
    RawTerminal terminal;
    fmt::print("t taken  h half  s skipped  b bad stomach (then 0 to 9)  r run begins  q stop\n");
    Live live(path, marks);
    live.show();
    while (!StopSignals::asked()) {
        pollfd input{STDIN_FILENO, POLLIN, 0};
        const int ready = ::poll(&input, 1, 500);
        terminal.follow_the_shell();
        if (ready > 0) {
            char key = 0;
            if (::read(STDIN_FILENO, &key, 1) != 1 || !live.press(key))
                break;
        }
        live.show();
    }
    live.say_end();
    return 0;
}

} // namespace tuck::cli
