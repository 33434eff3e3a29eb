// Where a law writes its balance: residuals, and their derivatives by the pressures around it and by its own unknowns.
#pragma once

namespace ferrule::hydraulics {

// One evaluation of one branch. `pressure` is by terminal, `local` by own unknown (flows, L/min).
struct Equations {
  const double* pressure;
  const double* local;
  double mu;             // how far the either-or pairs are smoothed
  int terminals, locals;
  double* residual;      // [locals]
  double* pressure_slope;  // [locals][terminals], zero on entry
  double* local_slope;     // [locals][locals], zero on entry

  double& by_pressure(int row, int terminal) const { return pressure_slope[row * terminals + terminal]; }
  double& by_local(int row, int column) const { return local_slope[row * locals + column]; }
};

}  // namespace ferrule::hydraulics
