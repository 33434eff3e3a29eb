// Eight invented machines, step by step, against numbers that an independent solver computed in another language
// (smoothed complementarity pairs, each solution confirmed by MINPACK) or that were worked out by hand.
// Tolerances cover the spread of sensible models. Values: tests/reference/machine_numbers.csv.
#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

#include "hydraulics/bench.hpp"
#include "support/outside.hpp"
#include "support/table.hpp"

using namespace bench;

namespace {

const tests::Outside& desk() {
  static const tests::Outside once;
  return once;
}

struct Machine {
  std::unique_ptr<Compilation> compilation;
  std::map<std::uint32_t, OperatingPoint> by_step;

  explicit Machine(const std::string& name) {
    const std::string path = "tests/briefs/" + name + ".fer";
    compilation = compile(desk(), path, tests::project_text(path));
    const Solver solver(compilation->circuit);
    for (const State& state : states_of(compilation->circuit).states)
      if (state.step && state.state_class != StateClass::late && state.state_class != StateClass::stop && !by_step.contains(state.step.index))
        by_step.emplace(state.step.index, solver.at(state));
  }

  // The first element of a part that is of one of these kinds.
  std::optional<std::uint32_t> element(const std::string& tag, std::initializer_list<ElementKind> kinds) const {
    const Circuit& circuit = compilation->circuit;
    const PartId part = circuit.part_named(tag);
    for (ElementKind kind : kinds)
      for (std::uint32_t i = 0; i < circuit.elements.size(); ++i)
        if (circuit.elements.rows[i].part == part && circuit.elements.rows[i].kind == kind) return i;
    return std::nullopt;
  }

  double pressure(const OperatingPoint& point, const std::string& where) const {
    const Circuit& circuit = compilation->circuit;
    const std::size_t dot = where.find('.');
    const PortId port = circuit.port_of(circuit.part_named(where.substr(0, dot)), where.substr(dot + 1));
    return port ? point.pressure[circuit.ports[port].node.index] / bar : NAN;
  }

  double drop_across(const OperatingPoint& point, const Element& element) const {
    return point.pressure[element.ends[1].index] - point.pressure[element.ends[0].index];
  }

  // kW: pressure difference times theoretical flow by hydro-mechanical efficiency (ISO 4391).
  double shaft_power(const OperatingPoint& point) const {
    double sum = 0;
    for (std::uint32_t i = 0; i < compilation->circuit.elements.size(); ++i) {
      const Element& e = compilation->circuit.elements.rows[i];
      if (e.kind == displacement && e.has("pump"))
        sum += drop_across(point, e) * point.flow[i] / *e.value(P::volumetric) / *e.value(P::mechanical) / 1000;
    }
    return sum;
  }

  double result(const OperatingPoint& point, const std::string& where, const std::string& quantity) const {
    const std::string tag = where.substr(0, where.find('+'));
    if (quantity == "pressure") return pressure(point, where);
    if (quantity == "shaft-power") return shaft_power(point);
    const auto moving = element(tag, {piston, displacement});
    if (quantity == "speed" && moving) {
      const double speed = point.speed[*moving];
      return compilation->circuit.elements.rows[*moving].kind == piston ? speed * 1000 : std::fabs(speed) / rpm;
    }
    const auto passing = element(tag, {ElementKind::pipe, displacement, pressure_path, regulated_flow});
    if (!passing) return NAN;
    const Element& e = compilation->circuit.elements.rows[*passing];
    if (quantity == "drop") return std::fabs(drop_across(point, e)) / bar;
    if (quantity == "flow") return point.flow[*passing] / lpm;
    const double bore = e.value(P::bore).value_or(0);
    return std::fabs(point.flow[*passing]) / (std::numbers::pi / 4 * bore * bore);
  }
};

}  // namespace

TEST_CASE("Eight machines come to the numbers computed elsewhere") {
  std::map<std::string, Machine> machines;
  std::istringstream lines(tests::project_text("tests/reference/machine_numbers.csv"));
  std::string line;
  std::getline(lines, line);
  int compared = 0;
  while (std::getline(lines, line)) {
    const auto cell = tests::cells_of(line);
    const Machine& machine = machines.try_emplace(cell[0], cell[0]).first->second;
    // Two of the machines number their steps from one.
    const bool from_one = cell[0] == "loading-bay-scissor" || cell[0] == "lens-mould-clamp";
    const auto point = machine.by_step.find(static_cast<std::uint32_t>(std::stoi(cell[1]) - from_one));
    INFO(cell[0] << " step " << cell[1] << " " << cell[2] << " " << cell[3] << " in " << cell[5] << " " << cell[8]);
    REQUIRE(point != machine.by_step.end());
    CHECK(point->second.settled);
    CHECK(machine.result(point->second, cell[2], cell[3]) == Approx(std::stod(cell[4])).margin(std::stod(cell[6])).epsilon(0));
    ++compared;
  }
  CHECK(compared == 374);
}

// What a solver remembers of one state must not colour the next.
TEST_CASE("States solved one after another come out as if solved alone") {
  for (const char* name : {"veneer-clamp-press", "card-baler", "picking-platform", "lens-mould-clamp"}) {
    const Machine machine(name);
    const Circuit& circuit = machine.compilation->circuit;
    const Solver together(circuit);
    for (const State& state : states_of(circuit).states) {
      const OperatingPoint one = together.at(state), alone = solve(circuit, state);
      INFO(name << ": " << state.name);
      for (std::size_t node = 0; node < one.pressure.size(); ++node)
        CHECK((one.pressure[node] == alone.pressure[node] || (std::isnan(one.pressure[node]) && std::isnan(alone.pressure[node]))));
      CHECK(one.defaults == alone.defaults);
    }
  }
}
