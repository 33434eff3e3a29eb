#include "compiler/hydraulics/most_flows.hpp"

#include <algorithm>
#include <cmath>

#include "compiler/hydraulics/motions.hpp"
#include "compiler/hydraulics/pacing.hpp"
#include "compiler/hydraulics/zone.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr std::size_t widest_side = 64;  // nodes of a side that is looked through for chambers alone

class Bounding {
 public:
  Bounding(const Shared& shared, const PassageGraph& graph, std::span<const State> states)
      : shared_(shared), graph_(graph), circuit_(shared.reading.circuit), supply_(shared, graph, states),
        bodies_of_(circuit_.parts.size()) {
    State another_moves;
    another_moves.motions.emplace_back();
    for (std::size_t body = 0; body < shared.bodies.size(); ++body) {
      for (ElementId element : shared.bodies[body].elements) {
        auto& list = bodies_of_[circuit_.elements[element].part.index];
        if (list.empty() || list.back() != body) list.push_back(body);
      }
      if (!shared.bodies[body].load.keeps_its_sense) continue;
      if (auto law = motion_of(another_moves, shared.bodies[body])) weights_.push_back({body, std::move(*law)});
    }
  }

  std::vector<double> of_pipes(std::span<const State> states);

 private:
  struct Known {
    double resistance;
    Pace pace;
  };
  bool is_found_true(std::span<const State> states, double gain);
  // A body that its load may move in steps that do not name it, and its law in all of them.
  struct Weight {
    std::size_t body;
    Body law;
  };
  void bound(const State& state);
  void bound(const Moment& moment, std::size_t body);
  void bound(const Moment& moment, std::size_t body, const Body& law);
  bool is_named(const State& state, std::size_t body) const;
  void bound(const Moment& moment, const Movement& movement);
  void mark_borders();
  double through(NodeId side, ElementId pipe) const;

  const Shared& shared_;
  const PassageGraph& graph_;
  const Circuit& circuit_;
  Supply supply_;
  std::vector<std::vector<Known>> known_;  // by body and direction
  std::vector<double> at_node_;            // L/min that chambers and cases take or give there at the most
  double trunk_ = 0;                         // L/min that no line exceeds
  std::vector<std::vector<std::size_t>> bodies_of_;  // by part
  std::vector<Weight> weights_;
  std::vector<bool> borders_;              // by node: a reservoir, a pump, or a valve position begins here
};

bool stands_so(const State& state, const Pace& pace) {
  return std::all_of(pace.valves.begin(), pace.valves.end(), [&](const auto& valve) { return state.position[valve.first.index] == valve.second; });
}

// A weight meets the same valves in hundreds of states.
void Bounding::bound(const Moment& moment, const Movement& movement) {
  auto& known = known_[2 * static_cast<std::size_t>(movement.index) + (movement.outward ? 0 : 1)];
  for (const Known& one : known)
    if (one.resistance == movement.resistance && one.pace.lasts && stands_so(moment.state, one.pace)) return;
  known.push_back({movement.resistance, pace_of(supply_, moment, movement)});
  const double speed = known.back().pace.most;
  if (speed <= 0) return;
  for (std::size_t c = 0; c < movement.body.chambers.size(); ++c) {
    double& most = at_node_[movement.body.chambers[c].index];
    most = std::max(most, speed * std::fabs(movement.taken(c)));
  }
  trunk_ = std::max(trunk_, speed * std::max(intake(movement), exhaust(movement)));
}

void Bounding::bound(const Moment& moment, std::size_t body) {
  if (const auto law = motion_of(moment.state, shared_.bodies[body])) bound(moment, body, *law);
}

void Bounding::bound(const Moment& moment, std::size_t body, const Body& law) {
  const auto index = static_cast<std::int32_t>(body);
  bound(moment, {shared_.bodies[body], index, true, law.load_out + law.friction});
  bound(moment, {shared_.bodies[body], index, false, law.friction - law.load_in});
}

bool Bounding::is_named(const State& state, std::size_t body) const {
  return std::any_of(state.motions.begin(), state.motions.end(), [&](const Motion& motion) {
    const auto& list = bodies_of_[motion.actuator.index];
    return std::find(list.begin(), list.end(), body) != list.end();
  });
}

// A step moves the bodies it names; besides them only those that a weight may move have a say.
void Bounding::bound(const State& state) {
  const Moment moment(supply_.ways, state);
  if (state.motions.empty()) {
    for (std::size_t body = 0; body < shared_.bodies.size(); ++body) bound(moment, body);
    return;
  }
  for (const Motion& motion : state.motions)
    for (std::size_t body : bodies_of_[motion.actuator.index]) bound(moment, body);
  for (const Weight& weight : weights_)
    if (!is_named(state, weight.body)) bound(moment, weight.body, weight.law);
}

// Assumes that no line carries more than `gain` times the flow of the pumps, and sees whether that comes out.
bool Bounding::is_found_true(std::span<const State> states, double gain) {
  supply_.gain = gain;
  known_.assign(2 * shared_.bodies.size(), {});
  at_node_.assign(graph_.tank.size(), 0);
  trunk_ = supply_.flow;
  for (const State& state : states) bound(state);
  bool comes_round = false;
  for (const auto& list : known_)
    for (const Known& one : list) comes_round |= one.pace.comes_round;
  return trunk_ < unbounded && (gain >= supply_.round_gain || !comes_round);
}

void Bounding::mark_borders() {
  borders_ = graph_.tank;
  for (const Passage& p : graph_.passages)
    if (p.position >= 0) borders_[p.from.index] = borders_[p.to.index] = true;
  for (const Element& element : circuit_.elements) {
    const Prepared& made = shared_.elements[circuit_.elements.id_of(element).index];
    const auto* pump = made.law ? std::get_if<Pump>(&*made.law) : nullptr;
    if (!pump) continue;
    for (std::size_t end = 0; end < 2 && end < element.ends.size(); ++end)
      if (element.ends[end]) borders_[element.ends[end].index] = true;
    if (element.ends.size() > 2 && element.ends[2]) at_node_[element.ends[2].index] += pump->leakage;
  }
}

// What all that hangs on one side of the pipe takes or gives; unbounded when more than chambers and cases hang there.
double Bounding::through(NodeId side, ElementId pipe) const {
  if (borders_[side.index]) return unbounded;
  bool open = false;
  std::size_t met = 0;
  const Zone zone = zone_of({side}, supply_.seen, [&](NodeId node, auto add) {
    for (const auto* list : {&graph_.leaving[node.index], &graph_.arriving[node.index]})
      for (std::uint32_t index : *list) {
        const Passage& p = graph_.passages[index];
        if (open || p.element == pipe) continue;
        open = ++met > widest_side || borders_[p.from.index] || borders_[p.to.index];
        add(p.from);
        add(p.to);
      }
  });
  if (open) return unbounded;
  double sum = 0;
  for (NodeId node : zone.nodes) sum += at_node_[node.index];
  return sum;
}

std::vector<double> Bounding::of_pipes(std::span<const State> states) {
  std::vector<double> most(circuit_.elements.size(), unbounded);
  if (states.empty() || supply_.beyond_proof) return most;
  if (std::any_of(states.begin(), states.end(), [](const State& state) { return !state.unsettled.empty(); })) return most;
  // Back pressure is that of the flow which comes out at the end. Where a load runs free no flow can be assumed.
  for (double gain : {supply_.least_gain, supply_.round_gain, unbounded})
    if (is_found_true(states, gain)) break;
  mark_borders();
  for (const Element& element : circuit_.elements) {
    if (element.kind != ElementKind::pipe) continue;
    const ElementId id = circuit_.elements.id_of(element);
    most[id.index] = std::min({trunk_, through(element.ends[0], id), through(element.ends[1], id)});
  }
  return most;
}

}  // namespace

std::vector<double> most_flows(const Shared& shared, const PassageGraph& graph, std::span<const State> states) {
  return Bounding(shared, graph, states).of_pipes(states);
}

}  // namespace ferrule::hydraulics
