// Pumps and what drives them: ISO 4391 (parameter definitions), efficiencies constant where no data are given.
#include <cmath>

#include <fmt/format.h>

#include "compiler/figures/laws.hpp"
#include "compiler/figures/ways.hpp"

namespace ferrule::working {
namespace {

namespace d = dimension;
using enum Parameter;

const Moment& at(const Asked& asked) { return asked.moment(); }

bool runs(const Asked& asked) { return at(asked).reading.running(asked.subject.part); }
// Below what displacement and speed give: its control has taken it back.
bool is_held_back(const Asked& asked) {
  const Element& pump = asked.element();
  const double theory = std::fabs(at(asked).reading.value(pump, displacement).value_or(0) * at(asked).reading.value(pump, speed).value_or(0) *
                                  at(asked).reading.value(pump, opening).value_or(1));
  const double full = theory * at(asked).reading.value(pump, volumetric).value_or(0.92);
  return std::fabs(at(asked).point.flow[asked.subject.element.index]) < full * (1 - 1e-6);
}
bool is_full(const Asked& asked) { return runs(asked) && !is_held_back(asked); }
bool has_stroke(const Asked& asked) { return at(asked).reading.value(asked.element(), opening).value_or(1) != 1; }
bool is_full_at_part_stroke(const Asked& asked) { return is_full(asked) && has_stroke(asked); }
bool stands(const Asked& asked) { return !runs(asked); }

void read_nil_standing(const Asked&, Value& value) {
  value.si = 0;
  value.origin = "its drive stands still in this state";
}

void read_delivery(const Asked& asked, Value& value) {
  read_solved(value, std::fabs(at(asked).point.flow[asked.subject.element.index]), "it has no flow of its own");
  value.meaning = "delivery, as much as its control leaves it";
}

void read_outlet(const Asked& asked, Value& value) {
  const NodeId node = outlet_of(at(asked), asked.subject.element);
  if (!node) return void(value.why_none = "it has no outlet");
  read_solved(value, at(asked).pressure(node), "the oil there is shut in without a load");
  for (Way& way : ways_from(at(asked), asked.subject.element)) asked.worked.ways.push_back(std::move(way));
}
void read_inlet(const Asked& asked, Value& value) {
  const NodeId node = inlet_of(at(asked), asked.subject.element);
  if (!node) {
    value.si = 0;
    value.origin = "draws from the open";
    return;
  }
  read_solved(value, at(asked).pressure(node), "the oil there is shut in without a load");
}

void read_displacement(const Asked& asked, Value& value) { read_fact(asked, value, displacement); }
void read_speed(const Asked& asked, Value& value) { read_fact(asked, value, speed, 151.84364492350666, "four-pole motor, 1450 r/min"); }
void read_stroke(const Asked& asked, Value& value) { read_fact(asked, value, opening, 1, "full stroke"); }
void read_volumetric(const Asked& asked, Value& value) { read_fact(asked, value, volumetric, 0.92, "textbook value"); }
void read_mechanical(const Asked& asked, Value& value) { read_fact(asked, value, mechanical, 0.9, "textbook value"); }

// The pumps that a drive turns.
void read_driven(const Asked& asked, Value& value) {
  double sum = 0;
  value.origin = "sum of its pumps:";
  const Circuit& circuit = asked.book.circuit;
  for (std::uint32_t i = 0; i < circuit.elements.size(); ++i) {
    const Element& element = circuit.elements.rows[i];
    if (!is_pump(at(asked), element) || drive_of(circuit, element.part) != asked.subject.part) continue;
    const double power = shaft_power(at(asked), ElementId{i});
    value.origin += fmt::format(" {} {}", circuit.parts[element.part].tag, shown(Quantity{power, d::power}));
    sum += power;
  }
  read_solved(value, sum, "a pressure at its pumps has no value");
}

constexpr std::string_view iso4391 = "ISO 4391";

constexpr Law table[] = {
    {Kind::pump, "D", "displacement", d::displacement, "", "", read_displacement},
    {Kind::pump, "n", "speed", d::rotation, "", "", read_nil_standing, stands},
    {Kind::pump, "n", "speed", d::rotation, "", "", read_speed},
    {Kind::pump, "s", "share of its stroke", d::none, "", "", read_stroke},
    {Kind::pump, "eta_v", "volumetric efficiency", d::none, "", "", read_volumetric},
    {Kind::pump, "eta_hm", "hydro-mechanical efficiency", d::none, "", "", read_mechanical},
    {Kind::pump, "q", "delivery", d::flow, "", "", read_nil_standing, stands},
    {Kind::pump, "q", "delivery", d::flow, "D x n x s x eta_v", iso4391, nullptr, is_full_at_part_stroke},
    {Kind::pump, "q", "delivery", d::flow, "D x n x eta_v", iso4391, nullptr, is_full},
    {Kind::pump, "q", "delivery", d::flow, "", "law of its control", read_delivery},
    {Kind::pump, "p_out", "pressure at its outlet", d::pressure, "", "", read_outlet},
    {Kind::pump, "p_in", "pressure at its inlet", d::pressure, "", "", read_inlet},
    {Kind::pump, "dp", "pressure it adds", d::pressure, "p_out - p_in", ""},
    {Kind::pump, "P_hyd", "power it gives to the oil", d::power, "dp x q", iso4391},
    {Kind::pump, "P", "power at its shaft", d::power, "dp x q / (eta_v x eta_hm)", iso4391},
    {Kind::pump, "T", "torque at its shaft", d::torque, "P / (2 x pi x n)", "power = torque x angular speed"},
    {Kind::pump, "eta", "efficiency", d::none, "P_hyd / P", iso4391},
    {Kind::pump, "P_h", "heat", d::power, "P - P_hyd", "what does not leave as power of the oil heats it"},
    {Kind::drive, "P", "power at its shaft", d::power, "", "", read_driven},
};

}  // namespace

std::span<const Law> laws_of_pumps() { return table; }

}  // namespace ferrule::working
