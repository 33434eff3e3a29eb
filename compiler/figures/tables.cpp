#include "compiler/figures/tables.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

namespace ferrule::working {
namespace {

struct Column {
  std::string_view head, what;
};
struct Shape {
  std::string_view title;
  std::vector<Kind> kinds;
  std::vector<Column> columns;
};

const std::vector<Shape>& shapes() {
  static const std::vector<Shape> all{
      {"pumps", {Kind::pump}, {{"flow", "flow"}, {"pressure added", "drop"}, {"torque", "torque"}, {"shaft power", "power"}, {"efficiency", "efficiency"}, {"heat", "heat"}}},
      {"actuators", {Kind::cylinder}, {{"speed", "speed"}, {"load", "load"}, {"force", "force"}, {"margin", "margin"}, {"power", "power"}, {"time", "time"}, {"heat", "heat"}}},
      {"motors", {Kind::motor}, {{"speed", "speed"}, {"load", "load"}, {"torque", "torque"}, {"margin", "margin"}, {"power", "power"}, {"time", "time"}, {"heat", "heat"}}},
      {"lines", {Kind::line}, {{"flow", "flow"}, {"velocity", "velocity"}, {"Reynolds", "reynolds"}, {"loss", "drop"}, {"heat", "heat"}}},
      {"valves, filters", {Kind::valve}, {{"flow", "flow"}, {"drop", "drop"}, {"heat", "heat"}}},
  };
  return all;
}

std::string cell(const Book& book, const Subject& subject, std::string_view what, std::size_t state) {
  const Worked worked = book.result(subject, what, state);
  return worked.result().si ? shown(worked.result()) : "-";
}

// A valve without flow, a line without flow: one says so with nothing.
bool is_idle(const Book& book, const Subject& subject, std::size_t state) {
  if (subject.kind != Kind::line && subject.kind != Kind::valve) return false;
  const Worked flow = book.result(subject, "flow", state);
  return !flow.result().si || *flow.result().si < 1e-9;
}

TableOf table_of(const Book& book, const Shape& shape, const std::vector<Subject>& subjects, std::size_t state) {
  TableOf table;
  table.title = shape.title;
  table.heads.emplace_back();
  for (const Column& column : shape.columns) table.heads.emplace_back(column.head);
  for (const Subject& subject : subjects) {
    if (std::find(shape.kinds.begin(), shape.kinds.end(), subject.kind) == shape.kinds.end() || is_idle(book, subject, state)) continue;
    std::vector<std::string> row{subject.kind == Kind::line ? place_of(book.circuit, subject.part) : subject.where};
    for (const Column& column : shape.columns) row.push_back(cell(book, subject, column.what, state));
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::string pressure_cell(const Book& book, std::size_t state, NodeId node) {
  const double p = book.point(state).pressure[node.index];
  if (std::isnan(p)) return "none: shut in";
  if (std::isinf(p)) return "none: no upper bound";
  return ferrule::shown(Quantity{p, dimension::pressure}) + (book.point(state).voided[node.index] ? " (void)" : "");
}

TableOf pressures_of(const Book& book, std::size_t state) {
  TableOf table{"pressures", {"", "pressure", "at"}, {}};
  for (const Node& node : book.circuit.nodes) {
    if (!is_joined(book.circuit, node)) continue;
    std::string names;
    for (std::size_t i = 1; i < node.ports.size(); ++i) names += (names.empty() ? "" : " ") + book.circuit.name_of(node.ports[i]);
    table.rows.push_back({book.circuit.name_of(node.ports.front()), pressure_cell(book, state, book.circuit.nodes.id_of(node)), names});
  }
  return table;
}

std::string power(double watt) { return std::isfinite(watt) ? ferrule::shown(Quantity{watt, dimension::power}) : "-"; }
std::string energy(double joule) { return std::isfinite(joule) ? fmt::format("{:.4g} kJ", joule / 1000) : "-"; }

}  // namespace

std::vector<TableOf> tables_of(const Book& book, std::size_t state) {
  std::vector<TableOf> out;
  const std::vector<Subject> subjects = book.subjects();
  for (const Shape& shape : shapes()) {
    TableOf table = table_of(book, shape, subjects, state);
    if (!table.rows.empty()) out.push_back(std::move(table));
  }
  out.push_back(pressures_of(book, state));
  return out;
}

std::vector<TableOf> tables_of_cycle(const Book& book) {
  TableOf table{"cycle", {"", "time", "shaft power", "work", "heat", "efficiency"}, {}};
  for (const StepTotal& step : book.cycle().steps) {
    const bool works = step.shaft > 0 && step.work > 0;
    table.rows.push_back({book.states[step.state].name, step.time ? ferrule::shown(Quantity{*step.time, dimension::time}) : "-", power(step.shaft),
                          power(step.work), power(step.heat), works ? ferrule::shown(Quantity{step.work / step.shaft, {}}) : "-"});
  }
  if (table.rows.empty()) return {};
  return {table};
}

std::string power_sentence(const Book& book, std::size_t state) {
  const Moment& m = book.moment(state);
  if (!std::isfinite(m.heat_of_all())) return "power: a pressure that takes part has no value";
  std::string text = "shaft " + power(m.shaft);
  if (std::fabs(m.stored) > 1e-6) text += " + from gas and pressurised reservoirs " + power(m.stored);
  text += " = work " + power(m.work) + " + heat " + power(m.heat_of_all());
  if (std::fabs(m.lifted) > 1e-6) text += " + lifted oil " + power(m.lifted);
  if (m.shaft > 0 && m.work > 0) text += "; efficiency " + ferrule::shown(Quantity{m.work / m.shaft, {}});
  return text;
}

std::string cycle_sentences(const Book& book) {
  const CycleTotal& cycle = book.cycle();
  if (cycle.steps.empty()) return {};
  if (!cycle.time) return fmt::format("The cycle has no totals: {}.\n", cycle.why_none);
  std::string text = fmt::format("One cycle lasts {}. Shaft power: mean {}, greatest {}. Energy {}: work {}, heat {}.\n",
                                 ferrule::shown(Quantity{*cycle.time, dimension::time}), power(cycle.shaft), power(cycle.peak_shaft),
                                 energy(cycle.shaft * *cycle.time), energy(std::fabs(cycle.work) < 1e-9 * cycle.shaft ? 0 : cycle.work * *cycle.time), energy(cycle.heat * *cycle.time));
  const Climate& climate = book.climate();
  text += fmt::format("Mean heat {}. ", power(climate.heat));
  if (!climate.kelvin) return text + fmt::format("No balance temperature: {}.\n", climate.why_none);
  return text + fmt::format("The oil settles at {} ({} there{}).\n", ferrule::shown(Quantity{*climate.kelvin, dimension::temperature}),
                            ferrule::shown(Quantity{climate.kinematic_viscosity, dimension::kinematic_viscosity}),
                            climate.fixed ? ", computed with the oil as the text states it" : "");
}

std::string as_text(const TableOf& table) {
  std::vector<std::size_t> width(table.heads.size());
  for (std::size_t c = 0; c < width.size(); ++c) {
    width[c] = table.heads[c].size();
    for (const auto& row : table.rows) width[c] = std::max(width[c], row[c].size());
  }
  const bool words_last = table.title == "pressures";
  const auto line = [&](const std::vector<std::string>& cells) {
    std::string text = "    " + fmt::format("{:<{}}", cells[0], width[0]);
    for (std::size_t c = 1; c < cells.size(); ++c)
      text += words_last && c + 1 == cells.size() ? "  " + cells[c] : fmt::format("  {:>{}}", cells[c], width[c]);
    return text.substr(0, text.find_last_not_of(' ') + 1) + "\n";
  };
  std::string text = "  " + table.title + "\n" + line(table.heads);
  for (const auto& row : table.rows) text += line(row);
  return text;
}

}  // namespace ferrule::working
