// Unknown are the pressures and the flows of the branches. The flows of a branch are eliminated against the pressures
// around it, so that the matrix has one row per point; a shut valve is a conductance near nil, an ideal source a fixed flow.
#include "compiler/hydraulics/newton.hpp"

#include <algorithm>
#include <cmath>

#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/pivoted.hpp"
#include "compiler/hydraulics/elimination.hpp"
#include "compiler/hydraulics/units.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr double coarsest = 3, finest = 1e-7, finer_by = 0.2;
constexpr double tolerance = 1e-9;       // of the largest flow, and in bar at the same number
constexpr int steps_a_stage = 60, steps_at_most = 600;
constexpr double leak_at_rest = 1e-11;   // L/min per bar: gives a trapped pocket a reference (numerical)

class Descent {
 public:
  explicit Descent(const Network& network);
  Solution run();

 private:
  void prepare_pattern();
  void evaluate(const Solution& at);
  void eliminate_locals();
  bool linear_step(bool pivoted);
  void assemble();
  bool advance(bool pivoted);
  bool stage();
  double merit() const;
  double largest() const;
  double leak() const { return std::max(leak_at_rest, 1e-4 * mu_); }
  void note_worst();

  const Network& net_;
  double mu_ = coarsest;
  Solution now_;
  std::vector<std::uint32_t> row_of_;            // by point; none for fixed points
  std::vector<std::uint32_t> point_of_;          // by row
  Elimination matrix_;
  std::vector<std::uint32_t> slots_;             // by branch, terminals squared; none where a point is fixed
  std::vector<double> residual_, dp_, dz_;       // of the laws, all branches one after another
  std::vector<std::uint32_t> first_dp_, first_dz_, first_slot_;
  std::vector<double> balance_, void_residual_, void_by_flow_, void_by_pressure_;  // by row
  std::vector<double> step_;                     // by row: change of pressure
  std::vector<double> local_step_, void_step_, around_;
};

constexpr std::uint32_t none = 0xffffffff;

std::vector<std::vector<std::uint32_t>> neighbours_of(const Network& net, const std::vector<std::uint32_t>& row_of, std::size_t rows) {
  std::vector<std::vector<std::uint32_t>> neighbours(rows);
  for (const Branch& branch : net.branches)
    for (std::uint32_t a = 0; a < branch.terminals; ++a)
      for (std::uint32_t b = 0; b < branch.terminals; ++b) {
        const std::uint32_t row = row_of[net.terminals[branch.first_terminal + a]];
        const std::uint32_t other = row_of[net.terminals[branch.first_terminal + b]];
        if (row != none && other != none && row != other) neighbours[row].push_back(other);
      }
  for (auto& list : neighbours) {
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }
  return neighbours;
}

std::vector<std::uint32_t> rows_of(const Network& net) {
  std::vector<std::uint32_t> row_of(net.points(), none);
  std::uint32_t rows = 0;
  for (std::uint32_t point = 0; point < net.points(); ++point)
    if (!net.is_fixed(point)) row_of[point] = rows++;
  return row_of;
}

std::size_t count_rows(const std::vector<std::uint32_t>& row_of) {
  return static_cast<std::size_t>(std::count_if(row_of.begin(), row_of.end(), [](std::uint32_t row) { return row != none; }));
}

Descent::Descent(const Network& network)
    : net_(network), row_of_(rows_of(network)), matrix_(neighbours_of(network, row_of_, count_rows(row_of_))) {
  now_.pressure = net_.fixed;
  for (std::uint32_t point = 0; point < net_.points(); ++point)
    if (row_of_[point] != none) {
      point_of_.push_back(point);
      now_.pressure[point] = 0;
    }
  now_.local.assign(net_.locals, 0);
  now_.made_up.assign(point_of_.size(), 0);
  residual_.resize(net_.locals);
  local_step_.resize(net_.locals);
  prepare_pattern();
}

void Descent::prepare_pattern() {
  std::uint32_t dp = 0, dz = 0;
  for (const Branch& branch : net_.branches) {
    first_dp_.push_back(dp);
    first_dz_.push_back(dz);
    first_slot_.push_back(static_cast<std::uint32_t>(slots_.size()));
    dp += branch.locals * branch.terminals;
    dz += branch.locals * branch.locals;
    for (std::uint32_t a = 0; a < branch.terminals; ++a)
      for (std::uint32_t b = 0; b < branch.terminals; ++b) {
        const std::uint32_t row = row_of_[net_.terminals[branch.first_terminal + a]];
        const std::uint32_t column = row_of_[net_.terminals[branch.first_terminal + b]];
        slots_.push_back(row == none || column == none ? none : matrix_.slot(row, column));
      }
  }
  std::uint32_t most = 0;
  for (const Branch& branch : net_.branches) most = std::max(most, branch.terminals);
  around_.resize(most);
  dp_.resize(dp);
  dz_.resize(dz);
  const std::size_t rows = point_of_.size();
  for (auto* list : {&balance_, &void_residual_, &void_by_flow_, &void_by_pressure_, &step_, &void_step_}) list->resize(rows);
}

// Residuals and slopes of all laws and of the balance at every point.
void Descent::evaluate(const Solution& at) {
  std::fill(dp_.begin(), dp_.end(), 0.0);
  std::fill(dz_.begin(), dz_.end(), 0.0);
  for (std::size_t row = 0; row < point_of_.size(); ++row) {
    const double pressure = at.pressure[point_of_[row]];
    const Smooth filled = either_or(at.made_up[row], pressure - vapour_pressure, mu_);
    void_residual_[row] = filled.value;
    void_by_flow_[row] = filled.by_a;
    void_by_pressure_[row] = filled.by_b;
    balance_[row] = at.made_up[row] - leak() * pressure;
  }
  for (std::size_t index = 0; index < net_.branches.size(); ++index) {
    const Branch& branch = net_.branches[index];
    const std::uint32_t* terminal = net_.terminals.data() + branch.first_terminal;
    for (std::uint32_t t = 0; t < branch.terminals; ++t) around_[t] = at.pressure[terminal[t]];
    const Equations eq{around_.data(), at.local.data() + branch.first_local, mu_, static_cast<int>(branch.terminals),
                       static_cast<int>(branch.locals), residual_.data() + branch.first_local, dp_.data() + first_dp_[index],
                       dz_.data() + first_dz_[index]};
    std::visit([&](const auto& law) { state(law, eq); }, branch.law);
    for (std::uint32_t t = 0; t < branch.terminals; ++t)
      if (row_of_[terminal[t]] != none) balance_[row_of_[terminal[t]]] += net_.given(branch, t, at.local);
  }
}

// Turns each branch's slopes into "change of own unknowns = -residual - slopes * change of pressures". At most two unknowns.
void Descent::eliminate_locals() {
  for (std::size_t index = 0; index < net_.branches.size(); ++index) {
    const Branch& branch = net_.branches[index];
    double* residual = residual_.data() + branch.first_local;
    double* dp = dp_.data() + first_dp_[index];
    const double* dz = dz_.data() + first_dz_[index];
    const std::uint32_t width = branch.terminals;
    if (branch.locals == 1) {
      residual[0] /= dz[0];
      for (std::uint32_t t = 0; t < width; ++t) dp[t] /= dz[0];
      continue;
    }
    const double determinant = dz[0] * dz[3] - dz[1] * dz[2];
    auto solve = [&](double& one, double& two) {
      const double first = (dz[3] * one - dz[1] * two) / determinant;
      two = (dz[0] * two - dz[2] * one) / determinant;
      one = first;
    };
    solve(residual[0], residual[1]);
    for (std::uint32_t t = 0; t < width; ++t) solve(dp[t], dp[width + t]);
  }
}

void Descent::assemble() {
  auto& entries = matrix_.entries();
  std::fill(entries.begin(), entries.end(), 0.0);
  for (std::uint32_t row = 0; row < point_of_.size(); ++row) {
    entries[row] = leak() + void_by_pressure_[row] / void_by_flow_[row];
    step_[row] = balance_[row] - void_residual_[row] / void_by_flow_[row];
  }
  for (std::size_t index = 0; index < net_.branches.size(); ++index) {
    const Branch& branch = net_.branches[index];
    const std::uint32_t* slot = slots_.data() + first_slot_[index];
    const double* dp = dp_.data() + first_dp_[index];
    for (std::uint32_t a = 0; a < branch.terminals; ++a) {
      const std::uint32_t row = row_of_[net_.terminals[branch.first_terminal + a]];
      if (row == none) continue;
      const double* gives = net_.gives.data() + branch.first_gives + a * branch.locals;
      for (std::uint32_t own = 0; own < branch.locals; ++own) {
        if (gives[own] == 0) continue;
        step_[row] -= gives[own] * residual_[branch.first_local + own];
        for (std::uint32_t b = 0; b < branch.terminals; ++b)
          if (slot[a * branch.terminals + b] != none)
            entries[slot[a * branch.terminals + b]] += gives[own] * dp[own * branch.terminals + b];
      }
    }
  }
}

// Fills the changes of all unknowns from the current slopes.
bool Descent::linear_step(bool pivoted) {
  assemble();
  const bool solved = pivoted ? solve_pivoted(matrix_, net_, row_of_, step_) : matrix_.solve(step_);
  if (!solved || !std::all_of(step_.begin(), step_.end(), [](double x) { return std::isfinite(x); })) return false;
  for (std::size_t index = 0; index < net_.branches.size(); ++index) {
    const Branch& branch = net_.branches[index];
    const double* dp = dp_.data() + first_dp_[index];
    for (std::uint32_t own = 0; own < branch.locals; ++own) {
      double change = -residual_[branch.first_local + own];
      for (std::uint32_t t = 0; t < branch.terminals; ++t) {
        const std::uint32_t row = row_of_[net_.terminals[branch.first_terminal + t]];
        if (row != none) change -= dp[own * branch.terminals + t] * step_[row];
      }
      local_step_[branch.first_local + own] = change;
    }
  }
  for (std::size_t row = 0; row < point_of_.size(); ++row)
    void_step_[row] = -(void_residual_[row] + void_by_pressure_[row] * step_[row]) / void_by_flow_[row];
  return true;
}

double Descent::merit() const {
  double sum = 0;
  for (double r : residual_) sum += r * r;
  for (double r : balance_) sum += r * r;
  for (double r : void_residual_) sum += r * r;
  return sum;
}

double Descent::largest() const {
  double most = 0;
  for (const auto* list : {&residual_, &balance_, &void_residual_})
    for (double r : *list) most = std::max(most, std::fabs(r));
  return most;
}

// One damped step; the residuals on entry are those of now_. False when no damping lowers the merit.
bool Descent::advance(bool pivoted) {
  const double before = merit();
  eliminate_locals();
  if (!linear_step(pivoted)) {
    evaluate(now_);
    return false;
  }
  Solution next = now_;
  for (double share = 1; share > 1e-5; share *= 0.5) {
    for (std::size_t row = 0; row < point_of_.size(); ++row) {
      next.pressure[point_of_[row]] = now_.pressure[point_of_[row]] + share * step_[row];
      next.made_up[row] = now_.made_up[row] + share * void_step_[row];
    }
    for (std::size_t i = 0; i < next.local.size(); ++i) next.local[i] = now_.local[i] + share * local_step_[i];
    evaluate(next);
    const double after = merit();
    if (after <= (1 - 1e-4 * share) * before) {
      std::swap(now_.pressure, next.pressure);
      std::swap(now_.local, next.local);
      std::swap(now_.made_up, next.made_up);
      return true;
    }
  }
  evaluate(now_);
  return false;
}

// Newton at one smoothing. Coarse stages need no more than the right neighbourhood.
bool Descent::stage() {
  evaluate(now_);
  for (int step = 0; step < steps_a_stage && now_.steps < steps_at_most; ++step) {
    double flow = 1;
    for (double q : now_.local) flow = std::max(flow, std::fabs(q));
    now_.residual = largest();
    const double enough = mu_ > finest ? 0.1 * mu_ : tolerance * flow;
    if (now_.residual <= enough) return true;
    ++now_.steps;
    if (!advance(false) && !advance(true)) return now_.residual <= 100 * enough && mu_ > finest;
  }
  return false;
}

void Descent::note_worst() {
  for (std::uint32_t index = 0; index < net_.branches.size(); ++index) {
    const Branch& branch = net_.branches[index];
    for (std::uint32_t own = 0; own < branch.locals; ++own)
      if (std::fabs(residual_[branch.first_local + own]) > 0.1 * now_.residual) {
        now_.worst.push_back(index);
        break;
      }
  }
}

Solution Descent::run() {
  for (mu_ = coarsest; mu_ > finest; mu_ *= finer_by) stage();
  mu_ = finest;
  now_.settled = stage();
  now_.residual = largest();
  if (!now_.settled) note_worst();
  std::vector<double> by_point(net_.points(), 0);
  for (std::size_t row = 0; row < point_of_.size(); ++row) by_point[point_of_[row]] = now_.made_up[row];
  now_.made_up = std::move(by_point);
  return now_;
}

}  // namespace

Solution settle(const Network& network) { return Descent(network).run(); }

}  // namespace ferrule::hydraulics
