#include "outside/general_solver.hpp"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_multiroots.h>

#include <algorithm>
#include <cmath>

#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/units.hpp"

namespace outside {
namespace {

namespace h = ferrule::hydraulics;

constexpr std::size_t fixed = ~std::size_t{0};

// Unknowns in this order: pressures of the free points, what vapour fills there, flows of the branches.
struct Plain {
  const h::Network& network;
  std::vector<std::size_t> column;  // by point; `fixed` where its pressure is given
  std::size_t free = 0;
  double mu = 3;

  explicit Plain(const h::Network& of) : network(of), column(of.points(), fixed) {
    for (std::uint32_t point = 0; point < of.points(); ++point)
      if (!of.is_fixed(point)) column[point] = free++;
  }
  std::size_t unknowns() const { return 2 * free + network.locals; }
  std::size_t local(std::uint32_t index) const { return 2 * free + index; }
  double leak() const { return std::max(1e-11, 1e-4 * mu); }  // L/min per bar: the reference of a pocket that is shut in
};

// Rows in the order of the unknowns: balance of every free point, its void pair, the laws of the branches.
void evaluate(const Plain& plain, const gsl_vector* x, gsl_vector* f, gsl_matrix* slopes) {
  if (f) gsl_vector_set_zero(f);
  if (slopes) gsl_matrix_set_zero(slopes);
  const auto add = [&](std::size_t row, double value) { if (f) *gsl_vector_ptr(f, row) += value; };
  const auto slope = [&](std::size_t row, std::size_t column, double value) { if (slopes) *gsl_matrix_ptr(slopes, row, column) += value; };
  for (std::size_t row = 0; row < plain.free; ++row) {
    const double pressure = gsl_vector_get(x, row), made_up = gsl_vector_get(x, plain.free + row);
    const h::Smooth pair = h::either_or(made_up, pressure - h::vapour_pressure, plain.mu);
    add(row, made_up - plain.leak() * pressure);
    slope(row, row, -plain.leak()), slope(row, plain.free + row, 1);
    add(plain.free + row, pair.value);
    slope(plain.free + row, plain.free + row, pair.by_a), slope(plain.free + row, row, pair.by_b);
  }
  std::vector<double> around, own, residual, dp, dz;
  for (const h::Branch& branch : plain.network.branches) {
    const auto point = [&](std::uint32_t t) { return plain.network.terminals[branch.first_terminal + t]; };
    around.assign(branch.terminals, 0), own.assign(branch.locals, 0), residual.assign(branch.locals, 0);
    dp.assign(branch.locals * branch.terminals, 0), dz.assign(branch.locals * branch.locals, 0);
    for (std::uint32_t t = 0; t < branch.terminals; ++t)
      around[t] = plain.column[point(t)] == fixed ? plain.network.fixed[point(t)] : gsl_vector_get(x, plain.column[point(t)]);
    for (std::uint32_t i = 0; i < branch.locals; ++i) own[i] = gsl_vector_get(x, plain.local(branch.first_local + i));
    const h::Equations eq{around.data(), own.data(), plain.mu, static_cast<int>(branch.terminals), static_cast<int>(branch.locals),
                          residual.data(), dp.data(), dz.data()};
    std::visit([&](const auto& law) { state(law, eq); }, *branch.law);
    for (std::uint32_t i = 0; i < branch.locals; ++i) {
      const std::size_t row = plain.local(branch.first_local + i);
      add(row, residual[i]);
      for (std::uint32_t t = 0; t < branch.terminals; ++t)
        if (plain.column[point(t)] != fixed) slope(row, plain.column[point(t)], dp[i * branch.terminals + t]);
      for (std::uint32_t k = 0; k < branch.locals; ++k) slope(row, plain.local(branch.first_local + k), dz[i * branch.locals + k]);
      for (std::uint32_t t = 0; t < branch.terminals; ++t) {
        if (plain.column[point(t)] == fixed) continue;
        const double share = plain.network.gives[branch.first_gives + t * branch.locals + i];
        add(plain.column[point(t)], share * own[i]);
        slope(plain.column[point(t)], row, share);
      }
    }
  }
}

int residuals(const gsl_vector* x, void* plain, gsl_vector* f) { return evaluate(*static_cast<Plain*>(plain), x, f, nullptr), GSL_SUCCESS; }
int slopes(const gsl_vector* x, void* plain, gsl_matrix* j) { return evaluate(*static_cast<Plain*>(plain), x, nullptr, j), GSL_SUCCESS; }
int both(const gsl_vector* x, void* plain, gsl_vector* f, gsl_matrix* j) { return evaluate(*static_cast<Plain*>(plain), x, f, j), GSL_SUCCESS; }

double largest(const gsl_vector* f) { return std::max(std::fabs(gsl_vector_max(f)), std::fabs(gsl_vector_min(f))); }

bool stage(gsl_multiroot_fdfsolver* solver, gsl_multiroot_function_fdf* system, gsl_vector* x, double enough) {
  gsl_multiroot_fdfsolver_set(solver, system, x);
  for (int step = 0; step < 400 && !(largest(solver->f) <= enough); ++step)
    if (gsl_multiroot_fdfsolver_iterate(solver) != GSL_SUCCESS) break;
  const bool found = largest(solver->f) <= enough;
  gsl_vector_memcpy(x, solver->x);
  return found;
}

Found solved_by(const gsl_multiroot_fdfsolver_type* method, const h::Network& network) {
  Plain plain(network);
  Found found;
  found.unknowns = plain.unknowns();
  if (found.unknowns == 0) return {true, 0, network.fixed, {}};
  gsl_multiroot_function_fdf system{residuals, slopes, both, plain.unknowns(), &plain};
  gsl_multiroot_fdfsolver* solver = gsl_multiroot_fdfsolver_alloc(method, plain.unknowns());
  gsl_vector* x = gsl_vector_calloc(plain.unknowns());
  constexpr double finest = 1e-7;
  for (; plain.mu > finest; plain.mu *= 0.1) stage(solver, &system, x, 0.1 * plain.mu);
  plain.mu = finest;
  found.converged = stage(solver, &system, x, 1e-8);
  found.pressure = network.fixed;
  for (std::uint32_t point = 0; point < network.points(); ++point)
    if (plain.column[point] != fixed) found.pressure[point] = gsl_vector_get(x, plain.column[point]);
  for (std::uint32_t i = 0; i < network.locals; ++i) found.local.push_back(gsl_vector_get(x, plain.local(i)));
  gsl_vector_free(x);
  gsl_multiroot_fdfsolver_free(solver);
  return found;
}

}  // namespace

Found solved_by_gsl(const h::Network& network) {
  gsl_set_error_handler_off();
  for (const gsl_multiroot_fdfsolver_type* method : {gsl_multiroot_fdfsolver_gnewton, gsl_multiroot_fdfsolver_hybridsj, gsl_multiroot_fdfsolver_hybridj})
    if (Found found = solved_by(method, network); found.converged) return found;
  return {};
}
}  // namespace outside
