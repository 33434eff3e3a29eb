#include "compiler/figures/moment.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "compiler/hydraulics/motions.hpp"
#include "compiler/hydraulics/units.hpp"

namespace ferrule::working {
namespace {

using hydraulics::MovingBody;

std::uint32_t root(std::vector<std::uint32_t>& parent, std::uint32_t node) {
  while (parent[node] != node) node = parent[node] = parent[parent[node]];
  return node;
}

// Passages and the connections of one reservoir join without loss.
std::vector<std::uint32_t> groups_of(const Moment& moment) {
  std::vector<std::uint32_t> parent(moment.circuit.nodes.size());
  std::iota(parent.begin(), parent.end(), 0u);
  for (const Element& element : moment.circuit.elements) {
    const bool joins = element.kind == ElementKind::passage || element.kind == ElementKind::reservoir;
    if (!joins || element.ends.empty() || !element.ends.front() || !moment.reading.in_force(element)) continue;
    for (NodeId end : element.ends)
      if (end) {
        const std::uint32_t a = root(parent, element.ends.front().index), b = root(parent, end.index);
        parent[std::max(a, b)] = std::min(a, b);
      }
  }
  std::vector<std::uint32_t> group(parent.size());
  for (std::uint32_t node = 0; node < parent.size(); ++node) group[node] = root(parent, node);
  return group;
}

std::array<double, 3> swept(const Moment& moment, const Element& piston, double speed) {
  const double bore = moment.reading.value(piston, Parameter::bore).value_or(0), rod = moment.reading.value(piston, Parameter::rod).value_or(0);
  const double annulus = std::numbers::pi / 4 * (bore * bore - rod * rod);
  const double cap = piston.has("through-rod") ? annulus : std::numbers::pi / 4 * bore * bore;
  return {-speed * cap, speed * annulus, 0};
}

// In what a pump draws the leakage to its case is included; in all others the third end takes from the first.
std::array<double, 3> given_by(const Moment& moment, const Element& element) {
  const std::uint32_t index = moment.circuit.elements.id_of(element).index;
  const double flow = moment.point.flow[index], aside = moment.point.aside[index];
  const MovingBody* body = moment.body[index];
  if (body && std::isnan(flow)) return {flow, flow, flow};
  if (element.kind == ElementKind::piston) return swept(moment, element, std::isnan(moment.point.speed[index]) ? 0 : moment.point.speed[index]);
  if (element.ends.size() < 2) return {};
  if (!body && element.kind == ElementKind::displacement && flow > 0) return {-flow - aside, flow, aside};
  return {-flow, flow - aside, aside};
}

// Where oil is shut in its pressure is unknown, and what flows there is rounding.
double times(double pressure, double flow) { return flow == 0 || (!std::isfinite(pressure) && std::fabs(flow) < 1e-8) ? 0 : pressure * flow; }

double rise_power(const Moment& moment, const Element& element) {
  if (element.kind != ElementKind::pipe) return 0;
  const double rise = moment.reading.value(element, Parameter::rise).value_or(0);
  return rise == 0 ? 0 : moment.reading.oil_of(element).density * 9.80665 * rise * moment.point.flow[moment.circuit.elements.id_of(element).index];
}

// Pressure times the flow that a body's elements take; the work it does; the difference heats the oil.
void share_out(Moment& moment, const MovingBody& body) {
  double taken = 0;
  for (ElementId id : body.elements) taken += moment.taken(id);
  const double speed = moment.point.speed[body.elements.front().index];
  const double work = std::isnan(speed) || speed == 0 ? 0 : load_on(moment, body) * speed;
  moment.work += work;
  const double loss = taken - work;
  for (ElementId id : body.elements) moment.heat[id.index] = taken != 0 ? loss * moment.taken(id) / taken : 0;
}

void balance(Moment& moment) {
  for (std::uint32_t index = 0; index < moment.circuit.elements.size(); ++index) {
    const Element& element = moment.circuit.elements.rows[index];
    const double taken = moment.taken(ElementId{index}), up = rise_power(moment, element);
    moment.lifted += up;
    if (moment.body[index]) continue;
    const double shaft = is_pump(moment, element) ? shaft_power(moment, ElementId{index}) : 0;
    moment.heat[index] = shaft + taken - up;
    moment.shaft += shaft;
    if (is_pump(moment, element)) moment.hydraulic -= taken;
  }
  for (const MovingBody& body : moment.bodies) share_out(moment, body);
}

// What flows from points that keep their pressure by themselves: the rest of the balance at their node.
double from_stores(const Moment& moment) {
  std::vector<double> sum(moment.circuit.nodes.size(), 0);
  for (std::uint32_t index = 0; index < moment.circuit.elements.size(); ++index) {
    const Element& element = moment.circuit.elements.rows[index];
    for (std::size_t end = 0; end < element.ends.size() && end < 3; ++end)
      if (element.ends[end] && std::isfinite(moment.given[index][end])) sum[moment.group[element.ends[end].index]] += moment.given[index][end];
  }
  double power = 0;
  std::vector<bool> counted(sum.size(), false);
  for (const Element& element : moment.circuit.elements) {
    if (element.kind != ElementKind::gas_volume && element.kind != ElementKind::reservoir && element.kind != ElementKind::atmosphere) continue;
    for (NodeId end : element.ends) {
      if (!end || counted[moment.group[end.index]]) continue;
      counted[moment.group[end.index]] = true;
      power -= times(moment.pressure(end), sum[moment.group[end.index]]);
    }
  }
  return power;
}

}  // namespace

Moment::Moment(const Circuit& c, const State& s, const OperatingPoint& p, const std::vector<MovingBody>& b)
    : circuit(c), state(s), point(p), bodies(b), reading(c, s), group(groups_of(*this)), body(c.elements.size(), nullptr), heat(c.elements.size(), 0) {
  for (const MovingBody& one : bodies)
    for (ElementId id : one.elements) body[id.index] = &one;
  given.reserve(c.elements.size());
  for (const Element& element : c.elements) given.push_back(given_by(*this, element));
  if (!point.settled) return;
  balance(*this);
  stored = from_stores(*this);
}

double Moment::taken(ElementId id) const {
  const Element& element = circuit.elements[id];
  if (element.kind == ElementKind::gas_volume || element.kind == ElementKind::reservoir || element.kind == ElementKind::passage) return 0;
  double sum = 0;
  for (std::size_t end = 0; end < element.ends.size() && end < 3; ++end)
    if (element.ends[end]) sum -= times(pressure(element.ends[end]), given[id.index][end]);
  return sum;
}

std::span<const EndAt> Moment::ends_at(NodeId node) const {
  if (ends_.empty()) {
    ends_.resize(circuit.nodes.size());
    for (std::uint32_t index = 0; index < circuit.elements.size(); ++index) {
      const Element& element = circuit.elements.rows[index];
      for (std::uint32_t end = 0; end < element.ends.size() && end < 3; ++end)
        if (element.ends[end]) ends_[group[element.ends[end].index]].push_back({index, end});
    }
  }
  return ends_[group[node.index]];
}

double Moment::heat_of_all() const { return std::accumulate(heat.begin(), heat.end(), 0.0); }

bool is_pump(const Moment& moment, const Element& element) {
  return element.kind == ElementKind::displacement && hydraulics::is_pump(moment.reading, element);
}

NodeId outlet_of(const Moment& moment, ElementId pump) {
  const auto& ends = moment.circuit.elements[pump].ends;
  return ends.size() < 2 ? NodeId{} : ends[moment.point.flow[pump.index] < 0 ? 0 : 1];
}

NodeId inlet_of(const Moment& moment, ElementId pump) {
  const auto& ends = moment.circuit.elements[pump].ends;
  return ends.size() < 2 ? NodeId{} : ends[moment.point.flow[pump.index] < 0 ? 1 : 0];
}

double shaft_power(const Moment& moment, ElementId id) {
  const Element& pump = moment.circuit.elements[id];
  const double flow = moment.point.flow[id.index];
  if (flow == 0 || pump.ends.size() < 2) return 0;
  const double inlet = pump.ends[0] ? moment.pressure(pump.ends[0]) : 0, outlet = pump.ends[1] ? moment.pressure(pump.ends[1]) : 0;
  const double eta_v = moment.reading.value(pump, Parameter::volumetric).value_or(0.92);
  const double eta_hm = moment.reading.value(pump, Parameter::mechanical).value_or(0.9);
  return (outlet - inlet) * flow / (eta_v * eta_hm);
}

bool stands_still(const MovingBody& body, double speed) { return std::fabs(speed) * body.reference < 1e-9; }

const Motion* stated_motion(const State& state, const MovingBody& body) {
  for (const Motion& motion : state.motions)
    if (motion.actuator == body.part || (body.tie >= 0 && motion.tie == body.tie)) return &motion;
  return nullptr;
}

double load_on(const Moment& moment, const MovingBody& body) {
  const auto law = hydraulics::motion_of(moment.state, body);
  if (!law) return 0;
  const double speed = moment.point.speed[body.elements.front().index];
  return (speed < 0 ? law->load_in : law->load_out) * body.reference * hydraulics::bar;
}

}  // namespace ferrule::working
