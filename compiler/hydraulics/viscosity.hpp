// Kinematic viscosity of an oil over temperature.
#pragma once

namespace ferrule::hydraulics {

// mm2/s at `celsius`, of an oil with mm2/s at 40 degC and a viscosity index: ASTM D2270 (ISO 2909) gives the viscosity
// at 100 degC, ASTM D341 the line between and beyond.
double viscosity_at(double at_40, double index, double celsius);

// mm2/s at 100 degC.
double viscosity_at_100(double at_40, double index);

}  // namespace ferrule::hydraulics
