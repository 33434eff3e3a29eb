// the vent of a single-acting cylinder is never pressurised and always open to the reservoir or the air.
//
// Searches for pressure use possible ways (checks page B.0), the proof that the vent breathes uses sure ones. Common practice.
#include <fmt/format.h>

#include <algorithm>

#include "checks/machinery/evidence.hpp"
#include "compiler/paths/proof.hpp"

namespace ferrule {

extern const Rule single_acting_port_misuse;

namespace {

struct Cylinder {
  PartId part;
  PortId working, vent;
};

// `role single-acting working A vent L`: first the working port, then the vent where there is one.
PortId port_at(const Circuit& circuit, PartId part, const Role& role, std::size_t place) {
  return place < role.ports.size() ? circuit.port_of(part, role.ports[place]) : PortId{};
}

std::vector<Cylinder> single_acting(const Circuit& circuit) {
  std::vector<Cylinder> found;
  for (const Part& part : circuit.parts) {
    const PartId id = circuit.parts.id_of(part);
    if (const Role* role = role_of(circuit, id, "single-acting"))
      found.push_back({id, port_at(circuit, id, *role, 0), port_at(circuit, id, *role, 1)});
  }
  return found;
}

struct Pressed {
  OilSource source;
  Way way;
  std::vector<std::pair<PartId, std::int16_t>> positions;
};

std::vector<OilSource> all_sources(const Circuit& circuit) {
  std::vector<OilSource> sources = pumps_of(circuit);
  State all_off;
  all_off.running.assign(circuit.parts.size(), false);
  for (const OilSource& source : sources_in(circuit, all_off, true))
    if (source.store) sources.push_back(source);
  return sources;
}

std::optional<Pressed> pressed(const Solved& solved, PortId port, bool& complete) {
  const NodeId goal = solved.circuit.ports[port].node;
  for (const OilSource& source : all_sources(solved.circuit)) {
    const NodeId start = solved.circuit.ports[source.outlet].node;
    PossibleWay way = possible_way(solved.circuit, solved.graph, start, [&](NodeId node) { return node == goal; });
    complete = complete && way.complete;
    if (way.way) return Pressed{source, std::move(*way.way), std::move(way.positions)};
  }
  return std::nullopt;
}

bool is_left_alone(const Circuit& circuit, PortId port) {
  if (!port) return true;
  const Port::End end = circuit.ports[port].end;
  return end == Port::End::left_open || end == Port::End::unjoined;
}

// One valve feeds both sides in turn: the cylinder is wired as if it were double-acting.
PartId valve_of_both(const Pressed& vent, const std::optional<Pressed>& working) {
  if (!working) return {};
  for (const auto& [part, position] : vent.positions)
    for (const auto& [other, unused] : working->positions)
      if (part == other) return part;
  return {};
}

// Nodes from or to which air and oil surely pass: the reservoir, and what is open to the air.
std::vector<NodeId> open_ends(const Circuit& circuit) {
  std::vector<NodeId> ends = tank_nodes(circuit);
  for (const Element& element : circuit.elements)
    if (element.kind == ElementKind::atmosphere && element.ends.front()) ends.push_back(element.ends.front());
  for (const Port& port : circuit.ports)
    if (port.end == Port::End::left_open) ends.push_back(port.node);
  return ends;
}

void put(const Solved& solved, const Cylinder& cylinder, std::string cause, std::string sentence, std::string fix, const Pressed* proof,
         Findings& findings) {
  const Circuit& circuit = solved.circuit;
  Message m = message_of(single_acting_port_misuse, circuit, cylinder.part, std::move(cause));
  m.sentence = std::move(sentence), m.fix = std::move(fix);
  m.places.push_back(at_part(circuit, cylinder.part, "single-acting: one working port, one vent"));
  m.places.push_back(at_port(circuit, cylinder.vent, "its vent"));
  if (proof) {
    m.trail = trail(circuit, solved.graph, proof->way);
    if (const State* state = state_with(solved, proof->positions)) set_state(m, *state);
    else if (!proof->positions.empty()) m.states = {in_words(circuit, proof->positions)};
  }
  m.limit_source = "common practice: the spring or load side breathes, it is not fed";
  findings.messages.push_back(std::move(m));
}

void report_pressed(const Solved& solved, const Cylinder& cylinder, const Pressed& vent, Findings& findings) {
  const Circuit& circuit = solved.circuit;
  const std::string &tag = circuit.parts[cylinder.part].tag, port = circuit.name_of(cylinder.vent);
  const std::string where = vent.positions.empty() ? "in every position" : "with " + in_words(circuit, vent.positions);
  bool complete = true;
  const auto working = cylinder.working ? pressed(solved, cylinder.working, complete) : std::nullopt;
  if (is_left_alone(circuit, cylinder.working))
    return put(solved, cylinder, "ports-swapped", fmt::format("{} is piped by its vent {}, while its working port is left open", tag, port),
               fmt::format("pipe {} and leave {} open to the air or lead it to the reservoir", circuit.name_of(cylinder.working), port), &vent, findings);
  if (const PartId valve = valve_of_both(vent, working))
    return put(solved, cylinder, "wired-as-double-acting",
               fmt::format("{} is single-acting, but {} feeds its vent {} {}, as if it were double-acting", tag, circuit.parts[valve].tag, port, where),
               "a 3/2 valve on the working port; the vent open to the air or to the reservoir", &vent, findings);
  put(solved, cylinder, "vent-pressurised", fmt::format("{} is single-acting, but its vent {} is under the pressure of {} {}", tag, port,
                                                        circuit.parts[vent.source.part].tag, where),
      "lead the vent to the reservoir, or leave it open to the air through a breather", &vent, findings);
}

void judge_breathing(const Solved& solved, const Cylinder& cylinder, bool searched, Findings& findings) {
  const Circuit& circuit = solved.circuit;
  const std::string &tag = circuit.parts[cylinder.part].tag, port = circuit.name_of(cylinder.vent);
  const auto sure = [](const Passage& p) { return p.reliance == Reliance::sure && !p.limiter; };
  const NodeId vent = circuit.ports[cylinder.vent].node;
  const std::vector<NodeId> ends = open_ends(circuit);
  const bool out = reaching(solved.graph, ends, sure).contains(vent), in = reach(solved.graph, ends, sure).contains(vent);
  if (out && in) {
    findings.verdicts.push_back(verdict_of(single_acting_port_misuse, circuit, cylinder.part, searched ? Outcome::pass : Outcome::not_proved,
                                           searched ? "its vent is always open" : "more ways lead to its vent than could be followed"));
    return;
  }
  const std::string fix = fmt::format("lead {} to the reservoir by a line that nothing can shut, or leave it open to the air", port);
  if (out || in)
    put(solved, cylinder, "vent-one-way", fmt::format("the vent {} of {} lets oil and air pass one way only", port, tag), fix, nullptr, findings);
  else
    put(solved, cylinder, "vent-blocked", fmt::format("the vent {} of {} has no way to the reservoir or the air that is always open", port, tag), fix,
        nullptr, findings);
}

void judge(const Solved& solved, const Cylinder& cylinder, Findings& findings) {
  if (is_left_alone(solved.circuit, cylinder.vent)) {
    if (cylinder.vent && is_left_alone(solved.circuit, cylinder.working) && cylinder.working) return;  // port-open says it
    findings.verdicts.push_back(verdict_of(single_acting_port_misuse, solved.circuit, cylinder.part, Outcome::pass, "its vent is open to the air"));
    return;
  }
  bool complete = true;
  if (const auto vent = pressed(solved, cylinder.vent, complete)) return report_pressed(solved, cylinder, *vent, findings);
  judge_breathing(solved, cylinder, complete, findings);
}

void check(const Solved& solved, Findings& findings) {
  for (const Cylinder& cylinder : single_acting(solved.circuit)) judge(solved, cylinder, findings);
}

}  // namespace

const Rule single_acting_port_misuse{"A-01", "single-acting-port-misuse", Severity::error, check};

}  // namespace ferrule
