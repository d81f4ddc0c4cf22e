// How long one plan takes as a whole process, against a process that does nothing: run by hand.
//   build/tests/plan_bench [build/tuck [samples/hot-standard.json [rounds]]]
// Allowed: five times `tuck --version` and 20 ms more; 40 MB at the peak.
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fcntl.h>
#include <fmt/format.h>
#include <stdexcept>
#include <string>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace {

constexpr double most_versions = 5, most_extra_ms = 20, most_mb = 40;

struct Run {
    double wall_ms = 0, peak_mb = 0;
};

/// Runs a program with its output thrown away.
Run run(std::vector<std::string> words) {
    std::vector<char*> arguments;
    for (auto& word : words)
        arguments.push_back(word.data());
    arguments.push_back(nullptr);
    const auto start = std::chrono::steady_clock::now();
    const pid_t child = fork();
    if (child == 0) {
        const int nowhere = open("/dev/null", O_WRONLY);
        dup2(nowhere, STDOUT_FILENO);
        dup2(nowhere, STDERR_FILENO);
        execv(arguments[0], arguments.data());
        _exit(127);
    }
    int status = 0;
    rusage used{};
    if (child < 0 || wait4(child, &status, 0, &used) != child || !WIFEXITED(status) ||
        WEXITSTATUS(status) != 0)
        throw std::runtime_error("cannot run " + words[0]);
    const std::chrono::duration<double, std::milli> wall = std::chrono::steady_clock::now() - start;
    return {wall.count(), static_cast<double>(used.ru_maxrss) / 1024};
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const auto n = values.size();
    return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

int bench(const std::string& program, const std::string& event, int rounds) {
    std::vector<double> version_ms, plan_ms;
    double version_mb = 0, plan_mb = 0;
    run({program, "plan", event}); // warms the disk's cache
    for (int i = 0; i < rounds; ++i) {
        const Run version = run({program, "--version"}), plan = run({program, "plan", event});
        version_ms.push_back(version.wall_ms);
        plan_ms.push_back(plan.wall_ms);
        version_mb = std::max(version_mb, version.peak_mb);
        plan_mb = std::max(plan_mb, plan.peak_mb);
    }
    const double allowed_ms = most_versions * median(version_ms) + most_extra_ms;
    fmt::print("{} rounds, median wall time and peak memory of whole processes\n", rounds);
    fmt::print("  tuck --version   {:7.2f} ms  {:6.1f} MB\n", median(version_ms), version_mb);
    fmt::print("  tuck plan        {:7.2f} ms  {:6.1f} MB\n", median(plan_ms), plan_mb);
    fmt::print("  allowed          {:7.2f} ms  {:6.1f} MB   (5 x version + 20 ms)\n", allowed_ms, most_mb);
    fmt::print("  used of it       {:7.0f} %   {:6.0f} %\n", 100 * median(plan_ms) / allowed_ms,
               100 * plan_mb / most_mb);
    return median(plan_ms) <= allowed_ms && plan_mb <= most_mb ? 0 : 1;
}

} // namespace

int main(int count, char** words) {
    const std::string program = count > 1 ? words[1] : "build/tuck";
    const std::string event = count > 2 ? words[2] : "samples/hot-standard.json";
    const int rounds = count > 3 ? std::atoi(words[3]) : 50;
    if (rounds < 1) {
        fmt::print(stderr, "rounds: at least 1\n");
        return 2;
    }
    try {
        return bench(program, event, rounds);
    } catch (const std::exception& error) {
        fmt::print(stderr, "{}\n", error.what());
        return 2;
    }
}
