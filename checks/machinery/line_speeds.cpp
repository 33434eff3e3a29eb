#include "checks/machinery/line_speeds.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "checks/machinery/evidence.hpp"

namespace ferrule {
namespace {

struct Band {
  double up_to;  // Pa, ceiling of the zone
  double speed;  // m/s
};
constexpr Band bands[] = {{25e5, 3}, {50e5, 4}, {100e5, 5}, {200e5, 6}};
constexpr double above_all_bands = 7, suction = 1.2, return_line = 3, drain = 1.5;
constexpr double short_passage = 10, short_passage_factor = 1.5;

std::optional<SpeedLimit> required(const Circuit& circuit, const Line& line) {
  const std::string& tag = circuit.parts[line.part].tag;
  for (const Requirement& r : circuit.requirements) {
    const bool here = r.address.size() == 2 && r.address[1] == "velocity" && (r.address[0] == tag || r.address[0] == word_of(line.function));
    if (here && r.comparison == "at most" && !r.values.empty()) return SpeedLimit{r.values[0].si, "`require` of this circuit", r.values[0].si};
  }
  return std::nullopt;
}

// Which limit holds hangs on the pressure that a zone may reach; without a limiter only what breaks the highest one is undersized.
SpeedLimit by_practice(LineFunction function, std::optional<double> ceiling) {
  const std::string practice = "common practice";
  const auto one = [&](double speed, const std::string& where) { return SpeedLimit{speed, practice + ": " + where, speed}; };
  if (function == LineFunction::suction) return one(suction, "suction line");
  if (function == LineFunction::return_) return one(return_line, "return line");
  if (function == LineFunction::drain) return one(drain, "drain line");
  if (!ceiling) return {above_all_bands, practice + ": the most that any pressure line is allowed; nothing limits the pressure of this zone", bands[0].speed};
  for (const Band& band : bands)
    if (*ceiling <= band.up_to) return one(band.speed, fmt::format("pressure line in a zone up to {:.0f} bar", band.up_to / 1e5));
  return one(above_all_bands, "pressure line in a zone above 200 bar");
}

double geometric(const Element& unit) {
  return unit.value(Parameter::displacement).value_or(0) * unit.value(Parameter::speed).value_or(0);
}

// The vent side of a single-acting cylinder holds air and leakage, not the oil that the piston sweeps.
bool ends_at_a_vent(const Circuit& circuit, const Element& pipe) {
  const auto is_vent = [&](PortId id) {
    const Port& port = circuit.ports[id];
    const Role* role = role_of(circuit, port.part, "single-acting");
    return role && role->ports.size() > 1 && role->ports[1] == port.name;
  };
  return std::any_of(pipe.ends.begin(), pipe.ends.end(), [&](NodeId node) {
    const auto& ports = circuit.nodes[node].ports;
    return std::any_of(ports.begin(), ports.end(), is_vent);
  });
}

}  // namespace

SpeedLimit speed_limit(const Circuit& circuit, const Line& line, double bore, std::optional<double> ceiling) {
  SpeedLimit limit = required(circuit, line).value_or(by_practice(line.function, ceiling));
  const auto length = circuit.parts[line.part].si("length");
  if (length && *length < short_passage * bore) limit.speed *= short_passage_factor, limit.lowest *= short_passage_factor;
  return limit;
}

std::optional<double> ceiling_of(const std::vector<std::optional<double>>& ceilings, const Element& pipe) {
  const auto a = ceilings[pipe.ends[0].index], b = ceilings[pipe.ends[1].index];
  return a && b ? std::optional(std::max(*a, *b)) : std::nullopt;
}

std::span<const State> before_late(const States& states) {
  const auto late = std::find_if(states.states.begin(), states.states.end(), [](const State& s) { return s.state_class == StateClass::late; });
  return {states.states.begin(), late};
}

LineFlow greatest_flow(const Solved& solved, ElementId pipe) {
  LineFlow flow;
  for (std::size_t i = 0; i < before_late(solved.states).size(); ++i) {
    const OperatingPoint& point = solved.points[i];
    if (!point.settled) {
      ++flow.unsolved;
      continue;
    }
    const double q = std::abs(point.flow[pipe.index]);
    if (!std::isfinite(q)) ++flow.unsolved;
    else if (q > flow.most) flow.most = q, flow.state = &solved.states.states[i];
  }
  return flow;
}

double with_geometric(const Solved& solved, const Line& line, const Element& pipe, double flow) {
  if (line.function != LineFunction::suction || !(flow > 0)) return flow;
  const auto sure = [](const Passage& p) { return !p.limiter; };
  const Reached reached = reach(solved.graph, pipe.ends[1], sure);
  double drawn = 0;
  for (const Element& unit : solved.circuit.elements)
    if (unit.kind == ElementKind::displacement && unit.has("pump") && reached.contains(unit.ends.front())) drawn += geometric(unit);
  return std::max(flow, drawn);
}

bool carries_no_steady_flow(const Circuit& circuit, LineFunction function, const Element& pipe) {
  if (function == LineFunction::drain) return ends_at_a_vent(circuit, pipe);
  return function == LineFunction::pilot || function == LineFunction::mechanical;
}

std::vector<const Element*> pipes_of(const Circuit& circuit) {
  std::vector<const Element*> pipes(circuit.parts.size());
  for (const Element& element : circuit.elements)
    if (element.kind == ElementKind::pipe) pipes[element.part.index] = &element;
  return pipes;
}

}  // namespace ferrule
