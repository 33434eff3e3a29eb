#include "compiler/hydraulics/descent.hpp"

#include <algorithm>
#include <cmath>

#include "compiler/hydraulics/either_or.hpp"
#include "compiler/hydraulics/pivoted.hpp"
#include "compiler/hydraulics/units.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr double finest = 1e-7;
// Nearly all blocks settle at the first pace. What does not is begun again: from near the sharp equations, smoother, in smaller
// stages, or from under pressure. The starts near rest come first, because of several solutions they find the moving one. A
// sharper start is the first to follow: smooth equations leak, and what leaks past many hanging loads can open their valves.
constexpr Pace paces[] = {
    {3, 0.1, 60, 600, 0},        {0.1, 0.5, 200, 12000, 0},    {30, 0.4, 120, 4000, 0},      {1000, 0.7, 200, 12000, 0},
    {1e-4, 0.3, 400, 12000, 0},  {1e-2, 0.3, 400, 12000, 0},   {1, 0.8, 400, 30000, 0},     {1e-6, 0.1, 1000, 4000, 0},
    {100, 0.9, 400, 60000, 0},   {3, 0.3, 200, 12000, 60},     {1e-2, 0.3, 400, 12000, 60}, {1e-5, 0.3, 400, 12000, 150},
    {1e-3, 0.1, 400, 12000, 30}, {0.3, 0.6, 400, 20000, 200},  {1e-6, 0.1, 2000, 8000, 20}, {1e-4, 0.5, 400, 20000, -0.5},
    {10, 0.5, 400, 20000, 300},  {1e-5, 0.1, 1000, 8000, 5},   {3e-2, 0.7, 400, 20000, 100},
};
constexpr double tolerance = 1e-9;       // of the largest flow, and in bar at the same number
constexpr double few_branches = 30;
constexpr double creep = 1e-6;           // L/min: no more than what smoothing and leaks leave
constexpr double leak_at_rest = 1e-11;   // L/min per bar: gives a trapped pocket a reference (numerical)

}  // namespace

Descent::Descent(const Network& network, const Block& block, std::vector<std::uint32_t>& row_of_point)
    : net_(network), block_(block), rows_(static_cast<std::uint32_t>(block.points.size())), mu_(paces[0].coarsest) {
  now_.pressure.assign(rows_, 0);
  for (std::uint32_t row = 0; row < rows_; ++row) row_of_point[block.points[row]] = row;
  place_branches(block, row_of_point);
  for (std::uint32_t point : block.points) row_of_point[point] = not_a_row;
  now_.local.assign(residual_.size(), 0);
  now_.made_up.assign(rows_, 0);
  floor_.assign(rows_, vapour_pressure);
  place_slots();
  for (auto* list : {&balance_, &void_residual_, &void_by_flow_, &void_by_pressure_, &step_, &void_step_}) list->resize(rows_);
  next_ = now_;
}

void Descent::place_branches(const Block& block, std::vector<std::uint32_t>& row_of_point) {
  std::uint32_t locals = 0, dp = 0, dz = 0, slots = 0, most = 0;
  laws_.reserve(block.branches.size());
  for (std::uint32_t index : block.branches) {
    const Branch& branch = net_.branches[index];
    laws_.push_back(*branch.law);
    places_.push_back({&branch, static_cast<std::uint32_t>(terminals_.size()), locals, dp, dz, slots});
    for (std::uint32_t t = 0; t < branch.terminals; ++t) {
      const std::uint32_t point = net_.terminals[branch.first_terminal + t];
      const bool is_fixed = row_of_point[point] == not_a_row;
      terminals_.push_back(is_fixed ? static_cast<std::uint32_t>(now_.pressure.size()) : row_of_point[point]);
      if (is_fixed) now_.pressure.push_back(net_.fixed[point]);
    }
    locals += branch.locals;
    dp += branch.locals * branch.terminals;
    dz += branch.locals * branch.locals;
    slots += branch.terminals * branch.terminals;
    most = std::max(most, branch.terminals);
  }
  residual_.resize(locals);
  local_step_.resize(locals);
  dp_.resize(dp);
  dz_.resize(dz);
  slots_.resize(slots, not_a_row);
  around_.resize(most);
}

void Descent::place_slots() {
  std::vector<std::vector<std::uint32_t>> neighbours(rows_);
  auto each_pair = [&](auto&& use) {
    for (const Place& place : places_)
      for (std::uint32_t a = 0; a < place.branch->terminals; ++a)
        for (std::uint32_t b = 0; b < place.branch->terminals; ++b) {
          const std::uint32_t row = row_at(place, a), other = row_at(place, b);
          if (row != not_a_row && other != not_a_row) use(place, row, other, place.first_slot + a * place.branch->terminals + b);
        }
  };
  each_pair([&](const Place&, std::uint32_t row, std::uint32_t other, std::uint32_t) {
    if (row != other) neighbours[row].push_back(other);
  });
  for (auto& list : neighbours) {
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }
  matrix_ = Elimination(std::move(neighbours));
  each_pair([&](const Place&, std::uint32_t row, std::uint32_t other, std::uint32_t slot) { slots_[slot] = matrix_.slot(row, other); });
}

double Descent::leak() const { return std::max(leak_at_rest, 1e-4 * mu_); }

// Every point: what flows in, and the vapour that fills it where no oil follows.
void Descent::evaluate_points(const Values& at) {
  for (std::uint32_t row = 0; row < rows_; ++row) {
    const double pressure = at.pressure[row];
    const Smooth filled = either_or(at.made_up[row], pressure - floor_[row], mu_);
    void_residual_[row] = filled.value;
    void_by_flow_[row] = filled.by_a;
    void_by_pressure_[row] = filled.by_b;
    balance_[row] = at.made_up[row] - leak() * pressure;
  }
}

// Residuals and slopes of all laws and of the balance at every point.
void Descent::evaluate(const Values& at) {
  std::fill(dp_.begin(), dp_.end(), 0.0);
  std::fill(dz_.begin(), dz_.end(), 0.0);
  evaluate_points(at);
  for (std::size_t i = 0; i < places_.size(); ++i) {
    const Place& place = places_[i];
    const Branch& branch = *place.branch;
    const std::uint32_t* terminal = terminals_.data() + place.first_terminal;
    for (std::uint32_t t = 0; t < branch.terminals; ++t) around_[t] = at.pressure[terminal[t]];
    const double* local = at.local.data() + place.first_local;
    const Equations eq{around_.data(), local, mu_, static_cast<int>(branch.terminals), static_cast<int>(branch.locals),
                       residual_.data() + place.first_local, dp_.data() + place.first_dp, dz_.data() + place.first_dz};
    std::visit([&](const auto& law) { state(law, eq); }, laws_[i]);
    const double* gives = net_.gives.data() + branch.first_gives;
    for (std::uint32_t t = 0; t < branch.terminals; ++t, gives += branch.locals)
      if (terminal[t] < rows_)
        for (std::uint32_t own = 0; own < branch.locals; ++own) balance_[terminal[t]] += gives[own] * local[own];
  }
}

// Turns each branch's slopes into "change of own unknowns = -residual - slopes * change of pressures". At most two unknowns.
void Descent::eliminate_locals() {
  for (const Place& place : places_) {
    double* residual = residual_.data() + place.first_local;
    double* dp = dp_.data() + place.first_dp;
    const double* dz = dz_.data() + place.first_dz;
    const std::uint32_t width = place.branch->terminals;
    if (place.branch->locals == 1) {
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
  for (std::uint32_t row = 0; row < rows_; ++row) {
    entries[row] = leak() + void_by_pressure_[row] / void_by_flow_[row];
    step_[row] = balance_[row] - void_residual_[row] / void_by_flow_[row];
  }
  for (const Place& place : places_) {
    const Branch& branch = *place.branch;
    const std::uint32_t* slot = slots_.data() + place.first_slot;
    const double* dp = dp_.data() + place.first_dp;
    for (std::uint32_t a = 0; a < branch.terminals; ++a, slot += branch.terminals) {
      const std::uint32_t row = row_at(place, a);
      if (row == not_a_row) continue;
      const double* gives = net_.gives.data() + branch.first_gives + a * branch.locals;
      for (std::uint32_t own = 0; own < branch.locals; ++own) {
        if (gives[own] == 0) continue;
        step_[row] -= gives[own] * residual_[place.first_local + own];
        for (std::uint32_t b = 0; b < branch.terminals; ++b)
          if (slot[b] != not_a_row) entries[slot[b]] += gives[own] * dp[own * branch.terminals + b];
      }
    }
  }
}

// The changes of the flows that follow from those of the pressures.
void Descent::local_steps() {
  for (const Place& place : places_) {
    const std::uint32_t width = place.branch->terminals;
    const double* dp = dp_.data() + place.first_dp;
    for (std::uint32_t own = 0; own < place.branch->locals; ++own, dp += width) {
      double change = -residual_[place.first_local + own];
      for (std::uint32_t t = 0; t < width; ++t) {
        const std::uint32_t row = row_at(place, t);
        if (row != not_a_row) change -= dp[t] * step_[row];
      }
      local_step_[place.first_local + own] = change;
    }
  }
  for (std::uint32_t row = 0; row < rows_; ++row)
    void_step_[row] = -(void_residual_[row] + void_by_pressure_[row] * step_[row]) / void_by_flow_[row];
}

bool Descent::linear_step(bool pivoted) {
  assemble();
  if (!(pivoted ? solve_pivoted(matrix_, step_) : matrix_.solve(step_))) return false;
  if (!std::all_of(step_.begin(), step_.end(), [](double x) { return std::isfinite(x); })) return false;
  local_steps();
  return true;
}

double Descent::merit() const {
  double sum = 0;
  for (const auto* list : {&residual_, &balance_, &void_residual_})
    for (double r : *list) sum += r * r;
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
  const bool solved = linear_step(pivoted);
  for (double share = 1; solved && share > 1e-5; share *= 0.5) {
    for (std::uint32_t row = 0; row < rows_; ++row) {
      next_.pressure[row] = now_.pressure[row] + share * step_[row];
      next_.made_up[row] = now_.made_up[row] + share * void_step_[row];
    }
    for (std::size_t i = 0; i < next_.local.size(); ++i) next_.local[i] = now_.local[i] + share * local_step_[i];
    evaluate(next_);
    if (merit() > (1 - 1e-4 * share) * before) continue;
    std::swap(now_, next_);
    return true;
  }
  evaluate(now_);
  return false;
}

// Newton at one smoothing. Coarse stages need no more than the right neighbourhood.
bool Descent::stage() {
  evaluate(now_);
  for (int step = 0; step < pace_.steps_a_stage && steps_ < pace_.steps_at_most; ++step) {
    double flow = 1;
    for (double q : now_.local) flow = std::max(flow, std::fabs(q));
    residual_left_ = largest();
    const double enough = mu_ > finest ? 0.1 * mu_ : tolerance * flow;
    if (residual_left_ <= enough) return true;
    ++steps_;
    if (!advance(false) && !advance(true)) return residual_left_ <= 100 * enough;
  }
  return false;
}

void Descent::start(const Pace& pace) {
  pace_ = pace;
  // A smooth pair leaks with the square of mu: many of them begin finer, so that all together leak no more than a few.
  mu_ = pace.coarsest * std::min(1.0, std::sqrt(few_branches / static_cast<double>(places_.size())));
  steps_ = 0;
  std::fill_n(now_.pressure.begin(), rows_, pace.pressure);
  std::fill(now_.local.begin(), now_.local.end(), 0.0);
  std::fill(now_.made_up.begin(), now_.made_up.end(), 0.0);
}

bool Descent::descend(const Pace& pace) {
  start(pace);
  for (; mu_ > finest; mu_ *= pace.finer_by) stage();
  mu_ = finest;
  return stage();
}

bool Descent::settles() {
  return std::any_of(std::begin(paces), std::end(paces), [&](const Pace& pace) { return descend(pace); });
}

bool Descent::stands_void(std::uint32_t row) const { return now_.pressure[row] < 0.5 * vapour_pressure && now_.made_up[row] < creep; }

void Descent::fill_what_stands() {
  const Values first = now_;
  for (std::uint32_t row = 0; row < rows_; ++row)
    if (stands_void(row)) floor_[row] = 0;
  bool stands = settles();
  for (std::uint32_t row = 0; row < rows_; ++row) stands = stands && (floor_[row] < 0 || now_.made_up[row] < creep);
  if (stands) return;
  std::fill(floor_.begin(), floor_.end(), vapour_pressure);
  now_ = first;
  evaluate(now_);
}

void Descent::run(Solution& whole) {
  const bool settled = settles();
  bool void_stands = false;
  for (std::uint32_t row = 0; row < rows_; ++row) void_stands = void_stands || stands_void(row);
  if (settled && void_stands) fill_what_stands();
  residual_left_ = largest();
  double most_left = 0;
  for (double r : residual_) most_left = std::max(most_left, std::fabs(r));
  for (std::uint32_t row = 0; row < rows_; ++row) {
    whole.pressure[block_.points[row]] = now_.pressure[row];
    whole.made_up[block_.points[row]] = now_.made_up[row];
  }
  for (std::size_t i = 0; i < places_.size(); ++i) {
    const Branch& branch = *places_[i].branch;
    const double* residual = residual_.data() + places_[i].first_local;
    std::copy_n(now_.local.begin() + places_[i].first_local, branch.locals, whole.local.begin() + branch.first_local);
    const bool left = std::any_of(residual, residual + branch.locals, [&](double r) { return std::fabs(r) > 0.1 * most_left; });
    if (!settled && left) whole.worst.push_back(block_.branches[i]);
  }
  whole.residual = std::max(whole.residual, residual_left_);
  whole.settled = whole.settled && settled;
  whole.steps += steps_;
}

}  // namespace ferrule::hydraulics
