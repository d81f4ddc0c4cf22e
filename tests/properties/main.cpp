// What holds for every athlete on every day, asked of many of them (see DEVELOPERS.md):
//
//     tuck_properties plausible|extreme COUNT [SEED, 1] [THREADS, 1] [FIRST, 0] [EVERY, 20]
//
// Each case: effort, body, need and those of two neighbours; the whole plan without simulated days, before
// the judge. Each EVERYth instead the plan with 200 simulated days and what would help, read back out of
// text, JSON, card and sheet. A case is the same for its seed and number, whatever the count and the threads.
// COUNT 1 prints the case. Exit code 1 if there is a fault.
#include "properties/cases.hpp"
#include "properties/faces.hpp"
#include "properties/judge.hpp"
#include "properties/steps.hpp"

#include "io/pantry.hpp"
#include "tuck/compose.hpp"

#include <atomic>
#include <cstdio>
#include <fmt/ranges.h>
#include <mutex>
#include <sys/resource.h>
#include <thread>
#include <time.h>

using namespace tuck;
using namespace tuck::properties;

namespace {

struct Order {
    Kind kind = Kind::plausible;
    std::uint64_t count = 0, seed = 1, threads = 1, first = 0, every = 20;
};

struct Looked {
    bool planned = false, with_faces = false, with_card = false;
    int redrawn = 0, monotone = 0, near = 0;
    double cpu_s = 0;
    std::string refused; // no legal day
    std::vector<std::string> faults;
    std::string document;
};

double cpu_s() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

double peak_mb() {
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    return static_cast<double>(used.ru_maxrss) / 1024;
}

/// As they are typed after the document.
std::string options_of(const Edits& edits) {
    std::string out;
    const auto say = [&out](const char* option, const std::string& value) {
        if (!value.empty())
            out += fmt::format(" {}={}", option, value);
    };
    say("--without", fmt::format("{}", fmt::join(edits.without, ",")));
    say("--only", fmt::format("{}", fmt::join(edits.only, ",")));
    say("--bike-rhythm", edits.bike_rhythm);
    say("--swim", edits.swim);
    say("--delay", edits.delay);
    for (const auto& pin : edits.pins)
        say("--pin", pin);
    return out;
}

void look_at(const Order& order, std::uint64_t number, const std::shared_ptr<const Pantry>& pantry,
             Looked& out) {
    auto drawn = case_of(order.kind, order.seed, number, pantry, out.refused);
    if (!drawn)
        return;
    out.refused.clear();
    out.redrawn = drawn->refused;
    out.document = drawn->event + options_of(drawn->edits);
    Asked& asked = drawn->asked;
    const bool with_faces = order.every > 0 && number % order.every == 0;
    asked.event.days = with_faces ? 200 : 0;
    const auto add = [&out](const std::vector<std::string>& more) {
        out.faults.insert(out.faults.end(), more.begin(), more.end());
    };
    Want want;
    want.help = with_faces;
    want.no_swim = with_faces;
    Answer answered;
    try {
        answered = answer(asked, want);
    } catch (const Error& error) {
        out.refused = error.what();
        return;
    }
    out.planned = true;
    add(judge(asked, answered.plan));
    Draw draw(order.seed ^ number * 0x9e3779b97f4a7c15ULL);
    const auto steps = step_aside(asked, draw);
    out.monotone = steps.monotone;
    out.near = steps.near;
    add(steps.faults);
    if (!with_faces)
        return;
    out.with_faces = true;
    const auto compared = compare_faces(answered.plan, answered.no_swim ? &*answered.no_swim : nullptr);
    out.with_card = compared.card;
    add(compared.faults);
}

Looked looked_at(const Order& order, std::uint64_t number, const std::shared_ptr<const Pantry>& pantry) {
    Looked out;
    const double start = cpu_s();
    try {
        look_at(order, number, pantry, out);
    } catch (const std::exception& error) {
        out.faults.push_back(std::string("thrown: ") + error.what());
    }
    out.cpu_s = cpu_s() - start;
    return out;
}

class Tally {
public:
    explicit Tally(const Order& order) : order_(order) {}

    void add(std::uint64_t number, const Looked& one) {
        const std::lock_guard hold(mutex_);
        ++done_;
        planned_ += one.planned;
        with_faces_ += one.with_faces;
        cards_ += one.with_card;
        redrawn_ += one.redrawn;
        monotone_ += one.monotone;
        near_ += one.near;
        refused_ += !one.refused.empty();
        faulty_ += !one.faults.empty();
        long_ += one.cpu_s > 2;
        cpu_s_ += one.cpu_s;
        if (one.cpu_s > slowest_s_) {
            slowest_s_ = one.cpu_s;
            slowest_ = number;
        }
        for (const auto& fault : one.faults)
            fmt::print("FAULT {} {} {}: {}\n", name(), order_.seed, number, fault);
        if (order_.count == 1)
            fmt::print("{}\n", one.document);
        if (done_ % 10000 == 0 || done_ == order_.count)
            tell();
    }
    bool good() const { return faulty_ == 0; }

private:
    const char* name() const { return order_.kind == Kind::plausible ? "plausible" : "extreme"; }
    void tell() const {
        fmt::print("{} {} cases of seed {} from {}: {} plans judged, {} of them with 200 simulated days, "
                   "text, JSON and "
                   "sheet, {} with a card; {} days refused in words, {} draws no legal input; {} monotone "
                   "and {} near "
                   "steps; {} faulty; {:.2f} ms a case, slowest {:.2f} s (number {}), {} over 2 s; at most "
                   "{:.0f} MB\n",
                   done_, name(), order_.seed, order_.first, planned_, with_faces_, cards_, refused_,
                   redrawn_, monotone_, near_, faulty_, 1000 * cpu_s_ / static_cast<double>(done_),
                   slowest_s_, slowest_, long_, peak_mb());
        std::fflush(stdout);
    }

    const Order& order_;
    std::mutex mutex_;
    std::uint64_t done_ = 0, planned_ = 0, with_faces_ = 0, cards_ = 0, redrawn_ = 0, monotone_ = 0,
                  near_ = 0, refused_ = 0, faulty_ = 0, long_ = 0;
    double cpu_s_ = 0, slowest_s_ = 0;
    std::uint64_t slowest_ = 0;
};

bool run(const Order& order) {
    const auto pantry = std::make_shared<const Pantry>(io::load_pantry(TUCK_FOODS_DIR));
    Tally tally(order);
    std::atomic<std::uint64_t> next = 0;
    const auto work = [&] {
        for (std::uint64_t n; (n = next++) < order.count;)
            tally.add(order.first + n, looked_at(order, order.first + n, pantry));
    };
    std::vector<std::jthread> others;
    for (std::uint64_t t = 1; t < order.threads; ++t)
        others.emplace_back(work);
    work();
    others.clear();
    return tally.good();
}

} // namespace

int main(int count, char** words) {
    const std::string kind = count > 1 ? words[1] : "";
    if (count < 3 || (kind != "plausible" && kind != "extreme")) {
        fmt::print(stderr, "tuck_properties plausible|extreme COUNT [SEED] [THREADS] [FIRST] [EVERY]\n");
        return 2;
    }
    Order order;
    order.kind = kind == "extreme" ? Kind::extreme : Kind::plausible;
    std::uint64_t* places[] = {&order.count, &order.seed, &order.threads, &order.first, &order.every};
    for (int i = 2; i < count && i < 7; ++i)
        *places[i - 2] = std::stoull(words[i]);
    return run(order) ? 0 : 1;
}
