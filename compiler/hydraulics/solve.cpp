#include "compiler/hydraulics/solve.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "compiler/hydraulics/most_flows.hpp"
#include "compiler/hydraulics/settle.hpp"
#include "compiler/hydraulics/standing.hpp"
#include "compiler/hydraulics/units.hpp"

namespace ferrule {
namespace hydraulics {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr double runaway_speed = 20;     // m/s of a piston: seals bear a quarter of it (common practice)
constexpr double runaway_turning = 2000; // rad/s of a motor: twice the fastest (common practice)
constexpr double made_up_from = 1e-3;  // L/min of vapour: less is rounding

// Flow from the first end to the second, L/min. Of a pump: what it delivers; of a piston or motor: what its first end takes.
double flow_of(const Model& model, const Solution& solution, const Element& element, std::uint32_t index) {
  const Branch& branch = model.network.branches[index];
  if (element.kind == ElementKind::displacement && std::holds_alternative<Pump>(*branch.law)) {
    const bool swung = model.point_of[element.ends[0].index] == model.network.terminals[branch.first_terminal];
    const double delivery = solution.local[branch.first_local];
    return swung ? -delivery : delivery;
  }
  for (std::uint32_t t = 0; t < branch.terminals; ++t)
    if (element.ends[0] && model.network.terminals[branch.first_terminal + t] == model.point_of[element.ends[0].index])
      return -model.network.given(branch, t, solution.local);
  return element.ends.size() > 1 ? model.network.given(branch, 0, solution.local) : unknown;
}

// Ends that are joined at one point look alike; the third one is the last that is given something.
double given_aside(const Model& model, const Solution& solution, const Element& element, std::uint32_t index) {
  if (element.ends.size() < 3 || !element.ends[2]) return 0;
  const Branch& branch = model.network.branches[index];
  for (std::uint32_t t = branch.terminals; t-- > 0;)
    if (model.network.terminals[branch.first_terminal + t] == model.point_of[element.ends[2].index])
      if (const double flow = model.network.given(branch, t, solution.local); flow != 0) return flow;
  return 0;
}

void report_flows(OperatingPoint& point, const Reading& reading, const Model& model, const Solution& solution) {
  const Circuit& circuit = reading.circuit;
  point.flow.assign(circuit.elements.size(), 0);
  point.aside.assign(circuit.elements.size(), 0);
  for (std::uint32_t index = 0; index < circuit.elements.size(); ++index) {
    const Element& element = circuit.elements.rows[index];
    if (model.branch_of[index] != no_branch) {
      point.flow[index] = flow_of(model, solution, element, model.branch_of[index]) * litre_a_minute;
      point.aside[index] = given_aside(model, solution, element, model.branch_of[index]) * litre_a_minute;
    } else if (element.kind == ElementKind::passage)
      point.flow[index] = unknown;
  }
}

void report_speeds(OperatingPoint& point, const Shared& shared, const Model& model, const Solution& solution) {
  point.speed.assign(shared.elements.size(), unknown);
  for (std::size_t index = 0; index < shared.bodies.size(); ++index) {
    const MovingBody& body = shared.bodies[index];
    double displaced = 0;
    if (model.body_branch[index] != no_branch) {
      const Branch& branch = model.network.branches[model.body_branch[index]];
      displaced = solution.local[branch.first_local] - solution.local[branch.first_local + 1];
    }
    for (ElementId id : body.elements) point.speed[id.index] = displaced * litre_a_minute / body.reference;
  }
}

void report_pressures(OperatingPoint& point, const Model& model, const Solution& solution, const std::vector<bool>& trapped) {
  for (std::uint32_t at : model.point_of) {
    const bool shut_in = trapped[at];
    point.trapped.push_back(shut_in);
    point.voided.push_back(solution.made_up[at] > made_up_from);
    const double pressure = solution.pressure[at];
    const bool unlimited = pressure > 0.9 * beyond_all_ratings;
    point.pressure.push_back(shut_in ? unknown : unlimited ? std::numeric_limits<double>::infinity() : pressure * bar);
  }
}

// A hose-burst valve shuts for good once the flow from its first to its second end exceeds its closing flow.
bool trip_fuses(Reading& reading, const Model& model, const Solution& solution, std::vector<ElementId>& tripped) {
  bool any = false;
  for (const Element& element : reading.circuit.elements) {
    const ElementId id = reading.circuit.elements.id_of(element);
    if (element.kind != ElementKind::flow_fuse || model.branch_of[id.index] == no_branch) continue;
    const auto closing = reading.value(element, Parameter::closing_flow);
    if (!closing || flow_of(model, solution, element, model.branch_of[id.index]) * litre_a_minute <= *closing) continue;
    tripped.push_back(id);
    any = true;
  }
  return any;
}

// Elements whose data matter to the result: oil flows through them, or they hold a pressure.
std::vector<bool> playing(const OperatingPoint& point, const Model& model) {
  std::vector<bool> plays(point.flow.size());
  for (std::size_t i = 0; i < plays.size(); ++i)
    plays[i] = model.branch_of[i] != no_branch && std::fabs(point.flow[i]) > 1e-6 * litre_a_minute;
  return plays;
}

std::string name_of(const Circuit& circuit, const Element& element) {
  const std::string& tag = circuit.parts[element.part].tag;
  return element.name.empty() ? tag : tag + " " + element.name;
}

// The box that a pump fills without end: tags of the parts that close it, a few of them.
std::string closed_by(const OperatingPoint& point, const Circuit& circuit, PartId pump) {
  constexpr std::size_t enough = 4;
  std::vector<std::string> tags;
  for (std::uint32_t node = 0; node < circuit.nodes.size(); ++node)
    for (PortId port : circuit.nodes.rows[node].ports)
      if (const PartId part = circuit.ports[port].part; std::isinf(point.pressure[node]) && part != pump) {
        const std::string& tag = circuit.parts[part].tag;
        if (!tag.empty() && tags.size() < enough && std::find(tags.begin(), tags.end(), tag) == tags.end()) tags.push_back(tag);
      }
  return fmt::format("{}", fmt::join(tags, ", "));
}

// A pump that nothing limits has no steady state, so no flow either: it would deliver until something bursts.
void report_unlimited(OperatingPoint& point, const Circuit& circuit, std::uint32_t element) {
  const PartId pump = circuit.elements.rows[element].part;
  const std::string box = closed_by(point, circuit, pump);
  point.flow[element] = unknown;
  point.notes.push_back(circuit.parts[pump].tag + ": nothing limits its pressure, so there is no steady state" +
                        (box.empty() ? "" : ": it delivers into what is closed by " + box));
}

void report_notes(OperatingPoint& point, const Reading& reading, const Model& model, const Solution& solution,
                  const std::vector<ElementId>& tripped) {
  const Circuit& circuit = reading.circuit;
  for (ElementId id : tripped) point.notes.push_back(circuit.parts[circuit.elements[id].part].tag + " has shut: the flow exceeds its closing flow");
  for (std::uint32_t index = 0; index < circuit.elements.size(); ++index) {
    if (model.branch_of[index] == no_branch) continue;
    const Branch& branch = model.network.branches[model.branch_of[index]];
    const auto* pump = std::get_if<Pump>(branch.law);
    if (pump && pump->ceiling >= beyond_all_ratings && solution.pressure[model.network.terminals[branch.first_terminal]] > 0.9 * beyond_all_ratings)
      report_unlimited(point, circuit, index);
  }
  for (std::uint32_t index = 0; index < circuit.elements.size(); ++index)
    if (std::find(solution.worst.begin(), solution.worst.end(), model.branch_of[index]) != solution.worst.end())
      point.alternating.push_back(name_of(circuit, circuit.elements.rows[index]));
}

// The balance of load and losses holds, but no machine stands such a speed.
void report_runaways(OperatingPoint& point, const Shared& shared) {
  for (const MovingBody& body : shared.bodies) {
    const double speed = std::fabs(point.speed[body.elements.front().index]);
    if (!(speed > (body.turns ? runaway_turning : runaway_speed))) continue;
    point.notes.push_back(fmt::format("{} runs away: its load moves it at {}, for hardly anything on its way holds it back",
                                      shared.reading.circuit.parts[body.part].tag, shown({speed, body.turns ? dimension::rotation : dimension::speed})));
  }
}

// Bodies that only friction could put in order have no speed, and no flow of their own.
void leave_open(OperatingPoint& point, const Shared& shared, const std::vector<std::size_t>& bodies) {
  if (bodies.empty()) return;
  std::string tags;
  for (std::size_t index : bodies) {
    const MovingBody& body = shared.bodies[index];
    tags += (tags.empty() ? "" : index == bodies.back() ? " and " : ", ") + shared.reading.circuit.parts[body.part].tag;
    for (ElementId id : body.elements) point.speed[id.index] = point.flow[id.index] = unknown;
  }
  point.notes.push_back(tags + (bodies.size() > 1 ? " share the flow: which moves first is left to friction" : ": its speed is undetermined"));
}

std::vector<std::string> in_order(std::vector<std::string> texts) {
  std::sort(texts.begin(), texts.end());
  texts.erase(std::unique(texts.begin(), texts.end()), texts.end());
  return texts;
}

// Where a load asks for more than any pressure, the flow that goes with it is no result either.
void forget_beyond_ratings(OperatingPoint& point, const Circuit& circuit) {
  std::vector<std::string> tags;
  for (std::uint32_t index = 0; index < circuit.elements.size(); ++index) {
    const Element& element = circuit.elements.rows[index];
    const bool beyond = std::any_of(element.ends.begin(), element.ends.end(), [&](NodeId end) { return end && std::isinf(point.pressure[end.index]); });
    if (beyond && std::fabs(point.flow[index]) > 1e-3 * litre_a_minute) tags.push_back(circuit.parts[element.part].tag);
  }
  if (tags.empty()) return;
  point.settled = false;
  point.alternating.clear();
  point.notes = {fmt::format("oil would flow at more than {:g} bar through {}", 0.9 * beyond_all_ratings, fmt::join(in_order(std::move(tags)), ", "))};
}

OperatingPoint solved(const Shared& shared, Memory& memory, const State& state) {
  Reading step(shared.reading.circuit, state);
  std::vector<ElementId> tripped;
  Model model = network_of(shared, step, tripped);
  Solution solution = settle(model.network, memory);
  while (solution.settled && trip_fuses(step, model, solution, tripped)) {
    model = network_of(shared, step, tripped);
    solution = settle(model.network, memory);
  }
  OperatingPoint point;
  point.settled = solution.settled;
  point.residual = solution.residual;
  report_pressures(point, model, solution, trapped_points(model, solution));
  report_flows(point, step, model, solution);
  report_speeds(point, shared, model, solution);
  report_notes(point, step, model, solution, tripped);
  report_runaways(point, shared);
  leave_open(point, shared, undetermined_bodies(model, solution));
  const std::vector<bool> plays = playing(point, model);
  shared.reading.tell_assumed(plays, point.defaults);
  step.tell_assumed(plays, point.defaults);
  point.defaults = in_order(std::move(point.defaults));
  forget_beyond_ratings(point, shared.reading.circuit);
  return point;
}

}  // namespace
}  // namespace hydraulics

struct Solver::Inside {
  hydraulics::Shared shared;
  mutable hydraulics::Memory memory;
};

Solver::Solver(const Circuit& circuit) : inside_(new Inside{hydraulics::Shared(circuit), {}}) {}
Solver::~Solver() = default;
Solver::Solver(Solver&&) noexcept = default;
OperatingPoint Solver::at(const State& state) const { return hydraulics::solved(inside_->shared, inside_->memory, state); }

std::vector<double> Solver::most_flows(const PassageGraph& graph, std::span<const State> states) const {
  std::vector<double> flows = hydraulics::most_flows(inside_->shared, graph, states);
  for (double& flow : flows) flow *= hydraulics::litre_a_minute;
  return flows;
}

OperatingPoint solve(const Circuit& circuit, const State& state) { return Solver(circuit).at(state); }

Points::Points(const Circuit& circuit, std::span<const State> states) : states_(states), solver_(circuit), known_(states.size()) {}

const OperatingPoint& Points::operator[](std::size_t state) const {
  if (!known_[state]) known_[state] = std::make_unique<const OperatingPoint>(solver_.at(states_[state]));
  return *known_[state];
}

}  // namespace ferrule
