// Physical quantities: an SI value with its dimension, and the units people write.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace ferrule {

// Exponents of the base units. The angle keeps cm3/rev apart from cm3 and rpm apart from 1/s.
struct Dimension {
  std::int8_t length = 0, mass = 0, time = 0, temperature = 0, angle = 0;
  friend bool operator==(const Dimension&, const Dimension&) = default;
};

// SI value: Pa (gauge unless said otherwise), m3/s, m3/rad, rad/s, K for a temperature, 1 for ratios (30 % is 0.3).
struct Quantity {
  double si = 0;
  Dimension dimension;
};

Dimension operator*(Dimension a, Dimension b);
Dimension operator/(Dimension a, Dimension b);

// "pressure", "flow", "length" ... ; a formula of base units when the trade has no word for it.
std::string name_of(Dimension dimension);
// The dimension that a definition's word names ("pressure", "flow", "displacement", "speed", "rotation", ...).
std::optional<Dimension> dimension_named(std::string_view word);
// An example in the trade's unit: "160 bar".
std::string example_of(Dimension dimension);

struct Unit {
  std::string_view symbol;  // as people write it
  Dimension dimension;
  double factor = 1;  // si = value * factor + offset
  double offset = 0;  // degC, degF
};

// Every unit people may write, grouped by dimension, for the reference.
std::span<const Unit> units();

// The unit with this spelling (`L/min`, `cm3/rev`, `degC`, also `cm³/rev`, `°C`, `µm`, `N·m`), or none.
// Products with blanks ("N m", "lbf ft") are looked up joined by one blank.
std::optional<Unit> unit_named(std::string_view symbol);
// The spelling of the known unit nearest to `symbol`, for did-you-mean; empty when none is near.
std::string nearest_unit(std::string_view symbol);

// `10 bar` for `10bar`: a number that touches its unit is a word to the grammar. Empty when it is neither.
std::string with_blank(std::string_view word);

// What no fact may exceed, whatever its definition says: far beyond all machines, yet numbers that can be computed with.
// None for a dimension that may have any value.
struct Bounds {
  double low, high;  // SI
};
std::optional<Bounds> bounds_of(Dimension dimension);

// For people: the value in the usual unit of its dimension, three to four significant digits ("160 bar", "21.3 L/min").
// A few pascal, a milliwatt, a hundredth of a newton are what an iteration leaves: shown as 0.
std::string shown(Quantity quantity);
// The value in the given unit without the unit's name.
double in_unit(Quantity quantity, const Unit& unit);

namespace dimension {
inline constexpr Dimension none{}, length{1, 0, 0, 0, 0}, area{2, 0, 0, 0, 0}, volume{3, 0, 0, 0, 0}, mass{0, 1, 0, 0, 0},
    time{0, 0, 1, 0, 0}, temperature{0, 0, 0, 1, 0}, angle{0, 0, 0, 0, 1}, speed{1, 0, -1, 0, 0}, rotation{0, 0, -1, 0, 1},
    displacement{3, 0, 0, 0, -1}, flow{3, 0, -1, 0, 0}, pressure{-1, 1, -2, 0, 0}, force{1, 1, -2, 0, 0},
    torque{2, 1, -2, 0, 0}, power{2, 1, -3, 0, 0}, density{-3, 1, 0, 0, 0}, kinematic_viscosity{2, 0, -1, 0, 0},
    heat_transfer{0, 1, -3, -1, 0}, duty_per_kelvin{2, 1, -3, -1, 0}, stiffness{0, 1, -2, 0, 0};
}

}  // namespace ferrule
