// Inside the solver pressures are bar and flows L/min: human numbers, all between 1e-3 and 1e4, keep one tolerance fair.
#pragma once

namespace ferrule::hydraulics {

inline constexpr double bar = 1e5;             // Pa
inline constexpr double litre_a_minute = 1e-3 / 60;  // m3/s
inline constexpr double vapour_pressure = -1.0;      // bar gauge: oil gives no tension, about 0 bar absolute (common practice)
inline constexpr double beyond_all_ratings = 4000;   // bar: a pump that nothing limits ends here, and is reported as unlimited

}  // namespace ferrule::hydraulics
