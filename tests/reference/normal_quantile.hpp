// The normal quantile in double, for judging the engine's own.
#pragma once

namespace tuck::reference {

/// Standard normal by inversion (Wichura 1988, AS 241, PPND16: relative error about 1e-16).
double normal_quantile(double probability);

} // namespace tuck::reference
