#include "compiler/hydraulics/standing.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "compiler/hydraulics/units.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr double flows = 1e-6;   // L/min: more than smoothing and leaks leave
constexpr double balanced = 5e-3;  // bar: a shut valve or standing piston this near its balance passes its pressure on

class Groups {
 public:
  explicit Groups(std::size_t size) : parent_(size) { std::iota(parent_.begin(), parent_.end(), 0u); }
  std::uint32_t root(std::uint32_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void join(std::uint32_t a, std::uint32_t b) { parent_[root(a)] = root(b); }

 private:
  std::vector<std::uint32_t> parent_;
};

double pressure_at(const Model& model, const Solution& solution, const Branch& branch, std::uint32_t terminal) {
  return solution.pressure[model.network.terminals[branch.first_terminal + terminal]];
}

bool is_open(const Model& model, const Solution& solution, const Branch& branch, const PressurePath& law) {
  double sensed = 0;
  for (std::uint32_t t = 0; t < branch.terminals; ++t) sensed += law.weight[t] * pressure_at(model, solution, branch, t);
  return sensed > law.cracking - balanced;
}

// Does the branch pass pressure between its first two terminals in this solution?
bool passes_pressure(const Model& model, const Solution& solution, const Branch& branch) {
  if (std::holds_alternative<Loss>(*branch.law) || std::holds_alternative<Pipe>(*branch.law)) return true;
  for (std::uint32_t own = 0; own < branch.locals; ++own)
    if (std::fabs(solution.local[branch.first_local + own]) > flows) return true;
  const double difference = pressure_at(model, solution, branch, 0) - pressure_at(model, solution, branch, 1);
  if (const auto* check = std::get_if<OneWay>(branch.law)) return std::fabs(difference - check->cracking) < balanced;
  if (const auto* check = std::get_if<PilotedOneWay>(branch.law)) return std::fabs(difference - check->cracking) < balanced;
  if (const auto* path = std::get_if<PressurePath>(branch.law)) return std::fabs(difference) < balanced && is_open(model, solution, branch, *path);
  if (std::holds_alternative<RegulatedFlow>(*branch.law)) return std::fabs(difference) < balanced;
  return std::holds_alternative<Selector>(*branch.law);
}

double net_force(const Model& model, const Solution& solution, const Branch& branch, const Body& law) {
  double net = 0;
  for (std::uint32_t t = 0; t < branch.terminals; ++t) net += law.area[t] * pressure_at(model, solution, branch, t);
  return net;
}

enum class Bearing { slack, hands_on, carries };

// A body on the point of moving hands the pressure of one chamber on to the other; moving, or under a load of its own,
// it gives its chambers their pressure.
Bearing bearing_of(const Model& model, const Solution& solution, const Branch& branch, const Body& law) {
  const double moved = std::fabs(solution.local[branch.first_local]) + std::fabs(solution.local[branch.first_local + 1]);
  if (moved > flows) return Bearing::carries;
  const double net = net_force(model, solution, branch, law);
  const double outward = net > 0 ? net * law.efficiency : net / law.efficiency;
  const double inward = net > 0 ? net / law.efficiency : net * law.efficiency;
  const bool on_the_point = std::fabs(law.load_out + law.friction - outward) < balanced || std::fabs(inward - law.load_in + law.friction) < balanced;
  if (!on_the_point) return Bearing::slack;
  const bool loaded = law.load_out == law.load_in && law.load_out != 0;
  return loaded ? Bearing::carries : Bearing::hands_on;
}

}  // namespace

std::vector<bool> trapped_points(const Model& model, const Solution& solution) {
  const Network& net = model.network;
  const auto outside = static_cast<std::uint32_t>(net.points());  // all that has a pressure of its own
  Groups groups(net.points() + 1);
  for (std::uint32_t point = 0; point < net.points(); ++point)
    if (net.is_fixed(point)) groups.join(point, outside);
  for (const Branch& branch : net.branches) {
    const std::uint32_t* terminal = net.terminals.data() + branch.first_terminal;
    if (std::holds_alternative<Pump>(*branch.law)) {
      groups.join(terminal[0], outside);
    } else if (const auto* body = std::get_if<Body>(branch.law)) {
      const Bearing bearing = bearing_of(model, solution, branch, *body);
      if (bearing == Bearing::slack) continue;
      for (std::uint32_t t = 0; t < branch.terminals; ++t) groups.join(terminal[t], bearing == Bearing::carries ? outside : terminal[0]);
    } else if (passes_pressure(model, solution, branch)) {
      for (std::uint32_t t = 1; t < branch.terminals; ++t)
        if (net.gives[branch.first_gives + t * branch.locals] != 0) groups.join(terminal[0], terminal[t]);
    }
  }
  std::vector<bool> trapped(net.points());
  for (std::uint32_t point = 0; point < net.points(); ++point) trapped[point] = groups.root(point) != groups.root(outside);
  return trapped;
}

namespace {

using Rows = std::vector<std::vector<double>>;

// What the moving bodies give to each free point they touch: one row a point, one column a body.
Rows balance_of(const Model& model, const Solution& solution, const std::vector<std::size_t>& moving) {
  const Network& net = model.network;
  std::map<std::uint32_t, std::vector<double>> rows;
  for (std::size_t column = 0; column < moving.size(); ++column) {
    const Branch& branch = net.branches[model.body_branch[moving[column]]];
    const std::size_t way = solution.local[branch.first_local] > solution.local[branch.first_local + 1] ? 0 : 1;
    for (std::uint32_t t = 0; t < branch.terminals; ++t) {
      const std::uint32_t point = net.terminals[branch.first_terminal + t];
      if (net.is_fixed(point)) continue;
      auto& row = rows.try_emplace(point, moving.size(), 0.0).first->second;
      row[column] += net.gives[branch.first_gives + t * 2 + way];
    }
  }
  Rows balance;
  for (auto& [point, row] : rows) balance.push_back(std::move(row));
  return balance;
}

// Columns that take part in the null space of the rows (Gauss-Jordan).
std::vector<bool> exchangeable(Rows rows, std::size_t columns) {
  constexpr double nil = 1e-9;
  std::vector<std::size_t> pivot_of_row;
  std::vector<bool> is_pivot(columns, false);
  for (std::size_t column = 0; column < columns && pivot_of_row.size() < rows.size(); ++column) {
    const std::size_t top = pivot_of_row.size();
    const auto best = std::max_element(rows.begin() + static_cast<std::ptrdiff_t>(top), rows.end(), [&](const auto& a, const auto& b) {
      return std::fabs(a[column]) < std::fabs(b[column]);
    });
    if (std::fabs((*best)[column]) < nil) continue;
    std::swap(*best, rows[top]);
    for (std::size_t row = 0; row < rows.size(); ++row) {
      const double share = row == top ? 0 : rows[row][column] / rows[top][column];
      for (std::size_t i = column; share != 0 && i < columns; ++i) rows[row][i] -= share * rows[top][i];
    }
    pivot_of_row.push_back(column);
    is_pivot[column] = true;
  }
  std::vector<bool> free(columns);
  for (std::size_t column = 0; column < columns; ++column) free[column] = !is_pivot[column];
  for (std::size_t row = 0; row < pivot_of_row.size(); ++row)
    for (std::size_t column = 0; column < columns; ++column)
      if (!is_pivot[column] && std::fabs(rows[row][column]) > nil) free[pivot_of_row[row]] = true;
  return free;
}

}  // namespace

std::vector<std::size_t> undetermined_bodies(const Model& model, const Solution& solution) {
  std::vector<std::size_t> moving, found;
  for (std::size_t body = 0; body < model.body_branch.size(); ++body) {
    if (model.body_branch[body] == no_branch) continue;
    const Branch& branch = model.network.branches[model.body_branch[body]];
    if (std::fabs(solution.local[branch.first_local] - solution.local[branch.first_local + 1]) > flows) moving.push_back(body);
  }
  if (moving.size() < 2) return found;
  const std::vector<bool> free = exchangeable(balance_of(model, solution, moving), moving.size());
  for (std::size_t column = 0; column < moving.size(); ++column)
    if (free[column]) found.push_back(moving[column]);
  return found;
}

}  // namespace ferrule::hydraulics
