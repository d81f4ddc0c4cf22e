// Distance and direction on the globe taken as a sphere.
#pragma once

namespace tuck {

/// Great-circle distance, m, on a sphere of 6371.0088 km (mean earth radius, IUGG): within 0.56 % of the
/// WGS84 geodesic everywhere. Degrees; any longitude, so that the date line needs no care.
double great_circle_m(double lat1_deg, double lon1_deg, double lat2_deg, double lon2_deg);

/// Direction of the great circle at its start, degrees clockwise from north, 0..360.
double heading_deg(double lat1_deg, double lon1_deg, double lat2_deg, double lon2_deg);

} // namespace tuck
