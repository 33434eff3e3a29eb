// Pumps by the flow that moves the actuators, q = D n eta_v (ISO 4391); drives by the greatest shaft power of all states.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "checks/machinery/evidence.hpp"
#include "checks/sizing/choice.hpp"
#include "checks/sizing/demand.hpp"

namespace ferrule::sizing {
namespace {

namespace d = dimension;
using working::Kind;
using working::Subject;

// What of a state's delivery does not move anything: it goes over valves that limit the pressure.
double over_limits(const Basis& basis, std::size_t state) {
  double sum = 0;
  const Circuit& circuit = basis.circuit();
  for (const Element& element : circuit.elements)
    if (element.kind == ElementKind::pressure_path && has_role(circuit, element.part, "limits"))
      sum += std::max(0.0, basis.book.point(state).flow[circuit.elements.id_of(element).index]);
  return sum;
}

double delivered(const Basis& basis, std::size_t state) {
  double sum = 0;
  for (const Subject& subject : basis.book.subjects())
    if (subject.kind == Kind::pump) sum += basis.book.result(subject, "flow", state).result().si.value_or(0);
  return sum;
}

struct Demand {
  std::size_t state = 0;
  double flow = 0, spilt = 0, all = 0;
  Pace pace;
  // Of what all pumps deliver, the share that does not go over the limits, at the pace wanted.
  double needed() const { return all > 0 ? flow * (1 - std::min(spilt, all) / all) * pace.factor : 0; }
};

std::optional<Demand> hardest(const Basis& basis, const Subject& pump) {
  std::optional<Demand> most;
  for (std::size_t state : basis.book.told()) {
    const auto pace = pace_of(basis, state);
    if (!pace) continue;
    const auto flow = basis.book.result(pump, "flow", state).result().si;
    if (!flow || !(*flow > 0)) continue;
    const Demand one{state, *flow, over_limits(basis, state), delivered(basis, state), *pace};
    if (!most || one.needed() > most->needed()) most = one;
  }
  return most;
}

Proposal pump_size(const Basis& basis, const Subject& pump, const Part& part) {
  Working working(part.tag + " displacement");
  const auto demand = hardest(basis, pump);
  if (!demand) return nothing_for(working, "in no state does something move by its oil");
  const working::Worked now = basis.book.result(pump, "flow", demand->state);
  const auto number = [&](std::string_view symbol, double otherwise) {
    for (const working::Value& value : basis.book.result(pump, "power", demand->state).values)
      if (value.symbol == symbol && value.si) return *value.si;
    return otherwise;
  };
  working.given("q_1", "delivery now", {demand->flow, d::flow}, found_in(basis, demand->state))
      .given("q_p", "delivery of all pumps", {demand->all, d::flow}, found_in(basis, demand->state))
      .given("q_r", "of it over valves that limit the pressure", {demand->spilt, d::flow}, found_in(basis, demand->state))
      .given("k", "speed wanted over speed now", {demand->pace.factor, d::none}, demand->pace.why)
      .law("q_w", "flow needed", d::flow, "k x q_1 x (1 - min(q_r, q_p) / q_p)", "speed follows flow: v = q / A")
      .given("n", "speed", {number("n", 151.84), d::rotation}, "of its drive")
      .given("eta_v", "volumetric efficiency", {number("eta_v", 0.92), d::none}, part.has("volumetric") ? "given" : "default of the definition")
      .law("D_w", "displacement needed", d::displacement, "q_w / (n x eta_v)", "ISO 4391");
  return chosen_from(basis, part, working, working["D_w"], series("displacement"));
}

Proposal drive_size(const Basis& basis, const Subject& drive, const Part& part) {
  Working working(part.tag + " power");
  double most = 0;
  std::size_t where = 0;
  for (std::size_t state : basis.book.told())
    if (const auto power = basis.book.result(drive, "power", state).result().si; power && *power > most) most = *power, where = state;
  if (!(most > 0)) return nothing_for(working, "no pump takes power from it");
  working.given("P_w", "greatest power that its pumps take", {most, d::power}, found_in(basis, where));
  if (const working::CycleTotal& cycle = basis.book.cycle(); cycle.time)
    working.note(fmt::format("the mean over the cycle is {}; whether a smaller drive may be overloaded in a short step, its maker says", shown(Quantity{cycle.shaft, d::power})));
  return chosen_from(basis, part, working, most, series("drive"));
}

template <typename Size>
std::vector<Proposal> sizes_of(const Basis& basis, Kind kind, std::string_view fact, Size size) {
  std::vector<Proposal> proposals;
  for (const Subject& subject : basis.book.subjects()) {
    if (subject.kind != kind || !subject.part) continue;
    const Part& part = basis.circuit().parts[subject.part];
    if (is_stated_in(basis.compilation, part, basis.path) && part.definition->fact(fact)) proposals.push_back(size(basis, subject, part));
  }
  return proposals;
}

}  // namespace

std::vector<Proposal> pump_sizes(const Basis& basis) { return sizes_of(basis, Kind::pump, "displacement", pump_size); }
std::vector<Proposal> drive_sizes(const Basis& basis) { return sizes_of(basis, Kind::drive, "power", drive_size); }

}  // namespace ferrule::sizing
