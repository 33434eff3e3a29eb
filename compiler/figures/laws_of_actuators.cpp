// Cylinders and motors: force is pressure times area, friction against the motion; torque is pressure times displacement.
// What an actuator can bring up is asked with its load made so great that it stands.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "compiler/figures/laws.hpp"
#include "compiler/figures/ways.hpp"
#include "compiler/hydraulics/motions.hpp"
#include "compiler/hydraulics/units.hpp"

namespace ferrule::working {
namespace {

namespace d = dimension;
using enum Parameter;

const Moment& at(const Asked& asked) { return asked.moment(); }
const hydraulics::MovingBody& body_of(const Asked& asked) { return *asked.subject.body; }
const Motion* motion_of(const Asked& asked) { return stated_motion(at(asked).state, body_of(asked)); }
double speed_of(const Asked& asked) { return at(asked).point.speed[asked.subject.element.index]; }

// The step means it to move; without steps every actuator of a work state may.
bool should_move(const Asked& asked) {
  const State& state = at(asked).state;
  if (const Motion* motion = motion_of(asked)) return motion->moves();
  return state.motions.empty() && (state.state_class == StateClass::work || state.state_class == StateClass::late);
}

NodeId end_of(const Asked& asked, std::size_t end) {
  const Element& element = asked.element();
  return end < element.ends.size() ? element.ends[end] : NodeId{};
}

double pressure_at(const OperatingPoint& point, NodeId node) { return node ? point.pressure[node.index] : 0; }

bool is_outward(const Asked& asked);

bool has_its_pressures(const OperatingPoint& point, const hydraulics::MovingBody& body) {
  return std::none_of(body.chambers.begin(), body.chambers.end(), [&](NodeId node) { return std::isnan(point.pressure[node.index]); });
}

bool presses(const Asked& asked) { return motion_of(asked) && motion_of(asked)->kind == Motion::Kind::presses; }

// Where it moves or presses: as it stands under a load too great. Oil behind a check valve is shut in then; what it had at
// the last creep before is taken.
const OperatingPoint& point_of_force(const Asked& asked) {
  const bool moves = should_move(asked);
  const OperatingPoint& still = moves ? asked.book.held(asked.state, body_of(asked)) : at(asked).point;
  if (!still.settled || has_its_pressures(still, body_of(asked)) || !(moves || presses(asked))) return still;
  return asked.book.hardly_moving(asked.state, body_of(asked), is_outward(asked));
}

double area_of(const Asked& asked, std::size_t end) {
  const Element& piston = asked.element();
  const double wide = at(asked).reading.value(piston, bore).value_or(0), rod_d = at(asked).reading.value(piston, rod).value_or(0);
  const double full = std::numbers::pi / 4 * wide * wide, annulus = full - std::numbers::pi / 4 * rod_d * rod_d;
  return end == 0 && !piston.has("through-rod") ? full : annulus;
}

// Which way it goes, or would go: out or A to B.
bool is_outward(const Asked& asked) {
  const Motion* motion = motion_of(asked);
  if (motion && motion->moves()) return motion->is_outward();
  const double speed = speed_of(asked);
  if (!std::isnan(speed) && !stands_still(body_of(asked), speed)) return speed > 0;
  const double p_a = pressure_at(at(asked).point, end_of(asked, 0)), p_b = pressure_at(at(asked).point, end_of(asked, 1));
  if (asked.subject.kind == Kind::motor) return !(p_a < p_b);
  return !(p_a * area_of(asked, 0) < p_b * area_of(asked, 1));
}

bool is_inward(const Asked& asked) { return !is_outward(asked); }
bool is_through_rod(const Asked& asked) { return asked.element().has("through-rod"); }
bool has_rod_side(const Asked& asked) {
  const NodeId node = end_of(asked, 1);
  return node && !asked.book.circuit.nodes[node].inner_of;
}
bool is_many(const Asked& asked) { return body_of(asked).elements.size() > 1; }
bool loses_share(const Asked& asked) { return body_of(asked).efficiency != 1; }
bool out_by_friction(const Asked& asked) { return is_outward(asked) && !loses_share(asked); }
bool in_by_friction(const Asked& asked) { return is_inward(asked) && !loses_share(asked); }
bool in_at_rod_side(const Asked& asked) { return is_inward(asked) && has_rod_side(asked); }

// "1A1.A"
std::string end_name(const Asked& asked, std::size_t end) {
  const Part& part = asked.book.circuit.parts[asked.subject.part];
  for (std::uint32_t p = part.first_port; p < part.first_port + part.port_count; ++p)
    if (asked.book.circuit.ports[PortId{p}].node == end_of(asked, end)) return asked.book.circuit.name_of(PortId{p});
  return part.tag + (end == 0 ? " (head side)" : " (rod side)");
}

// ---------------------------------------------------------------- readers

void read_pressure(const Asked& asked, Value& value, const OperatingPoint& point, std::size_t end) {
  value.meaning = "pressure at " + end_name(asked, end) + (&point == &at(asked).point ? "" : ", under the greatest load it can bring up");
  if (!point.settled) return void(value.why_none = "the state does not settle");
  read_solved(value, pressure_at(point, end_of(asked, end)), "the oil at " + end_name(asked, end) + " is shut in without a load");
}
void read_held_a(const Asked& asked, Value& value) { read_pressure(asked, value, point_of_force(asked), 0); }
void read_held_b(const Asked& asked, Value& value) { read_pressure(asked, value, point_of_force(asked), 1); }

void add_ways(const Asked& asked) {
  for (std::size_t end : {0u, 1u}) {
    const NodeId node = end_of(asked, end);
    if (!node) continue;
    if (auto way = way_to(at(asked), node, end_name(asked, end))) asked.worked.ways.push_back(std::move(*way));
    else if (auto back = way_from(at(asked), node, end_name(asked, end))) asked.worked.ways.push_back(std::move(*back));
  }
}
void read_now_a(const Asked& asked, Value& value) {
  read_pressure(asked, value, at(asked).point, 0);
  add_ways(asked);
}
void read_now_b(const Asked& asked, Value& value) { read_pressure(asked, value, at(asked).point, 1); }

void read_bore(const Asked& asked, Value& value) { read_fact(asked, value, bore); }
void read_rod(const Asked& asked, Value& value) { read_fact(asked, value, rod, 0, "no rod"); }
void read_friction(const Asked& asked, Value& value) {
  read_fact(asked, value, friction, 0, "none stated");
  if (!should_move(asked)) value.meaning = "friction, taken off as the unfavourable side";
}
void read_efficiency(const Asked& asked, Value& value) {
  value.si = body_of(asked).efficiency;
  value.origin = asked.element().find(efficiency) || asked.element().find(mechanical) ? "given" : "default (assumed where neither friction nor efficiency is stated)";
}
void read_mechanical(const Asked& asked, Value& value) { read_fact(asked, value, mechanical, 0.9, "textbook value"); }
void read_volumetric(const Asked& asked, Value& value) { read_fact(asked, value, volumetric, 0.9, "textbook value"); }
void read_displacement(const Asked& asked, Value& value) { read_fact(asked, value, displacement); }

void read_end_flow(const Asked& asked, Value& value, std::size_t end) {
  const double flow = at(asked).given[asked.subject.element.index][end];
  value.meaning = fmt::format("flow {} {}", flow < 0 ? "into" : "out of", end_name(asked, end));
  read_solved(value, std::fabs(flow), "which of several actuators takes the flow is left to friction");
  if (end == 0 || is_inward(asked)) add_ways(asked);
}
void read_flow_a(const Asked& asked, Value& value) { read_end_flow(asked, value, 0); }
void read_flow_b(const Asked& asked, Value& value) { read_end_flow(asked, value, 1); }

bool does_not_move(const Asked& asked) {
  const double speed = speed_of(asked);
  return std::isnan(speed) || stands_still(body_of(asked), speed);
}
void read_no_speed(const Asked& asked, Value& value) {
  const double speed = speed_of(asked);
  if (std::isnan(speed)) return void(value.why_none = "which of several actuators moves first is left to friction");
  if (!should_move(asked)) return void(value.why_none = asked.subject.where + " does not move in this state");
  value.si = 0;
  value.origin = "stalled: its load and friction are greater than what the pressure brings up";
}

void read_load(const Asked& asked, Value& value) {
  const auto law = hydraulics::motion_of(at(asked).state, body_of(asked));
  if (!law) return void(value.why_none = asked.subject.where + " stands: it presses against what stops it");
  const double outward = is_outward(asked) ? law->load_out : -law->load_in;
  value.si = outward * body_of(asked).reference * hydraulics::bar;
  const Motion* motion = motion_of(asked);
  value.origin = motion && motion->load.force ? "given for the step" : "given for the actuator, nil where nothing is said";
  if (body_of(asked).spring_extended != 0 || body_of(asked).spring_retracted != 0) value.origin += "; its spring included";
  if (*value.si < 0) value.meaning = "load, helping the motion";
}

// Several pistons on one load: the sum of all.
void read_force_of_all(const Asked& asked, Value& value) {
  const OperatingPoint& point = point_of_force(asked);
  if (!point.settled) return void(value.why_none = "the state does not settle");
  const auto& body = body_of(asked);
  double sum = 0;
  for (std::size_t i = 0; i < body.chambers.size(); ++i)
    sum += body.area[i] == 0 ? 0 : body.area[i] * body.reference * point.pressure[body.chambers[i].index];
  const double net = is_outward(asked) ? sum : -sum;
  read_solved(value, body.efficiency * net - body.friction, "oil at one of its pistons is shut in without a load");
  value.origin = fmt::format("sum of pressure times area of its {} pistons, less friction", body.elements.size());
}

void read_travel(const Asked& asked, Value& value) {
  const Motion* motion = motion_of(asked);
  if (motion && motion->travel) {
    value.si = motion->travel->si;
    value.origin = "given for the step";
  } else if (asked.subject.kind == Kind::cylinder && asked.element().find(stroke)) {
    read_fact(asked, value, stroke);
    value.meaning = "travel, its whole stroke";
  } else {
    value.why_none = "no travel is stated for " + asked.subject.where;
  }
}

bool has_stated_time(const Asked& asked) {
  const Motion* motion = motion_of(asked);
  if (motion && motion->lasts) return true;
  return !should_move(asked) && at(asked).state.step && asked.book.circuit.work.steps[at(asked).state.step].lasts;
}
void read_stated_time(const Asked& asked, Value& value) {
  const Motion* motion = motion_of(asked);
  value.si = motion && motion->lasts ? motion->lasts->si : asked.book.circuit.work.steps[at(asked).state.step].lasts->si;
  value.origin = "given for the step";
}
bool is_stalled(const Asked& asked) { return does_not_move(asked); }
void read_no_time(const Asked& asked, Value& value) {
  value.why_none = should_move(asked) ? asked.subject.where + " does not move" : asked.subject.where + " does not move in this state, and the step states no time";
}

void read_heat(const Asked& asked, Value& value) {
  double sum = 0;
  for (std::uint32_t index : asked.book.elements_of(asked.subject.part)) sum += at(asked).heat[index];
  read_solved(value, sum, "a pressure around it has no value");
  value.origin = "pressure times flow taken, less the power given to the load";
}

constexpr std::string_view pascal = "Pascal's law; ISO 4391";

constexpr Law table[] = {
    {Kind::cylinder, "d", "bore", d::length, "", "", read_bore},
    {Kind::cylinder, "d_r", "rod", d::length, "", "", read_rod},
    {Kind::cylinder, "A_A", "area at the head, less the rod", d::area, "pi / 4 x (d^2 - d_r^2)", "", nullptr, is_through_rod},
    {Kind::cylinder, "A_A", "piston area", d::area, "pi / 4 x d^2", ""},
    {Kind::cylinder, "A_B", "annulus area", d::area, "pi / 4 x (d^2 - d_r^2)", ""},
    {Kind::cylinder, "p_A", "pressure at the head", d::pressure, "", "", read_held_a},
    {Kind::cylinder, "p_B", "pressure at the rod end", d::pressure, "", "", read_held_b},
    {Kind::cylinder, "eta", "force efficiency", d::none, "", "", read_efficiency},
    {Kind::cylinder, "F_f", "friction", d::force, "", "", read_friction},
    {Kind::cylinder, "F", "force of all pistons", d::force, "", pascal, read_force_of_all, is_many},
    {Kind::cylinder, "F", "force outward", d::force, "p_A x A_A - p_B x A_B - F_f", pascal, nullptr, out_by_friction},
    {Kind::cylinder, "F", "force inward", d::force, "p_B x A_B - p_A x A_A - F_f", pascal, nullptr, in_by_friction},
    {Kind::cylinder, "F", "force outward", d::force, "eta x (p_A x A_A - p_B x A_B)", pascal, nullptr, is_outward},
    {Kind::cylinder, "F", "force inward", d::force, "eta x (p_B x A_B - p_A x A_A)", pascal},
    {Kind::cylinder, "F_L", "load", d::force, "", "", read_load},
    {Kind::cylinder, "M", "margin, force left over the load", d::force, "F - F_L", ""},
    {Kind::cylinder, "q_A", "flow at the head", d::flow, "", "continuity: at every junction the flows sum to nil", read_flow_a},
    {Kind::cylinder, "q_B", "flow at the rod end", d::flow, "", "continuity: at every junction the flows sum to nil", read_flow_b},
    {Kind::cylinder, "v", "speed", d::speed, "", "", read_no_speed, does_not_move},
    {Kind::cylinder, "v", "speed, out", d::speed, "q_A / A_A", "continuity", nullptr, is_outward},
    {Kind::cylinder, "v", "speed, in", d::speed, "- q_B / A_B", "continuity", nullptr, in_at_rod_side},
    {Kind::cylinder, "v", "speed, in", d::speed, "- q_A / A_A", "continuity"},
    {Kind::cylinder, "s", "travel", d::length, "", "", read_travel},
    {Kind::cylinder, "t", "time", d::time, "", "", read_stated_time, has_stated_time},
    {Kind::cylinder, "t", "time", d::time, "", "", read_no_time, is_stalled},
    {Kind::cylinder, "t", "time", d::time, "s / abs(v)", ""},
    {Kind::cylinder, "V", "volume taken", d::volume, "A_B x s", "", nullptr, in_at_rod_side},
    {Kind::cylinder, "V", "volume taken", d::volume, "A_A x s", ""},
    {Kind::cylinder, "P", "power given to the load", d::power, "F_L x abs(v)", "power = force x speed"},
    {Kind::cylinder, "P_h", "heat", d::power, "", "", read_heat},
    {Kind::cylinder, "p_1", "pressure at the head", d::pressure, "", "", read_now_a},
    {Kind::cylinder, "p_2", "pressure at the rod end", d::pressure, "", "", read_now_b},
    {Kind::cylinder, "dp", "pressure difference over the piston", d::pressure, "p_1 - p_2", ""},

    {Kind::motor, "D", "displacement", d::displacement, "", "", read_displacement},
    {Kind::motor, "eta_v", "volumetric efficiency", d::none, "", "", read_volumetric},
    {Kind::motor, "eta_hm", "hydro-mechanical efficiency", d::none, "", "", read_mechanical},
    {Kind::motor, "p_A", "pressure at A", d::pressure, "", "", read_held_a},
    {Kind::motor, "p_B", "pressure at B", d::pressure, "", "", read_held_b},
    {Kind::motor, "T", "torque", d::torque, "(p_A - p_B) x D x eta_hm / (2 x pi)", "ISO 4391", nullptr, is_outward},
    {Kind::motor, "T", "torque", d::torque, "(p_B - p_A) x D x eta_hm / (2 x pi)", "ISO 4391"},
    {Kind::motor, "T_L", "load", d::torque, "", "", read_load},
    {Kind::motor, "M", "margin, torque left over the load", d::torque, "T - T_L", ""},
    {Kind::motor, "q_A", "flow at A", d::flow, "", "continuity: at every junction the flows sum to nil", read_flow_a},
    {Kind::motor, "q_B", "flow at B", d::flow, "", "continuity: at every junction the flows sum to nil", read_flow_b},
    {Kind::motor, "n", "speed", d::rotation, "", "", read_no_speed, does_not_move},
    {Kind::motor, "n", "speed, A to B", d::rotation, "q_A x eta_v / D", "ISO 4391", nullptr, is_outward},
    {Kind::motor, "n", "speed, B to A", d::rotation, "- q_B x eta_v / D", "ISO 4391"},
    {Kind::motor, "s", "travel", d::angle, "", "", read_travel},
    {Kind::motor, "t", "time", d::time, "", "", read_stated_time, has_stated_time},
    {Kind::motor, "t", "time", d::time, "", "", read_no_time, is_stalled},
    {Kind::motor, "t", "time", d::time, "s / abs(n)", ""},
    {Kind::motor, "V", "volume taken", d::volume, "D x s / eta_v", ""},
    {Kind::motor, "P", "power given to the load", d::power, "2 x pi x abs(n) x T_L", "power = torque x angular speed"},
    {Kind::motor, "P_h", "heat", d::power, "", "", read_heat},
    {Kind::motor, "p_1", "pressure at A", d::pressure, "", "", read_now_a},
    {Kind::motor, "p_2", "pressure at B", d::pressure, "", "", read_now_b},
    {Kind::motor, "dp", "pressure difference over it", d::pressure, "p_1 - p_2", ""},
};

}  // namespace

std::span<const Law> laws_of_actuators() { return table; }

}  // namespace ferrule::working
