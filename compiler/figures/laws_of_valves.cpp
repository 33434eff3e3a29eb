// Whatever oil passes: valves, filters, flow controls; ports; stores of oil behind gas.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "compiler/figures/laws.hpp"
#include "compiler/figures/ways.hpp"

namespace ferrule::working {
namespace {

namespace d = dimension;
using enum Parameter;

const Moment& at(const Asked& asked) { return asked.moment(); }
const Circuit& circuit_of(const Asked& asked) { return asked.book.circuit; }

// ---------------------------------------------------------------- valves: the way with the largest flow

struct Passing {
  const Element* element = nullptr;
  std::size_t in = 0, out = 1;      // its ends in the sense of the flow
  double flow = 0;                  // of all elements side by side with it
};

double side_by_side(const Asked& asked, const Element& with) {
  double sum = 0;
  for (std::uint32_t index : asked.book.elements_of(asked.subject.part)) {
    const Element& e = circuit_of(asked).elements.rows[index];
    if (e.ends.size() < 2 || with.ends.size() < 2) continue;
    if (e.ends[0] == with.ends[0] && e.ends[1] == with.ends[1]) sum += at(asked).given[index][1];
    else if (e.ends[0] == with.ends[1] && e.ends[1] == with.ends[0]) sum -= at(asked).given[index][1];
  }
  return sum;
}

Passing passing(const Asked& asked) {
  Passing best;
  for (std::uint32_t index : asked.book.elements_of(asked.subject.part)) {
    const Element& e = circuit_of(asked).elements.rows[index];
    if (e.ends.size() < 2 || !e.ends[0] || !e.ends[1] || !at(asked).reading.in_force(e) || e.kind == ElementKind::reservoir) continue;
    const double flow = side_by_side(asked, e);
    if (best.element && !(std::fabs(flow) > std::fabs(best.flow))) continue;
    best = {&e, flow < 0 ? 1u : 0u, flow < 0 ? 0u : 1u, std::fabs(flow)};
  }
  return best;
}

std::string end_name(const Asked& asked, NodeId node) {
  const Part& part = circuit_of(asked).parts[asked.subject.part];
  for (std::uint32_t p = part.first_port; p < part.first_port + part.port_count; ++p)
    if (circuit_of(asked).ports[PortId{p}].node == node) return circuit_of(asked).name_of(PortId{p});
  return part.tag + " inside";
}

void read_flow(const Asked& asked, Value& value) {
  const Passing way = passing(asked);
  if (!way.element) return void(value.why_none = asked.subject.where + " has no way open in this state");
  value.meaning = fmt::format("flow from {} to {}", end_name(asked, way.element->ends[way.in]), end_name(asked, way.element->ends[way.out]));
  read_solved(value, way.flow, "a passage without loss: how the flow is shared is not determined");
}

void read_before(const Asked& asked, Value& value) {
  const Passing way = passing(asked);
  if (!way.element) return void(value.why_none = asked.subject.where + " has no way open in this state");
  const NodeId node = way.element->ends[way.in];
  value.meaning = "pressure at " + end_name(asked, node);
  read_solved(value, at(asked).pressure(node), "the oil there is shut in without a load");
  if (auto to = way_to(at(asked), node, end_name(asked, node))) asked.worked.ways.push_back(std::move(*to));
}
void read_after(const Asked& asked, Value& value) {
  const Passing way = passing(asked);
  if (!way.element) return void(value.why_none = asked.subject.where + " has no way open in this state");
  const NodeId node = way.element->ends[way.out];
  value.meaning = "pressure at " + end_name(asked, node);
  read_solved(value, at(asked).pressure(node), "the oil there is shut in without a load");
  if (auto from = way_from(at(asked), node, end_name(asked, node))) asked.worked.ways.push_back(std::move(*from));
}

void read_heat(const Asked& asked, Value& value) {
  double sum = 0;
  for (std::uint32_t index : asked.book.elements_of(asked.subject.part)) sum += at(asked).heat[index];
  value.meaning = "heat, of all its ways";
  read_solved(value, sum, "a pressure around it has no value");
  value.origin = "sum of pressure drop times flow of its ways";
}

// One way carries all: its heat is drop times flow.
bool has_one_way(const Asked& asked) {
  std::size_t ways = 0;
  for (std::uint32_t index : asked.book.elements_of(asked.subject.part))
    if (circuit_of(asked).elements.rows[index].kind != ElementKind::passage && std::fabs(at(asked).given[index][1]) > 0) ++ways;
  return ways <= 1 && circuit_of(asked).elements.rows[asked.subject.element.index].ends.size() == 2;
}

void read_law(const Asked& asked, Value& value, Parameter id, double otherwise) {
  const Passing way = passing(asked);
  const auto si = at(asked).reading.value(*way.element, id);
  value.si = si.value_or(otherwise);
  const ParameterValue* stated = way.element->find(id);
  value.origin = !stated ? "default" : stated->origin == Origin::by_default ? "default of the definition" : "given";
}
void read_stated_drop(const Asked& asked, Value& value) { read_law(asked, value, drop, 0); }
void read_stated_flow(const Asked& asked, Value& value) { read_law(asked, value, drop_flow, 0); }
void read_cracking(const Asked& asked, Value& value) { read_law(asked, value, cracking, 0); }
void read_full(const Asked& asked, Value& value) { read_law(asked, value, full_flow, 0); }
void read_full_flow(const Asked& asked, Value& value) { read_law(asked, value, full_flow_flow, 0); }

// A law is shown where its formula gives the solved drop to the digits that are shown; else the pressures are subtracted.
bool agrees(const Asked& asked, double by_law) {
  const Passing way = passing(asked);
  const double solved = at(asked).pressure(way.element->ends[way.in]) - at(asked).pressure(way.element->ends[way.out]);
  return std::fabs(by_law - solved) < 5e-4 * std::fabs(solved);
}

bool is_square(const Asked& asked) {
  const Passing way = passing(asked);
  if (!way.element || way.element->kind != ElementKind::restriction || way.element->has("linear")) return false;
  const auto stated = at(asked).reading.value(*way.element, drop), flow = at(asked).reading.value(*way.element, drop_flow);
  return stated && flow && *flow > 0 && agrees(asked, *stated * std::pow(way.flow / *flow, 2));
}
bool is_straight(const Asked& asked) {
  const Passing way = passing(asked);
  if (!way.element || way.element->kind != ElementKind::restriction || !way.element->has("linear")) return false;
  const auto stated = at(asked).reading.value(*way.element, drop), flow = at(asked).reading.value(*way.element, drop_flow);
  return stated && flow && *flow > 0 && agrees(asked, *stated * way.flow / *flow);
}
bool is_relieving(const Asked& asked) {
  const Passing way = passing(asked);
  if (!way.element || way.element->kind != ElementKind::pressure_path || !(way.flow > 0)) return false;
  const auto opens = at(asked).reading.value(*way.element, cracking), full = at(asked).reading.value(*way.element, full_flow);
  const auto flow = at(asked).reading.value(*way.element, full_flow_flow);
  return opens && full && flow && *flow > 0 && agrees(asked, *opens + (*full - *opens) * way.flow / *flow);
}

// ---------------------------------------------------------------- ports

bool flows_through_nothing(const Asked& asked) {
  for (std::uint32_t index : asked.book.elements_of(asked.subject.part))
    if (circuit_of(asked).elements.rows[index].kind == ElementKind::passage) return false;
  return true;
}

void read_port_pressure(const Asked& asked, Value& value) {
  const Port& port = circuit_of(asked).ports[asked.subject.port];
  value.meaning = "pressure at " + asked.subject.where;
  if (at(asked).point.voided[port.node.index]) asked.worked.notes.push_back("less oil flows in than leaves: a void, the pressure is that of vapour");
  read_solved(value, at(asked).pressure(port.node), "the oil there is shut in without a load");
  auto way = way_to(at(asked), port.node, asked.subject.where);
  if (!way) way = way_from(at(asked), port.node, asked.subject.where);
  if (way) asked.worked.ways.push_back(std::move(*way));
}

void read_port_flow(const Asked& asked, Value& value) {
  const NodeId node = circuit_of(asked).ports[asked.subject.port].node;
  if (!flows_through_nothing(asked)) return void(value.why_none = "a passage without loss: how the flow is shared is not determined");
  double sum = 0;
  for (std::uint32_t index : asked.book.elements_of(asked.subject.part)) {
    const Element& e = circuit_of(asked).elements.rows[index];
    for (std::size_t end = 0; end < e.ends.size() && end < 3; ++end)
      if (e.ends[end] == node) sum += at(asked).given[index][end];
  }
  read_solved(value, std::fabs(sum), "how the flow is shared is left to friction");
  value.meaning = fmt::format("flow {} {}", sum < 0 ? "into" : "out of", asked.subject.where);
}

// ---------------------------------------------------------------- gas

struct Band {
  double high = 0, low = 0;
  std::string from;
};

// Between the set points of a switch at its line, else the highest and lowest pressure that the steps state.
std::optional<Band> band_of(const Asked& asked) {
  const Circuit& circuit = circuit_of(asked);
  for (const Part& part : circuit.parts) {
    const auto rising = part.si("rising"), falling = part.si("falling");
    if (rising && falling && *rising > *falling && part.port_count > 0 && circuit.ports[PortId{part.first_port}].node) return Band{*rising, *falling, part.tag};
  }
  Band band{0, 1e300, "steps"};
  for (const Step& step : circuit.work.steps)
    for (const Command& command : step.commands)
      if (command.part == asked.subject.part && command.amount && command.amount->dimension == d::pressure)
        band.high = std::max(band.high, command.amount->si), band.low = std::min(band.low, command.amount->si);
  return band.high > band.low ? std::optional(band) : std::nullopt;
}

void read_gas_pressure(const Asked& asked, Value& value) {
  read_solved(value, at(asked).pressure(asked.element().ends.front()), "the step does not state its gas pressure");
}
void read_volume(const Asked& asked, Value& value) { read_fact(asked, value, volume); }
void read_precharge(const Asked& asked, Value& value) { read_fact(asked, value, precharge); }
void read_exponent(const Asked& asked, Value& value) { read_fact(asked, value, polytropic, 1.4, "nitrogen, adiabatic"); }
void read_high(const Asked& asked, Value& value) {
  const auto band = band_of(asked);
  if (!band) return void(value.why_none = "no switch and no two steps say between which pressures it works");
  value.si = band->high, value.origin = "given by " + band->from;
}
void read_low(const Asked& asked, Value& value) {
  const auto band = band_of(asked);
  if (!band) return void(value.why_none = "no switch and no two steps say between which pressures it works");
  value.si = band->low, value.origin = "given by " + band->from;
}
void read_atmosphere(const Asked&, Value& value) { value.si = 101325, value.origin = "standard atmosphere, gauge to absolute"; }
void read_leakage(const Asked& asked, Value& value) {
  double sum = 0;
  for (const Part& part : circuit_of(asked).parts) sum += part.si("leakage").value_or(0);
  if (!(sum > 0)) return void(value.why_none = "no leakage is stated");
  value.si = sum, value.origin = "sum of the leakages stated";
}

constexpr std::string_view boyle = "Boyle and Mariotte; ideal gas, slow (isothermal)";

constexpr Law table[] = {
    {Kind::valve, "q", "flow", d::flow, "", "continuity: at every junction the flows sum to nil", read_flow},
    {Kind::valve, "p_1", "pressure before it", d::pressure, "", "", read_before},
    {Kind::valve, "p_2", "pressure after it", d::pressure, "", "", read_after},
    {Kind::valve, "dp_N", "drop stated", d::pressure, "", "", read_stated_drop},
    {Kind::valve, "q_N", "at a flow of", d::flow, "", "", read_stated_flow},
    {Kind::valve, "p_c", "cracking pressure", d::pressure, "", "", read_cracking},
    {Kind::valve, "p_f", "full-flow pressure", d::pressure, "", "", read_full},
    {Kind::valve, "q_f", "at a flow of", d::flow, "", "", read_full_flow},
    {Kind::valve, "dp", "pressure drop", d::pressure, "dp_N x (q / q_N)^2", "square law through the stated point (turbulent)", nullptr, is_square},
    {Kind::valve, "dp", "pressure drop", d::pressure, "dp_N x q / q_N", "straight line through the stated point (laminar)", nullptr, is_straight},
    {Kind::valve, "dp", "pressure drop", d::pressure, "p_c + (p_f - p_c) x q / q_f", "straight from cracking to full flow (common practice)", nullptr,
     is_relieving},
    {Kind::valve, "dp", "pressure drop", d::pressure, "p_1 - p_2", ""},
    {Kind::valve, "P_h", "heat", d::power, "dp x q", "every loss heats the oil", nullptr, has_one_way},
    {Kind::valve, "P_h", "heat", d::power, "", "every loss heats the oil", read_heat},

    {Kind::port, "p", "pressure", d::pressure, "", "", read_port_pressure},
    {Kind::port, "q", "flow", d::flow, "", "continuity: at every junction the flows sum to nil", read_port_flow},

    {Kind::store, "p", "gas pressure", d::pressure, "", "", read_gas_pressure},
    {Kind::store, "V_0", "gas volume without oil", d::volume, "", "", read_volume},
    {Kind::store, "p_0", "precharge", d::pressure, "", "", read_precharge},
    {Kind::store, "p_1", "highest pressure", d::pressure, "", "", read_high},
    {Kind::store, "p_2", "lowest pressure", d::pressure, "", "", read_low},
    {Kind::store, "p_at", "atmosphere", d::pressure, "", "", read_atmosphere},
    {Kind::store, "n", "exponent of a fast change", d::none, "", "", read_exponent},
    {Kind::store, "V_1", "gas volume when charged", d::volume, "V_0 x (p_0 + p_at) / (p_1 + p_at)", boyle},
    {Kind::store, "V_s", "oil given slowly", d::volume, "V_1 x ((p_1 + p_at) / (p_2 + p_at) - 1)", boyle},
    {Kind::store, "V_q", "oil given fast, after slow charging", d::volume, "V_1 x (((p_1 + p_at) / (p_2 + p_at))^(1 / n) - 1)",
     "ideal gas, fast (adiabatic)"},
    {Kind::store, "q_L", "leakage", d::flow, "", "", read_leakage},
    {Kind::store, "t", "time until the lowest pressure", d::time, "V_s / q_L", ""},
};

}  // namespace

std::span<const Law> laws_of_valves() { return table; }

}  // namespace ferrule::working
