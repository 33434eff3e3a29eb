// P-17: between a pressure gauge and the line it reads stands something that keeps pressure peaks off it. Common practice.
#include <fmt/format.h>

#include <algorithm>

#include "checks/machinery/evidence.hpp"
#include "compiler/paths/proof.hpp"

namespace ferrule {

extern const Rule gauge_unprotected;

namespace {

// What reads a pressure on a scale, and could be damped. (A switch reads too, but has no pointer to break.)
bool is_gauge(const Circuit& circuit, const Part& part) {
  const PartId id = circuit.parts.id_of(part);
  return part.definition && part.definition->fact("range") && part.definition->fact("damped") && has_role(circuit, id, "measures") &&
         !has_role(circuit, id, "switches");
}

// Oil only squeezes through it, or it is open while somebody reads.
bool keeps_peaks_off(const Circuit& circuit, PartId part) {
  if (has_role(circuit, part, "isolates")) return true;
  bool restricts = false;
  for (const Element& element : circuit.elements) {
    if (element.part != part) continue;
    if (element.kind != ElementKind::restriction) return false;
    restricts = true;
  }
  return restricts && !has_role(circuit, part, "filter") && !has_role(circuit, part, "cooler");
}

bool is_line(const Circuit& circuit, PartId part) {
  return std::any_of(circuit.lines.begin(), circuit.lines.end(), [&](const Line& line) { return line.part == part; });
}

// The first part that lies on the gauge's own oil with nothing but pipes between.
PartId stands_bare_on(const Circuit& circuit, const PassageGraph& graph, PartId gauge, NodeId node) {
  const Reached near = reach(graph, node, [&](const Passage& p) { return circuit.elements[p.element].kind == ElementKind::pipe; });
  for (const Port& port : circuit.ports) {
    if (!port.node || !near.contains(port.node) || port.part == gauge || is_line(circuit, port.part)) continue;
    if (!has_role(circuit, port.part, "measures") && !keeps_peaks_off(circuit, port.part)) return port.part;
  }
  return {};
}

void report(const Circuit& circuit, PartId gauge, PortId port, PartId neighbour, Findings& findings) {
  const std::string &tag = circuit.parts[gauge].tag, &other = circuit.parts[neighbour].tag;
  Message m = message_of(gauge_unprotected, circuit, gauge, "");
  m.sentence = fmt::format("{} hangs straight on the line of {}: no isolator and no damping keeps pressure peaks off it", tag, other);
  m.places = {at_part(circuit, gauge, "takes every pressure peak"), at_port(circuit, port, "joined here")};
  m.trail = {circuit.name_of(port), other};
  m.fix = fmt::format("put a gauge isolator or a restriction before {}, or state `damped` if it is filled with liquid", circuit.name_of(port));
  m.limit_source = "common practice";
  findings.messages.push_back(std::move(m));
}

void judge(const Solved& solved, const std::vector<bool>& relieved, PartId gauge, Findings& findings) {
  const Circuit& circuit = solved.circuit;
  const PortId port = circuit.port_of(gauge, role_of(circuit, gauge, "measures")->ports.front());
  const NodeId node = port ? circuit.ports[port].node : NodeId{};
  // On a return or suction line no peaks stand.
  if (!node || relieved[node.index] || solved.graph.tank[node.index]) return;
  if (circuit.parts[gauge].has("damped"))
    return (void)findings.verdicts.push_back(verdict_of(gauge_unprotected, circuit, gauge, Outcome::pass, "it is damped"));
  if (const PartId neighbour = stands_bare_on(circuit, solved.graph, gauge, node)) return report(circuit, gauge, port, neighbour, findings);
  findings.verdicts.push_back(verdict_of(gauge_unprotected, circuit, gauge, Outcome::pass, "an isolator or a restriction stands before it"));
}

void check(const Solved& solved, Findings& findings) {
  const Circuit& circuit = solved.circuit;
  const std::vector<bool> relieved = surely_relieved(circuit, solved.graph);
  for (const Part& part : circuit.parts)
    if (is_gauge(circuit, part)) judge(solved, relieved, circuit.parts.id_of(part), findings);
}

}  // namespace

const Rule gauge_unprotected{"P-17", "gauge-unprotected", Severity::warning, check};

}  // namespace ferrule
