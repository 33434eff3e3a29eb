// P-01: from every pump outlet a relief is attached in every position of the valves, its outlet free to the reservoir.
//
// Source: ISO 4413 (all parts protected against over-pressure, relief valves the preferred means). Proofs use sure ways only.
#include <fmt/format.h>

#include <algorithm>

#include "checks/machinery/evidence.hpp"
#include "compiler/paths/proof.hpp"

namespace ferrule {

extern const Rule pump_outlet_unprotected;

namespace {

struct Question {
  const Solved& solved;
  OilSource pump;
  NodeId outlet;
  std::vector<bool> relieved;  // by node
  Reached to_inlet;            // nodes with a sure way to the pump's own inlet (closed loops, internal reliefs)
  const Circuit& circuit;
  const PassageGraph& graph;

  bool lets_off(const Passage& relief) const {
    return relieved[relief.to.index] || graph.tank[relief.to.index] || to_inlet.contains(relief.to);
  }
  // A valve that opens by the pressure at its own inlet, drained to the reservoir, limits as a relief does (checks page B.0).
  bool opens_by_own_inlet(const Passage& p) const {
    const Element& element = circuit.elements[p.element];
    const auto from_inlet = [&](const Sense& sense) { return sense.weight > 0 ? sense.node == p.from : relieved[sense.node.index] || graph.tank[sense.node.index]; };
    return element.kind == ElementKind::pressure_path && element.position < 0 && !element.has("remote") && !element.senses.empty() &&
           std::all_of(element.senses.begin(), element.senses.end(), from_inlet);
  }
  bool qualifies(const Passage& p) const {
    return lets_off(p) && ((p.limiter && p.reliance == Reliance::sure) || (!p.limiter && opens_by_own_inlet(p)));
  }
  std::string tag(ElementId element) const { return circuit.parts[circuit.elements[element].part].tag; }
};

std::vector<NodeId> inlets_of(const Circuit& circuit, PartId pump) {
  std::vector<NodeId> nodes;
  if (const Role* role = role_of(circuit, pump, "draws"))
    for (const std::string& name : role->ports)
      if (const PortId port = circuit.port_of(pump, name)) nodes.push_back(circuit.ports[port].node);
  return nodes;
}

Question question_of(const Solved& solved, const OilSource& pump) {
  const Circuit& circuit = solved.circuit;
  const auto sure = [](const Passage& p) { return p.reliance == Reliance::sure && !p.limiter; };
  return {solved, pump, circuit.ports[pump.outlet].node, surely_relieved(circuit, solved.graph),
          reaching(solved.graph, inlets_of(circuit, pump.part), sure), circuit, solved.graph};
}

const Passage* attached_relief(const Question& q, const Reached& reached, bool qualifying) {
  for (const Passage& p : q.graph.passages)
    if ((p.limiter || qualifying) && reached.contains(p.from) && q.qualifies(p) == qualifying) return &p;
  return nullptr;
}

// Where the oil gets off to the reservoir in these positions, no pressure rises, with or without a relief.
bool gets_off(const Question& q, const Reached& reached) {
  for (std::uint32_t node = 0; node < q.graph.tank.size(); ++node)
    if (q.graph.tank[node] && reached.by[node] != -2) return true;
  return attached_relief(q, reached, true) != nullptr;
}

// A valve that meters one outlet and sends the rest to another always has one of them open: both must be protected.
bool splits_to_protected_outlets(const Question& q, const Reached& reached) {
  const auto sure = [&](const Passage& p) { return p.reliance == Reliance::sure && !p.limiter && !q.graph.tank[p.from.index]; };
  const auto is_protected = [&](NodeId outlet) { return gets_off(q, reach(q.graph, outlet, sure)); };
  return std::any_of(q.circuit.elements.begin(), q.circuit.elements.end(), [&](const Element& element) {
    return element.kind == ElementKind::regulated_flow && element.ends.size() > 2 && reached.contains(element.ends[0]) &&
           is_protected(element.ends[1]) && is_protected(element.ends[2]);
  });
}

bool is_protected(const Question& q, const Reached& reached) { return gets_off(q, reached) || splits_to_protected_outlets(q, reached); }

// What stands between the pump and a relief that it can't be sure to reach.
struct Barrier {
  const Passage* relief = nullptr;
  const Passage* crossing = nullptr;
  bool against = false;  // the oil would have to pass a check from behind
};

struct Step {
  std::uint32_t passage;
  bool against;
  std::int32_t before;  // index into the steps
};

const Passage* relief_at(const Question& q, NodeId node) {
  for (std::uint32_t index : q.graph.leaving[node.index])
    if (q.graph.passages[index].limiter) return &q.graph.passages[index];
  return nullptr;
}

// Breadth first over every way there may be, checks from behind included, so that the nearest relief is named.
Barrier barrier_of(const Question& q, const Reached& reached) {
  std::vector<bool> seen(q.graph.leaving.size());
  std::vector<std::pair<NodeId, std::int32_t>> front;
  std::vector<Step> steps;
  for (std::uint32_t node = 0; node < seen.size(); ++node)
    if (reached.by[node] != -2 && !q.graph.tank[node]) seen[node] = true, front.push_back({NodeId{node}, -1});
  const auto go = [&](std::uint32_t index, bool against, std::int32_t before) {
    const Passage& p = q.graph.passages[index];
    const NodeId next = against ? p.from : p.to;
    if (seen[next.index] || q.graph.tank[next.index] || p.limiter) return;
    seen[next.index] = true;
    steps.push_back({index, against, before});
    front.push_back({next, static_cast<std::int32_t>(steps.size() - 1)});
  };
  for (std::size_t at = 0; at < front.size(); ++at) {
    const auto [node, before] = front[at];
    const Passage* relief = before < 0 ? nullptr : relief_at(q, node);
    if (relief) {
      std::int32_t first = before;
      while (steps[first].before >= 0) first = steps[first].before;
      return {relief, &q.graph.passages[steps[first].passage], steps[first].against};
    }
    for (std::uint32_t index : q.graph.leaving[node.index]) go(index, false, before);
    for (std::uint32_t index : q.graph.arriving[node.index])
      if (q.circuit.elements[q.graph.passages[index].element].kind == ElementKind::one_way) go(index, true, before);
  }
  return {};
}

std::string cause_of(const Question& q, const Barrier& barrier) {
  if (barrier.against) return "reverse-check";
  const Passage& p = *barrier.crossing;
  const Element& element = q.circuit.elements[p.element];
  if (p.reliance == Reliance::in_position) return "isolated-by";
  if (element.kind == ElementKind::displacement) return "outlet-can-block";
  const bool meters = element.kind == ElementKind::regulated_flow || element.has("adjustable");
  return meters ? "metered-by" : "may-close";
}

bool has_remote_unloader(const Question& q, const Reached& reached) {
  return std::any_of(q.graph.passages.begin(), q.graph.passages.end(), [&](const Passage& p) {
    return reached.contains(p.from) && has_role(q.circuit, q.circuit.elements[p.element].part, "unloads");
  });
}

// The weakest part the trapped flow meets, for the report.
void add_lowest_rating(const Question& q, const Reached& reached, Message& m) {
  const Part* weakest = nullptr;
  for (const Port& port : q.circuit.ports) {
    const Part& part = q.circuit.parts[port.part];
    if (!reached.contains(port.node) || q.graph.tank[port.node.index] || port.use != PortUse::main || !part.si("rated")) continue;
    if (!weakest || *part.si("rated") < *weakest->si("rated")) weakest = &part;
  }
  if (weakest)
    m.values.push_back({"lowest rating on the way, " + weakest->tag, shown({*weakest->si("rated"), dimension::pressure}), "", "given; nothing limits the pump"});
}

struct Explanation {
  std::string cause, sentence, fix;
  std::vector<Place> places;
};

std::string relief_fix(const Question& q, std::string_view before) {
  return fmt::format("put a relief valve at {} ahead of {}, its outlet straight to the reservoir", q.circuit.name_of(q.pump.outlet), before);
}

Explanation explained(const Question& q, const Proof& proof) {
  const std::string& pump = q.circuit.parts[q.pump.part].tag;
  const auto part_of = [&](const Passage& p) { return q.circuit.elements[p.element].part; };
  if (const Passage* relief = attached_relief(q, proof.reached, false)) {
    const std::string tag = q.tag(relief->element);
    if (relief->reliance != Reliance::sure)
      return {"no-upper-limit", fmt::format("{} can be shut in: {} may be set to any pressure, for nothing limits its signal", pump, tag),
              fmt::format("state the mechanical maximum of {}, or add a relief valve with a fixed setting", tag), {at_part(q.circuit, part_of(*relief), "no upper limit of its setting")}};
    return {"not-to-tank", fmt::format("{} can be shut in: the outlet of {} has no way to the reservoir that is always open", pump, tag),
            fmt::format("lead the outlet of {} straight to the reservoir", tag), {at_part(q.circuit, part_of(*relief), "its outlet can be shut")}};
  }
  if (const Barrier barrier = barrier_of(q, proof.reached); barrier.relief) {
    const std::string relief = q.tag(barrier.relief->element), blocker = q.tag(barrier.crossing->element);
    const std::string cause = cause_of(q, barrier);
    const std::string where = cause == "isolated-by" && !proof.witness.empty() ? fmt::format("with {} its outlet", in_words(q.circuit, proof.witness)) : "its outlet surely";
    return {cause, fmt::format("{} can be shut in: {} reaches no relief valve; {} lies behind {}", pump, where, relief, blocker), relief_fix(q, blocker),
            {at_part(q.circuit, part_of(*barrier.crossing), barrier.against ? "lets no oil through this way" : "can part the pump from the relief valve"),
             at_part(q.circuit, part_of(*barrier.relief), "too far behind to protect the pump")}};
  }
  if (has_remote_unloader(q, proof.reached))
    return {"remote-pilot-only", fmt::format("{} can be shut in: only an unloading valve with a remote pilot lets its oil off, no relief valve", pump),
            fmt::format("put a relief valve at {}, its outlet straight to the reservoir", q.circuit.name_of(q.pump.outlet)), {}};
  return {"none", fmt::format("{} can be shut in: its outlet reaches no relief valve", pump),
          fmt::format("put a relief valve at {}, its outlet straight to the reservoir", q.circuit.name_of(q.pump.outlet)), {}};
}

void report(const Question& q, const Proof& proof, Findings& findings) {
  Explanation why = explained(q, proof);
  const std::string& pump = q.circuit.parts[q.pump.part].tag;
  const bool compensated = has_role(q.circuit, q.pump.part, "compensated");
  if (compensated) {
    why.cause = "compensator-only";
    why.sentence = fmt::format("{} relies on its compensator alone: no relief valve limits it if the compensator sticks", pump);
  }
  Message m = message_of(pump_outlet_unprotected, q.circuit, q.pump.part, why.cause);
  if (compensated) m.severity = Severity::warning;
  m.sentence = why.sentence, m.fix = why.fix;
  m.places.push_back(at_part(q.circuit, q.pump.part, "its outlet can be shut in"));
  m.places.insert(m.places.end(), why.places.begin(), why.places.end());
  m.trail = {q.circuit.name_of(q.pump.outlet)};
  if (const Barrier barrier = barrier_of(q, proof.reached); barrier.crossing) {
    const NodeId end = barrier.against ? barrier.crossing->to : barrier.crossing->from;
    const auto way = trail(q.circuit, q.graph, proof.reached.way_to(end, q.graph));
    if (!way.empty()) m.trail = way;
    const PartId blocker = q.circuit.elements[barrier.crossing->element].part;
    for (const PortId port : q.circuit.nodes[end].ports)
      if (q.circuit.ports[port].part == blocker) m.trail.push_back(q.circuit.name_of(port));
  }
  if (const State* state = state_with(q.solved, proof.witness)) set_state(m, *state);
  else if (!proof.witness.empty()) m.states = {in_words(q.circuit, proof.witness)};
  add_lowest_rating(q, proof.reached, m);
  m.hides = "how high the pressure of this zone can rise, and whether its parts and lines bear it";
  m.limit_source = "ISO 4413: parts are protected against over-pressure, relief valves the preferred means";
  findings.messages.push_back(std::move(m));
}

std::string attached_in_words(const Question& q, const Proof& proof) {
  const Passage* relief = attached_relief(q, proof.reached, true);
  return relief ? fmt::format("{} is attached in every position", q.tag(relief->element))
                : "in every position a relief valve is attached or the way to the reservoir is open";
}

// Proved position by position: between two positions the spool may still shut everything.
void judge_crossover(const Question& q, const Proof& proof, Findings& findings) {
  for (const PartId valve : proof.cut) {
    const FactValue* crossover = q.circuit.parts[valve].fact("crossover");
    const std::string& tag = q.circuit.parts[valve].tag;
    if (crossover && crossover->word == "open") continue;
    if (!crossover) {
      findings.verdicts.push_back(verdict_of(pump_outlet_unprotected, q.circuit, q.pump.part, Outcome::not_proved,
                                             fmt::format("{} is protected in every position of {}; whether also between them is unknown: state its crossover", q.circuit.parts[q.pump.part].tag, tag)));
      return;
    }
    Message m = message_of(pump_outlet_unprotected, q.circuit, q.pump.part, "only-between-shifts");
    m.severity = Severity::warning;
    m.sentence = fmt::format("{} is shut in while {} shifts: its crossover is closed and no relief valve lies ahead of it", q.circuit.parts[q.pump.part].tag, tag);
    m.places = {at_part(q.circuit, q.pump.part, "its outlet is shut in for a moment"), at_fact(q.circuit, valve, "crossover", "closed between positions")};
    m.fix = relief_fix(q, tag);
    m.trail = {q.circuit.name_of(q.pump.outlet)};
    findings.messages.push_back(std::move(m));
    return;
  }
  findings.verdicts.push_back(verdict_of(pump_outlet_unprotected, q.circuit, q.pump.part, Outcome::pass, attached_in_words(q, proof)));
}

void judge(const Question& q, Findings& findings) {
  if (q.relieved[q.outlet.index] || q.graph.tank[q.outlet.index]) {
    findings.verdicts.push_back(verdict_of(pump_outlet_unprotected, q.circuit, q.pump.part, Outcome::pass, "its outlet is always open to the reservoir"));
    return;
  }
  const Proof proof = prove_for_all(q.circuit, q.graph, q.outlet, [&](const Reached& r) { return is_protected(q, r); });
  using enum Proof::Verdict;
  if (proof.verdict == fails) return report(q, proof, findings);
  if (proof.verdict == every_position) return judge_crossover(q, proof, findings);
  const bool proved = proof.verdict == sure;
  std::string because = proved ? attached_in_words(q, proof) : "more positions than can be listed border its outlet:";
  if (!proved)
    for (const PartId valve : proof.cut) because += " " + q.circuit.parts[valve].tag;
  findings.verdicts.push_back(verdict_of(pump_outlet_unprotected, q.circuit, q.pump.part, proved ? Outcome::pass : Outcome::not_proved, because));
}

void check(const Solved& solved, Findings& findings) {
  for (const OilSource& pump : pumps_of(solved.circuit)) judge(question_of(solved, pump), findings);
}

}  // namespace

const Rule pump_outlet_unprotected{"P-01", "pump-outlet-unprotected", Severity::error, check};

}  // namespace ferrule
