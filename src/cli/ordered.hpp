// Work on several threads with results in order: the bytes never depend on how many threads there are.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace tuck::cli {

/// Takes jobs from `next` (under a lock, in order), does them with one of `workers` (one for each thread),
/// and hands the results to `take` in the order of the jobs, on the calling thread. At most `ahead` results
/// wait, so that memory is bounded. What any of them throws ends the work and is thrown here.
template <typename Job, typename Result>
void in_order(std::size_t ahead, const std::vector<std::function<Result(Job&)>>& workers,
              const std::function<bool(Job&)>& next, const std::function<void(Result&)>& take) {
    std::mutex mutex;
    std::condition_variable changed;
    std::vector<std::optional<Result>> waiting(ahead);
    std::size_t begun = 0, taken = 0;
    bool no_more = false;
    std::exception_ptr failure;

    const auto fail = [&] {
        const std::lock_guard lock(mutex);
        if (!failure)
            failure = std::current_exception();
        no_more = true;
        changed.notify_all();
    };
    const auto work = [&](const std::function<Result(Job&)>& worker) {
        try {
            for (;;) {
                Job job;
                std::size_t number = 0;
                {
                    std::unique_lock lock(mutex);
                    changed.wait(lock, [&] { return no_more || begun < taken + ahead; });
                    if (no_more)
                        return;
                    if (!next(job)) {
                        no_more = true;
                        changed.notify_all();
                        return;
                    }
                    number = begun++;
                }
                Result result = worker(job);
                const std::lock_guard lock(mutex);
                waiting[number % ahead].emplace(std::move(result));
                changed.notify_all();
            }
        } catch (...) {
            fail();
        }
    };

    std::vector<std::thread> threads;
    for (const auto& worker : workers)
        threads.emplace_back(work, std::cref(worker));
    try {
        for (;;) {
            std::optional<Result> result;
            {
                std::unique_lock lock(mutex);
                changed.wait(
                    lock, [&] { return failure || waiting[taken % ahead] || (no_more && taken == begun); });
                if (failure || !waiting[taken % ahead])
                    break;
                result.swap(waiting[taken % ahead]);
                ++taken;
                changed.notify_all();
            }
            take(*result);
        }
    } catch (...) {
        fail();
    }
    for (auto& thread : threads)
        thread.join();
    if (failure)
        std::rethrow_exception(failure);
}

} // namespace tuck::cli
