// U-01: while nothing moves, the full flow of a fixed pump leaves by a way other than a relief valve.
//
// Power over the relief P = p Q, all of it heat in the oil; 0.058 K per bar and pass (870 kg/m3, 1.97 kJ/kgK, mineral oil data).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/machinery/evidence.hpp"

namespace ferrule {

extern const Rule closed_centre_no_unloading;

namespace {

constexpr double kelvin_per_pascal = 0.058e-5;
constexpr double heat_capacity = 870 * 1970.0;  // J/m3K
// From here on a pump counts as standing at its relief; a share of the setting, common practice.
constexpr double at_relief = 0.9;
// Direct-operated reliefs crack this far below their setting at most (textbook range 0.05 to 0.33).
constexpr double widest_override = 0.33;
// A relief that passes less than this share of the pump only weeps.
constexpr double weeping = 0.02;

struct Idle {
  const Solved& solved;
  const Circuit& circuit;
  OilSource pump;
  ElementId unit;
  const State* state = nullptr;
  const OperatingPoint* point = nullptr;
};

ElementId unit_of(const Circuit& circuit, PartId pump) {
  for (const Element& element : circuit.elements)
    if (element.part == pump && element.kind == ElementKind::displacement) return circuit.elements.id_of(element);
  return {};
}

bool is_fixed(const Circuit& circuit, PartId pump, ElementId unit) {
  if (!unit || has_role(circuit, pump, "compensated") || has_role(circuit, pump, "hand") || has_role(circuit, pump, "closed-loop")) return false;
  const Element& element = circuit.elements[unit];
  return !element.value(Parameter::zero_pressure) && !element.value(Parameter::margin) && !element.has("hand");
}

struct Relief {
  ElementId element;
  NodeId inlet;
};

// Reliefs that stand open to the pump in this state, and whether the reservoir does.
struct Graph {
  std::vector<Relief> reliefs;
  bool to_tank = false, unloads = false, stores = false;
  Way to_relief;  // to the first of them
};

Graph graph_of(const Idle& idle) {
  const PassageGraph& graph = idle.solved.graph;
  const std::vector<Conduction> conduction = conduction_in(idle.circuit, graph, *idle.state);
  const auto open = [&](const Passage& p) { return conduction[&p - graph.passages.data()] == Conduction::open && !graph.tank[p.from.index]; };
  const Reached reached = reach(graph, idle.circuit.ports[idle.pump.outlet].node, open);
  Graph out;
  for (std::uint32_t node = 0; node < graph.tank.size(); ++node) out.to_tank |= graph.tank[node] && reached.by[node] != -2;
  for (const Passage& p : graph.passages) {
    if (!reached.contains(p.from)) continue;
    // A relief whose vent is open to the reservoir unloads; it limits nothing then.
    if (p.limiter && !open(p)) out.reliefs.push_back({p.element, p.from});
    out.unloads |= has_role(idle.circuit, idle.circuit.elements[p.element].part, "unloads");
  }
  for (const Element& element : idle.circuit.elements)
    out.stores |= element.kind == ElementKind::gas_volume && element.ends.front() && reached.contains(element.ends.front());
  if (!out.reliefs.empty()) out.to_relief = reached.way_to(out.reliefs.front().inlet, graph);
  return out;
}

// A switch that stops the drive once the accumulator is full.
bool drive_is_switched(const Idle& idle) {
  const PartId drive = drive_of(idle.circuit, idle.pump.part);
  const auto& control = idle.circuit.work.control;
  return std::any_of(control.begin(), control.end(), [&](const ControlRule& rule) { return rule.command.part == drive; });
}

// Below its cracking pressure a relief that passes oil is vented: it unloads.
double cracking_of(const Circuit& circuit, ElementId relief) {
  const Element& element = circuit.elements[relief];
  const Part& part = circuit.parts[element.part];
  const double set = full_flow_pressure(circuit, element).value_or(0);
  return part.si("cracking").value_or(set * (1 - part.si("override").value_or(widest_override)));
}

double relief_flow(const Idle& idle, const Graph& graph) {
  double flow = 0;
  for (const Relief& relief : graph.reliefs)
    if (idle.point->pressure[relief.inlet.index] >= cracking_of(idle.circuit, relief.element) * (1 - 1e-6))
      flow += std::abs(idle.point->flow[relief.element.index]);
  return flow;
}

bool stands_at_a_relief(const Idle& idle, const Graph& graph) {
  const double pressure = idle.point->pressure[idle.circuit.ports[idle.pump.outlet].node.index];
  return std::any_of(graph.reliefs.begin(), graph.reliefs.end(), [&](const Relief& relief) {
    const double set = full_flow_pressure(idle.circuit, idle.circuit.elements[relief.element]).value_or(0);
    return set > 0 && pressure >= at_relief * set;
  });
}

// Without the setting of a relief the pressure of this state is not known, and the graph's verdict stands alone.
bool numbers_known(const Idle& idle, const Graph& graph) {
  return idle.point->settled && std::all_of(graph.reliefs.begin(), graph.reliefs.end(), [&](const Relief& relief) {
    return full_flow_pressure(idle.circuit, idle.circuit.elements[relief.element]).has_value();
  });
}

bool wastes(const Idle& idle, const Graph& graph) {
  if (graph.stores && !graph.to_tank) return !(graph.unloads || drive_is_switched(idle));
  if (!numbers_known(idle, graph)) return !graph.to_tank && !graph.unloads;
  const double flow = std::abs(idle.point->flow[idle.unit.index]);
  if (flow <= 0) return false;
  return relief_flow(idle, graph) > weeping * flow || stands_at_a_relief(idle, graph);
}

std::string number(double value, int digits) { return fmt::format("{:.{}f}", value, digits); }

double tank_volume(const Circuit& circuit) {
  double volume = 0;
  for (const Part& part : circuit.parts)
    if (part.definition && part.definition->role("tank")) volume += part.si("volume").value_or(0);
  return volume;
}

// The worked value: power, warming per pass and of the tank.
std::string add_power(const Idle& idle, const Graph& graph, Message& m) {
  if (!numbers_known(idle, graph) || (graph.stores && relief_flow(idle, graph) <= 0)) {
    m.values.push_back({"power wasted", "not computed", "", "the pressure of this state is not known"});
    return {};
  }
  const double p = idle.point->pressure[idle.circuit.ports[idle.pump.outlet].node.index], q = std::abs(idle.point->flow[idle.unit.index]);
  const double watts = p * q, volume = tank_volume(idle.circuit);
  const std::string power = fmt::format("{} bar x {} L/min / 600 = {} kW", number(p / 1e5, 0), number(q * 60000, 1), number(watts / 1000, 1));
  m.values.push_back({"power wasted", power, "", "derived"});
  m.values.push_back({"warming of the oil", fmt::format("{} K each pass", number(p * kelvin_per_pascal, 1)), "", "0.058 K per bar, mineral oil"});
  if (volume > 0)
    m.values.push_back({"warming of the reservoir", fmt::format("{} K/min", number(watts * 60 / (volume * heat_capacity), 1)), "", "derived"});
  m.values.push_back({"energy", fmt::format("{} kWh each hour of idling", number(watts / 1000, 1)), "", "derived"});
  return fmt::format(": {} into the oil", power);
}

void report(const Idle& idle, const Graph& graph, Message& m) {
  const Circuit& circuit = idle.circuit;
  const std::string& pump = circuit.parts[idle.pump.part].tag;
  const std::string power = add_power(idle, graph, m);
  m.sentence = graph.reliefs.empty() ? fmt::format("while nothing moves {} has no way for its oil", pump)
                                     : fmt::format("while nothing moves {} has only {} for its oil{}", pump,
                                                   circuit.parts[circuit.elements[graph.reliefs.front().element].part].tag, power);
  m.places.push_back(at_part(circuit, idle.pump.part, "runs at full flow"));
  if (!graph.reliefs.empty()) m.places.push_back(at_part(circuit, circuit.elements[graph.reliefs.front().element].part, "all of it goes over this valve"));
  m.trail = trail(circuit, idle.solved.graph, graph.to_relief);
  if (m.trail.empty()) m.trail = {circuit.name_of(idle.pump.outlet)};
  if (!graph.reliefs.empty()) m.trail.push_back(circuit.parts[circuit.elements[graph.reliefs.front().element].part].tag);
  m.fix = "a valve with tandem or open centre, a vented relief valve, an unloading valve, a variable pump, or a drive that stops at idle";
  m.limit_source = "common practice: open- and closed-centre systems, hydraulics texts";
  for (const Relief& relief : graph.reliefs)
    for (std::string& by_default : defaults_of(circuit, circuit.elements[relief.element].part, {"override"}))
      m.values.push_back({"", std::move(by_default), "", ""});
}

void judge(Idle idle, const std::vector<std::size_t>& states, Findings& findings) {
  std::optional<Message> message;
  std::size_t judged = 0;
  for (const std::size_t index : states) {
    idle.state = &idle.solved.states.states[index];
    idle.point = &idle.solved.points[index];
    if (!idle.state->running[idle.pump.part.index]) continue;
    ++judged;
    const Graph graph = graph_of(idle);
    if (!wastes(idle, graph)) continue;
    if (!message) {
      message = message_of(closed_centre_no_unloading, idle.circuit, idle.pump.part, "");
      set_state(*message, *idle.state);
      report(idle, graph, *message);
    } else {
      message->states.push_back(idle.state->name);
    }
  }
  if (message) findings.messages.push_back(std::move(*message));
  else findings.verdicts.push_back(verdict_of(closed_centre_no_unloading, idle.circuit, idle.pump.part, Outcome::pass,
                                              judged ? "its flow has a way to the reservoir at idle" : "its drive stands at idle"));
}

void check(const Solved& solved, Findings& findings) {
  const std::vector<std::size_t> states = idle_states(solved.states);
  for (const OilSource& pump : pumps_of(solved.circuit)) {
    const ElementId unit = unit_of(solved.circuit, pump.part);
    if (is_fixed(solved.circuit, pump.part, unit)) judge({solved, solved.circuit, pump, unit}, states, findings);
  }
}

}  // namespace

const Rule closed_centre_no_unloading{"U-01", "closed-centre-no-unloading", Severity::warning, check};

}  // namespace ferrule
