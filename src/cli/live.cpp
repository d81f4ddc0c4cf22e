#include "cli/live.hpp"

#include "base/utf8.hpp"
#include "cli/stop_signals.hpp"
#include "cli/tell.hpp"

#include <algorithm>
#include <array>
#include <chrono>
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

/// Of the terminal; one column is left free so that no line wraps.
struct Room {
    std::size_t columns = 79, rows = 24;
};

Room room() {
    winsize size{};
    const bool known = ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 1;
    return known ? Room{size.ws_col - 1u, size.ws_row} : Room{};
}

constexpr std::size_t figure_rows = 5;

/// One character of a clock, five rows high; a row is three bits, the left one first.
std::array<int, figure_rows> figure_of(char c) {
    switch (c) {
    case '0':
        return {7, 5, 5, 5, 7};
    case '1':
        return {2, 6, 2, 2, 7};
    case '2':
        return {7, 1, 7, 4, 7};
    case '3':
        return {7, 1, 7, 1, 7};
    case '4':
        return {5, 5, 7, 1, 1};
    case '5':
        return {7, 4, 7, 1, 7};
    case '6':
        return {7, 4, 7, 5, 7};
    case '7':
        return {7, 1, 1, 2, 2};
    case '8':
        return {7, 5, 7, 5, 7};
    case '9':
        return {7, 5, 7, 1, 7};
    case ':':
        return {0, 2, 0, 2, 0};
    default:
        return {};
    }
}

/// A clock to be read from the saddle, two characters a dot.
std::vector<std::string> big(const std::string& clock) {
    std::vector<std::string> rows(figure_rows, "  ");
    for (const char c : clock) {
        const auto figure = figure_of(c);
        for (std::size_t row = 0; row < figure_rows; ++row) {
            for (const int dot : {4, 2, 1})
                rows[row] += (figure[row] & dot) ? "##" : "  ";
            rows[row] += "  ";
        }
    }
    return rows;
}

std::string clock_text(double seconds) {
    const auto s = static_cast<long>(std::lround(std::abs(seconds)));
    return fmt::format("{}{}:{:02}:{:02}", seconds < 0 ? "-" : "", s / 3600, s / 60 % 60, s % 60);
}

/// The time of day when it is made; from then on it goes evenly, through sleep too, whoever sets the clock of
/// the day.
class EvenClock {
public:
    double unix_s() const { return begun_unix_s_ + boot_s() - begun_boot_s_; }

private:
    static double boot_s() {
        timespec now{};
        ::clock_gettime(CLOCK_BOOTTIME, &now);
        return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
    }
    double begun_unix_s_ =
        std::chrono::duration<double>(std::chrono::system_clock::now().time_since_epoch()).count();
    double begun_boot_s_ = boot_s();
};

class Live {
public:
    Live(std::string path, io::Marks marks, double speed)
        : path_(std::move(path)), marks_(std::move(marks)), speed_(speed), keeps_(speed == 1) {}

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
        const std::string text = stomach_                      ? "stomach, 0 to 9?"
                                 : open == marks_.feeds.size() ? "no more feeds"
                                                               : feed_text(open);
        if (::isatty(STDOUT_FILENO))
            paint(text, due_now(open));
        else if (text != shown_)
            fmt::print("{}  {}\n", clock_text(elapsed_s()), text);
        shown_ = text;
        std::fflush(stdout);
    }

    void say_end() const {
        if (!keeps_)
            fmt::print("\nA dry run: nothing was kept.\n");
        else
            fmt::print("\n{} of {} feeds marked in {}. The same command goes on from here.\n",
                       marks_.open_feed(), marks_.feeds.size(), path_);
    }

private:
    double elapsed_s() const {
        return std::max(0.0, (clock_.unix_s() - static_cast<double>(marks_.start_unix_s)) * speed_);
    }
    /// The same rows again: clock in big figures where there is room, then what is next.
    void paint(const std::string& text, bool ring) {
        const auto space = room();
        auto rows = big(clock_text(elapsed_s()));
        if (space.columns < 60 || space.rows < figure_rows + 4)
            rows = {clock_text(elapsed_s())};
        rows.push_back("");
        rows.push_back(text);
        if (painted_ > 1)
            fmt::print("\x1b[{}A", painted_ - 1);
        std::string all = "\r";
        for (std::size_t i = 0; i < rows.size(); ++i)
            all += (i > 0 ? "\n" : "") + std::string("\r\x1b[K") + first_characters(rows[i], space.columns);
        fmt::print("{}{}", all, ring ? "\a" : "");
        painted_ = rows.size();
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
        if (keeps_)
            io::add_mark(path_, mark);
        marks_.marks.push_back(mark);
    }

    EvenClock clock_;
    std::string path_;
    io::Marks marks_;
    double speed_;
    bool keeps_; // a dry run leaves nothing behind
    std::size_t painted_ = 0;
    bool stomach_ = false;
    std::size_t rung_ = static_cast<std::size_t>(-1);
    std::string shown_;
};

} // namespace

int run_live(const std::string& path, const io::Marks& session, double speed) {
    auto marks = speed == 1 ? io::read_marks(path) : io::Marks{};
    tell_notes(io::notes_on(marks, path));
    if (marks.start_unix_s == 0) {
        marks = session;
        marks.start_unix_s = std::max<long long>(1, std::time(nullptr));
        if (speed == 1)
            io::begin_marks(path, marks);
    }
    StopSignals signals;
    RawTerminal terminal;
    if (speed > 1)
        fmt::print("A dry run of the whole race, {:g} times as fast as the clock; nothing is kept.\n", speed);
    fmt::print("t taken  h half  s skipped  b bad stomach (then 0 to 9)  r run begins  q stop\n");
    Live live(path, marks, speed);
    live.show();
    while (!StopSignals::asked()) {
        pollfd input{STDIN_FILENO, POLLIN, 0};
        const int ready = ::poll(&input, 1, speed > 1 ? 100 : 500);
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
