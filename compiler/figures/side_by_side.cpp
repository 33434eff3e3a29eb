#include "compiler/figures/side_by_side.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "compiler/figures/course.hpp"

namespace ferrule::working {
namespace {

namespace d = dimension;

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

struct Powers {
  double pressure = unknown, shaft = unknown, work = unknown, heat = unknown, time = unknown;
};

double pump_pressure(const Book& book, std::size_t state) {
  double greatest = unknown;
  for (const Subject& pump : pumps_of(book)) greatest = std::fmax(greatest, outlet_pressure(book, pump, state));
  return greatest;
}

Powers powers_in(const Book& book, std::size_t state) {
  if (!book.point(state).settled) return {};
  const Moment& moment = book.moment(state);
  return {pump_pressure(book, state), moment.shaft, moment.work, moment.heat_of_all(), unknown};
}

Powers means_of(const Book& book) {
  const CycleTotal& cycle = book.cycle();
  if (!cycle.time) return {};
  return {unknown, cycle.shaft, cycle.work, cycle.heat, *cycle.time};
}

std::string cell(double si, Dimension dimension) { return std::isfinite(si) ? shown(Quantity{si, dimension}) : "-"; }

struct Row {
  std::string name;
  Powers powers;
};

TableOf table_of(const std::string& state, const std::vector<Row>& rows, bool cycle) {
  TableOf table{"side by side: " + state, {"", cycle ? "time" : "at the pump", "shaft power", "work", "heat", "of the greatest"}, {}};
  double greatest = 0;
  for (const Row& row : rows)
    if (std::isfinite(row.powers.shaft)) greatest = std::max(greatest, row.powers.shaft);
  for (const auto& [name, p] : rows)
    table.rows.push_back({name, cycle ? cell(p.time, d::time) : cell(p.pressure, d::pressure), cell(p.shaft, d::power), cell(p.work, d::power),
                          cell(p.heat, d::power), greatest > 0 && std::isfinite(p.shaft) ? fmt::format("{:.0f} %", 100 * p.shaft / greatest) : "-"});
  return table;
}

std::vector<std::string> names_of_states(std::span<const Compared> circuits) {
  std::vector<std::string> names;
  for (const Compared& one : circuits)
    for (std::size_t state : one.book->told())
      if (const std::string& name = one.book->states[state].name; std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  return names;
}

}  // namespace

std::vector<TableOf> side_by_side(std::span<const Compared> circuits, std::string_view wanted) {
  if (circuits.size() < 2) return {};
  std::vector<TableOf> tables;
  for (const std::string& name : names_of_states(circuits)) {
    if (!wanted.empty() && name != wanted) continue;
    std::vector<Row> rows;
    for (const Compared& one : circuits)
      if (const auto state = one.book->state_named(name)) rows.push_back({one.name, powers_in(*one.book, *state)});
    if (rows.size() > 1) tables.push_back(table_of(name, rows, false));
  }
  std::vector<Row> cycles;
  for (const Compared& one : circuits)
    if (one.book->cycle().time) cycles.push_back({one.name, means_of(*one.book)});
  if (wanted.empty() && cycles.size() > 1) tables.push_back(table_of("mean of the cycle", cycles, true));
  return tables;
}

}  // namespace ferrule::working
