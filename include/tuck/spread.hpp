// A duration that is not known exactly.
#pragma once

namespace tuck {

/// 10th, 50th and 90th percentile, in seconds.
struct Spread {
    double p10_s = 0, p50_s = 0, p90_s = 0;
};

} // namespace tuck
