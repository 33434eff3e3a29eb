#include "compiler/hydraulics/laws_of.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "compiler/hydraulics/bodies.hpp"
#include "compiler/hydraulics/units.hpp"

namespace ferrule::hydraulics {
namespace {

using enum Parameter;

double in_bar(double pascal) { return pascal / bar; }
double in_litres(double si) { return si / litre_a_minute; }

// What is assumed is told unless `shown_as` is empty.
// The drop of a path at a flow; a check's own cracking is taken off it, being stated in total.
Resistance stated_drop(Reading& reading, const Element& element, double scale_flow, double otherwise, std::string_view shown_as,
                       double less = 0) {
  const auto drop_at = reading.value(element, drop), at = reading.value(element, drop_flow);
  if (!drop_at && !shown_as.empty()) reading.assume(element, "drop " + std::string(shown_as));
  const double bars = std::max(drop_at ? in_bar(*drop_at) - less : otherwise, 1e-4);
  const double flow = at && *at > 0 ? in_litres(*at) : scale_flow;
  return element.has("linear") ? straight_through(bars, flow) : square_through(bars, flow);
}

}  // namespace

double theoretical_flow(Reading& reading, const Element& element) {
  // Four-pole motor at 50 Hz where no speed is stated (assumptions table, common practice).
  const double turns = reading.value_or(element, speed, 1450 * 2 * std::numbers::pi / 60, "1450 r/min");
  const double share = reading.value(element, opening).value_or(1);
  return in_litres(reading.value(element, displacement).value_or(0) * turns) * share;
}

double pump_flow(Reading& reading) {
  double sum = 0;
  for (const Element& element : reading.circuit.elements)
    if (element.kind == ElementKind::displacement && is_pump(reading, element))
      sum += std::fabs(theoretical_flow(reading, element));
  return sum > 0 ? sum : 20;
}

Loss loss_of(Reading& reading, const Element& element, double scale_flow) {
  Loss law;
  if (const auto wide = reading.value(element, diameter)) {
    const double cd = reading.value_or(element, coefficient, 0.62, "0.62");
    law.resistance = orifice(*wide, cd, reading.oil_of(element).density, reading.oil_of(element).kinematic_viscosity);
  } else {
    law.resistance = stated_drop(reading, element, scale_flow, 5, "5 bar at pump flow");
  }
  const double open = std::clamp(reading.value(element, opening).value_or(1), 1e-3, 1.0);
  law.resistance.square /= open * open;
  law.resistance.linear /= open;
  return law;
}

Pipe pipe_of(Reading& reading, const Element& element) {
  const double d = reading.value_or(element, bore, 0.012, "12 mm");
  const double area = std::numbers::pi / 4 * d * d, rho = reading.oil_of(element).density;
  Pipe law;
  law.velocity = litre_a_minute / area;
  law.reynolds = law.velocity * d / reading.oil_of(element).kinematic_viscosity;
  law.head = rho / 2 * law.velocity * law.velocity / bar;
  law.slenderness = reading.value(element, length).value_or(0) / d;
  law.losses = reading.value(element, losses).value_or(0);
  law.relative_roughness = reading.value(element, roughness).value_or(1.5e-6) / d;
  law.lift = rho * 9.80665 * reading.value(element, rise).value_or(0) / bar;
  return law;
}

OneWay one_way_of(Reading& reading, const Element& element, double scale_flow) {
  const double opens = in_bar(reading.value_or(element, cracking, 0.5e5, "0.5 bar"));
  return {opens, stated_drop(reading, element, scale_flow, 0.5, "0.5 bar at pump flow", opens)};
}

// Cracking and a point at full flow as stated; with a setting alone the setting is the reading at the pumps' full flow
// and cracking lies below it by the override share: 25 % direct, 10 % pilot operated (assumptions table).
PressurePath relief_of(Reading& reading, const Element& element, double scale_flow) {
  PressurePath law;
  const auto set = reading.value(element, setting), opens = reading.value(element, cracking);
  const auto full = reading.value(element, full_flow), full_at = reading.value(element, full_flow_flow);
  const auto wide_at = reading.value(element, drop_flow);  // fully open by a remote pilot: its rated flow
  const double at = full_at && *full_at > 0 ? in_litres(*full_at) : wide_at && *wide_at > 0 ? in_litres(*wide_at) : scale_flow;
  const double top = full ? in_bar(*full) : set ? in_bar(*set) : opens ? in_bar(*opens) : 0;
  if (opens && (full || set)) {
    law.cracking = in_bar(*opens);
  } else if (opens) {
    law.cracking = top;  // an opening pressure alone: no rise is known
  } else {
    const bool two_stage = element.has("two-stage");
    const double share = reading.value_or(element, override_share, two_stage ? 0.10 : 0.25, two_stage ? "10 %" : "25 %");
    law.cracking = top * (1 - share);
  }
  law.slope = std::max((top - law.cracking) / at, 1e-4);
  law.open = stated_drop(reading, element, at, std::max(std::min(5.0, law.cracking / 2), 1e-3), "");  // seldom reached
  return law;
}

PressurePath reducing_of(Reading& reading, const Element& element, double scale_flow) {
  PressurePath law;
  law.cracking = -in_bar(reading.value(element, setting).value_or(0));
  law.slope = 1e-4;  // a reducing valve's droop is not stated: nearly none
  law.open = stated_drop(reading, element, scale_flow, 5, "5 bar at pump flow");
  return law;
}

PilotedOneWay piloted_of(Reading& reading, const Element& element, double scale_flow) {
  PilotedOneWay law;
  law.cracking = in_bar(reading.value_or(element, cracking, 0.5e5, "0.5 bar"));
  law.open = stated_drop(reading, element, scale_flow, 0.5, "0.5 bar at pump flow", law.cracking);
  law.closing = element.has("closing");
  return law;
}

std::optional<RegulatedFlow> regulated_of(Reading& reading, const Element& element) {
  const double keeps = in_litres(reading.value(element, flow).value_or(0)) * reading.value(element, opening).value_or(1);
  if (!(keeps > 1e-9)) return std::nullopt;
  return RegulatedFlow{keeps, in_bar(reading.value_or(element, least_drop, 8e5, "8 bar"))};
}

Pump pump_of(Reading& reading, const Element& element) {
  Pump law;
  const double theory = std::fabs(theoretical_flow(reading, element));
  const double eta = reading.value_or(element, volumetric, 0.92, "92 %");
  law.full = theory * eta;
  law.leakage = theory * (1 - eta);
  law.ceiling = beyond_all_ratings;
  law.droop = 1e-4;
  const auto zero = reading.value(element, zero_pressure), from = reading.value(element, full_stroke_pressure);
  if (zero) {
    law.ceiling = in_bar(*zero);
    if (from) law.droop = std::max((law.ceiling - in_bar(*from)) / law.full, 1e-4);
  }
  if (const auto limit = reading.value(element, cut_off)) law.ceiling = std::min(law.ceiling, in_bar(*limit));
  const auto over = reading.value(element, margin);
  law.load_sensing = over && !element.senses.empty();
  law.margin = in_bar(over.value_or(0));
  if (const auto most = reading.value(element, power))
    law.power = *most * reading.value_or(element, mechanical, 0.9, "90 %") * eta / bar / litre_a_minute;
  return law;
}

}  // namespace ferrule::hydraulics
