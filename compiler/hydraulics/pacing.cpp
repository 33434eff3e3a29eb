#include "compiler/hydraulics/pacing.hpp"

#include <algorithm>
#include <cmath>

#include "compiler/hydraulics/zone.hpp"
#include "compiler/paths/proof.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr double nil = 1e-9;
constexpr std::size_t most_compared = 8;  // valves

double sum_where(const Movement& m, bool (Movement::*side)(std::size_t) const) {
  double sum = 0;
  for (std::size_t c = 0; c < m.body.chambers.size(); ++c)
    if ((m.*side)(c)) sum += std::fabs(m.taken(c));
  return sum;
}

// Any one of the chambers that fill may be the one the pump fills.
double least_intake(const Movement& m) {
  double least = unbounded;
  for (std::size_t c = 0; c < m.body.chambers.size(); ++c)
    if (m.drives(c)) least = std::min(least, m.taken(c));
  return least;
}

// Oil may come round from the exhaust to the intake by itself only where the smaller area exhausts: its pressure can then be
// the higher one. With it the pump makes good only the difference.
bool can_come_round(const Movement& m) {
  double net = 0;
  for (std::size_t c = 0; c < m.body.chambers.size(); ++c) net += m.push(c);
  return net > nil;
}

class Question {
 public:
  Question(const Supply& supply, const Moment& moment, const Movement& movement) : supply_(supply), moment_(moment), m_(movement) {}
  Pace answer();

 private:
  const AnyLaw* gate_at(const Passage& p) const;
  std::vector<NodeId> chambers(bool (Movement::*side)(std::size_t) const) const;
  bool touches_other_body(const Zone& zone) const;
  double pressed_by_return(const Zone& before) const;
  double pressure_of_load() const;
  bool may_open(const Passage& p, const AnyLaw& law, const Zone& loaded, const Zone& before, double on_intake) const;
  bool is_held(double on_intake, const Zone& before);
  Zone onward(const std::vector<NodeId>& starts, bool through_gates);
  Zone backward(const std::vector<NodeId>& starts);
  double push_on_intake(double pressure) const;
  double paced(const Zone& after, double flow);
  double most();

  const Supply& supply_;
  const Moment& moment_;
  const Movement& m_;
  std::vector<NodeId> touched_;  // nodes of all zones
  bool comes_round_ = false;
};

// What opens by pressure only: a pressure valve, a piloted check valve backwards.
const AnyLaw* Question::gate_at(const Passage& p) const {
  const Prepared& element = supply_.shared.elements[p.element.index];
  if (!element.law) return nullptr;
  if (std::holds_alternative<PressurePath>(*element.law)) return &*element.law;
  const auto* check = std::get_if<PilotedOneWay>(&*element.law);
  return check && !check->closing && element.nodes.front() == p.to ? &*element.law : nullptr;
}

std::vector<NodeId> Question::chambers(bool (Movement::*side)(std::size_t) const) const {
  std::vector<NodeId> nodes;
  for (std::size_t c = 0; c < m_.body.chambers.size(); ++c)
    if ((m_.*side)(c)) nodes.push_back(m_.body.chambers[c]);
  return nodes;
}

bool Question::touches_other_body(const Zone& zone) const {
  return std::any_of(zone.nodes.begin(), zone.nodes.end(), [&](NodeId node) {
    const std::int32_t body = supply_.body_at[node.index];
    return body >= 0 && body != m_.index;
  });
}

double Question::pressed_by_return(const Zone& before) const {
  double most = 0;
  for (NodeId node : before.nodes)
    if (supply_.relieved[node.index]) most = std::max(most, supply_.back_pressure(node));
  return most;
}

// The most that a driving load presses with on the oil that holds it, while nothing presses on the intake.
double Question::pressure_of_load() const {
  double least_area = unbounded;
  for (std::size_t c = 0; c < m_.body.chambers.size(); ++c)
    if (m_.yields(c)) least_area = std::min(least_area, -m_.push(c));
  return -m_.resistance / least_area;
}

bool Question::may_open(const Passage& p, const AnyLaw& law, const Zone& loaded, const Zone& before, double on_intake) const {
  if (supply_.commanded[supply_.shared.reading.circuit.elements[p.element].part.index]) return true;
  const auto* path = std::get_if<PressurePath>(&law);
  const auto& weight = path ? path->weight : std::get<PilotedOneWay>(law).pilot;
  const auto& nodes = supply_.shared.elements[p.element.index].nodes;
  double sum = path ? -path->cracking : 0;
  for (std::size_t t = 0; t < weight.size(); ++t) {
    const NodeId node = nodes[t];
    const bool at_intake = before.contains(node);
    if (weight[t] <= 0) sum += at_intake ? -weight[t] : 0;  // down to vapour pressure, one bar below the air
    else if (loaded.contains(node)) sum += weight[t] * pressure_of_load();
    else if (at_intake) sum += weight[t] * on_intake;
    else if (supply_.relieved[node.index]) sum += weight[t] * supply_.back_pressure(node);
    else return true;
  }
  return sum > nil;
}

// Where the oil of these nodes may go; it is let off where it reaches the reservoir.
Zone Question::onward(const std::vector<NodeId>& starts, bool through_gates) {
  Zone zone = zone_of(starts, supply_.seen, [&](NodeId node, auto add) {
    if (supply_.relieved[node.index]) return;
    moment_.each_leaving(node, [&](const Passage& p) {
      if (through_gates || !gate_at(p)) add(p.to);
    });
  });
  touched_.insert(touched_.end(), zone.nodes.begin(), zone.nodes.end());
  return zone;
}

Zone Question::backward(const std::vector<NodeId>& starts) {
  Zone zone = zone_of(starts, supply_.seen, [&](NodeId node, auto add) {
    if (supply_.relieved[node.index]) return;
    moment_.each_arriving(node, [&](const Passage& p) { add(p.from); });
  });
  touched_.insert(touched_.end(), zone.nodes.begin(), zone.nodes.end());
  return zone;
}

// The load drives: does the oil it presses on stay shut in?
bool Question::is_held(double on_intake, const Zone& before) {
  const Zone loaded = onward(chambers(&Movement::yields), false);
  if (loaded.touches(supply_.relieved)) return false;
  for (NodeId chamber : chambers(&Movement::drives))
    if (loaded.contains(chamber)) return false;
  bool held = true;
  for (NodeId node : loaded.nodes)
    moment_.each_leaving(node, [&](const Passage& p) {
      const AnyLaw* gate = held ? gate_at(p) : nullptr;
      if (gate && may_open(p, *gate, loaded, before, on_intake)) held = false;
    });
  return held;
}

double Question::paced(const Zone& after, double flow) {
  double by = least_intake(m_);
  if (can_come_round(m_))
    for (NodeId chamber : chambers(&Movement::drives))
      if (after.contains(chamber)) {
        comes_round_ = true;
        by = std::min(by, intake(m_) - exhaust(m_));
      }
  return by > nil && std::isfinite(by) ? flow / by : unbounded;
}

double Question::push_on_intake(double pressure) const {
  double push = 0;
  for (std::size_t c = 0; c < m_.body.chambers.size(); ++c)
    if (m_.drives(c)) push += m_.push(c) * pressure;
  return push;
}

double Question::most() {
  const bool load_drives = m_.resistance < 0;
  const auto filling = chambers(&Movement::drives), emptying = chambers(&Movement::yields);
  if (filling.empty()) return load_drives ? unbounded : 0;
  const Zone after = onward(emptying, true), before = backward(filling);
  if (touches_other_body(after)) return unbounded;
  const bool fed = before.touches(supply_.outlet);
  const double by_return = pressed_by_return(before), on_intake = fed ? 0 : by_return;
  // Returning oil is pump oil too, and as much as the largest gain makes of it.
  const bool return_matters = push_on_intake(by_return) > std::max(m_.resistance, 0.0);
  if (load_drives && (emptying.empty() || !is_held(on_intake, before))) return unbounded;
  if (fed) return paced(after, supply_.flow * (return_matters ? supply_.gain : 1));
  return load_drives || !return_matters ? 0 : unbounded;
}

Pace Question::answer() {
  Pace pace;
  pace.most = most();
  pace.comes_round = comes_round_;
  for (NodeId node : touched_) {
    if (supply_.relieved[node.index]) continue;  // no zone goes on there
    for (PartId valve : supply_.ways.valves_at[node.index]) {
      if (pace.valves.size() > most_compared) break;
      const std::pair stands(valve, moment_.state.position[valve.index]);
      if (std::find(pace.valves.begin(), pace.valves.end(), stands) == pace.valves.end()) pace.valves.push_back(stands);
    }
  }
  pace.lasts = pace.valves.size() <= most_compared;
  return pace;
}

double drop_of(const AnyLaw& law, double flow) {
  if (const auto* loss = std::get_if<Loss>(&law)) return loss->resistance.drop(flow, 0);
  if (const auto* check = std::get_if<OneWay>(&law)) return check->cracking + check->open.drop(flow, 0);
  const auto* pipe = std::get_if<Pipe>(&law);
  if (!pipe) return unbounded;
  const double pressures[2] = {0, 0};
  double residual = 0, by_pressure[2] = {0, 0}, by_flow = 0;
  state(*pipe, {pressures, &flow, 0, 2, 1, &residual, by_pressure, &by_flow});
  return std::fabs(residual);
}

// Flow moved for each L/min of pump oil that comes in.
double gain_of(const Movement& m, bool comes_round) {
  const double least = least_intake(m), net = intake(m) - exhaust(m);
  const double by = comes_round && can_come_round(m) ? std::min(least, net) : least;
  return by > nil && std::isfinite(by) ? std::max(intake(m), exhaust(m)) / by : 1;
}

std::vector<bool> commanded_in(const Circuit& circuit, std::span<const State> states) {
  std::vector<bool> commanded(circuit.parts.size());
  for (const State& state : states)
    for (const Command& command : state.settings)
      if (command.part && command.amount) commanded[command.part.index] = true;
  return commanded;
}

}  // namespace

double intake(const Movement& movement) { return sum_where(movement, &Movement::drives); }
double exhaust(const Movement& movement) { return sum_where(movement, &Movement::yields); }

Supply::Supply(const Shared& of, const PassageGraph& all, std::span<const State> states)
    : shared(of), graph(all), ways(of.reading.circuit, all, states.front()), relieved(surely_relieved(of.reading.circuit, all)), outlet(all.tank.size()), body_at(all.tank.size(), -1),
      commanded(commanded_in(of.reading.circuit, states)), seen(all.tank.size()) {
  const Circuit& circuit = shared.reading.circuit;
  for (std::size_t node = 0; node < relieved.size(); ++node) relieved[node] = relieved[node] || graph.tank[node];
  for (const Element& element : circuit.elements) {
    beyond_proof |= element.kind == ElementKind::gas_volume || element.kind == ElementKind::shared_shaft ||
                    (element.kind == ElementKind::reservoir && element.value(Parameter::setting).value_or(0) != 0);
    const Prepared& made = shared.elements[circuit.elements.id_of(element).index];
    const auto* pump = made.law ? std::get_if<Pump>(&*made.law) : nullptr;
    if (!pump) continue;
    flow += pump->full + pump->leakage;
    outlet[made.nodes.front().index] = true;
    beyond_proof |= commanded[element.part.index];
  }
  for (std::size_t index = 0; index < shared.bodies.size(); ++index) {
    const MovingBody& body = shared.bodies[index];
    beyond_proof |= body.by_itself || !(body.reference > 0);
    for (NodeId node : body.chambers) body_at[node.index] = static_cast<std::int32_t>(index);
    for (bool outward : {true, false}) {
      const Movement movement{body, static_cast<std::int32_t>(index), outward, 0};
      least_gain = std::max(least_gain, gain_of(movement, false));
      round_gain = std::max(round_gain, gain_of(movement, true));
    }
  }
  to_tank = reaching(graph, tank_nodes(circuit), [&](const Passage& p) { return is_sure(circuit, graph, p) && !p.limiter; });
}

double Supply::back_pressure(NodeId node) const {
  double sum = 0;
  for (std::int32_t index = to_tank.by[node.index]; index != -1; index = to_tank.by[node.index]) {
    if (index == -2) return unbounded;
    const Passage& p = graph.passages[static_cast<std::size_t>(index)];
    const auto& law = shared.elements[p.element.index].law;
    if (law) sum += commanded[shared.reading.circuit.elements[p.element].part.index] ? unbounded : drop_of(*law, flow * gain);
    node = p.to;
  }
  return sum;
}

Pace pace_of(const Supply& supply, const Moment& moment, const Movement& movement) { return Question(supply, moment, movement).answer(); }

}  // namespace ferrule::hydraulics
