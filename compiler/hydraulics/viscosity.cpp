#include "compiler/hydraulics/viscosity.hpp"

#include <cmath>

namespace ferrule::hydraulics {
namespace {

// L = a Y^2 + b Y + c and H = d Y^2 + e Y + f for the viscosity Y at 100 degC up to a limit: the computational table of
// ASTM D2270 / ISO 2909 (last row read in the standard, the others from memory; they reproduce its printed examples).
struct Coefficients {
  double up_to, a, b, c, d, e, f;
};
constexpr Coefficients table[] = {
    {3.8, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077},    {4.4, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183},
    {5, 2.5, -7.2143, 13.812, 0.82143, 1.5679, 0.119},          {6.4, 0.101, 16.635, -45.469, 0.04985, 9.1613, -18.557},
    {7, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656},   {7.7, 0.01191, 21.475, -72.87, 0.79762, -0.7321, 14.61},
    {9, 0.41858, 16.1558, -56.04, 0.05794, 10.5156, -28.24},    {12, 0.88779, 7.5527, -16.6, 0.26665, 6.7015, -10.81},
    {15, 0.7672, 10.7972, -38.18, 0.20073, 8.4658, -22.49},     {18, 0.97305, 5.3135, -2.2, 0.28889, 5.9741, -4.93},
    {22, 0.97256, 5.25, -0.98, 0.24504, 7.416, -16.73},         {28, 0.91413, 7.4759, -21.82, 0.20323, 9.1267, -34.23},
    {40, 0.87031, 9.7157, -50.77, 0.18411, 10.1015, -46.75},    {55, 0.84703, 12.6752, -133.31, 0.17029, 11.4866, -80.62},
    {70, 0.85921, 11.1009, -83.19, 0.1713, 11.368, -76.94},     {1e9, 0.83531, 14.6731, -216.246, 0.16841, 11.8493, -96.947},
};

// The viscosity index of an oil with `at_40` and `at_100`.
double index_of(double at_40, double at_100) {
  const Coefficients* row = table;
  while (at_100 > row->up_to) ++row;
  const double low = row->a * at_100 * at_100 + row->b * at_100 + row->c;
  const double high = row->d * at_100 * at_100 + row->e * at_100 + row->f;
  const double plain = 100 * (low - at_40) / (low - high);
  if (plain <= 100) return plain;
  const double n = (std::log10(high) - std::log10(at_40)) / std::log10(at_100);
  return (std::pow(10, n) - 1) / 0.00715 + 100;
}

double z_of(double nu) { return nu + 0.7 + std::exp(-1.47 - 1.84 * nu - 0.51 * nu * nu); }

// The inverse as ASTM D341 gives it; good to 0.01 % where oils are used.
double viscosity_of(double z) {
  const double x = z - 0.7;
  return x - std::exp(-0.7487 - 3.295 * x + 0.6119 * x * x - 0.3193 * x * x * x);
}

}  // namespace

double viscosity_at_100(double at_40, double index) {
  double low = 2, high = at_40;  // the index rises with the viscosity at 100 degC
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = 0.5 * (low + high);
    (index_of(at_40, middle) < index ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double viscosity_at(double at_40, double index, double celsius) {
  constexpr double zero = 273.15;
  const double cold = std::log10(std::log10(z_of(at_40))), hot = std::log10(std::log10(z_of(viscosity_at_100(at_40, index))));
  const double from = std::log10(40 + zero), to = std::log10(100 + zero);
  const double slope = (cold - hot) / (to - from);
  const double here = cold - slope * (std::log10(celsius + zero) - from);
  return viscosity_of(std::pow(10, std::pow(10, here)));
}

}  // namespace ferrule::hydraulics
