#include "compiler/hydraulics/bodies.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace ferrule::hydraulics {
namespace {

using Sense = Load::Sense;

Sense sense_of(std::string_view word) {
  if (word.find("pushing") != word.npos) return Sense::pushing_in;
  if (word.find("pulling") != word.npos) return Sense::pulling_out;
  if (word.find("A>B") != word.npos) return Sense::turning_ab;
  if (word.find("B>A") != word.npos) return Sense::turning_ba;
  return Sense::against;
}

// Weight along the rod: with the rod up it pushes in, with the rod down it pulls out.
Resistances weight_of(const Part& part, std::optional<double> mass) {
  const FactValue* upright = part.fact("vertical");
  const FactValue* inclined = part.fact("inclined");
  if (!mass || (!upright && !inclined)) return {};
  const double share = upright ? 1 : std::sin(inclined->numbers.empty() ? 0 : inclined->numbers.front().si);
  const std::string& stands = upright ? upright->word : inclined->word;
  return resisting(*mass * 9.80665 * share, stands == "rod down" ? Sense::pulling_out : Sense::pushing_in);
}

const FactValue* named(const std::vector<FactValue>& facts, std::string_view name) {
  for (const FactValue& fact : facts)
    if (fact.name == name && !fact.numbers.empty()) return &fact;
  return nullptr;
}

// Load and mass as stated of a part, or of a tie (whose parts tell how they stand).
Resistances stated_load(const Part& part, const std::vector<FactValue>& facts) {
  const FactValue* mass = named(facts, "mass");
  Resistances sum = weight_of(part, mass ? std::optional(mass->numbers.front().si) : std::nullopt);
  const FactValue* load = named(facts, "load");
  if (load) sum += resisting(load->numbers.front().si, sense_of(load->word));
  return sum;
}

bool moves_by_itself(const Circuit& circuit, PartId part) {
  if (const Definition* definition = circuit.parts[part].definition) return !definition->role("actuator");
  return std::any_of(circuit.elements.begin(), circuit.elements.end(),
                     [&](const Element& e) { return e.kind == ElementKind::shared_shaft && e.part == part; });
}

struct PistonAreas {
  double cap = 0, rod_end = 0;  // m2
};

PistonAreas areas_of(Reading& reading, const Element& piston) {
  constexpr double quarter = std::numbers::pi / 4;
  const double bore = reading.value(piston, Parameter::bore).value_or(0);
  const double rod = reading.value(piston, Parameter::rod).value_or(0);
  const double annulus = quarter * (bore * bore - rod * rod);
  return {piston.has("through-rod") ? annulus : quarter * bore * bore, annulus};
}

// `share` drives outward with its pressure; what flows to its chamber for each L/min of the body, out and in.
void add_chamber(MovingBody& body, NodeId node, double share, double outward, double inward) {
  if (!node) return;
  body.chambers.push_back(node);
  body.area.push_back(share);
  body.gives.insert(body.gives.end(), {outward, inward});
}

void add_piston(Reading& reading, MovingBody& body, const Element& piston) {
  if (const auto friction = reading.value(piston, Parameter::friction)) {
    body.friction += *friction;
    body.friction_known = true;
  }
  if (const auto efficiency = reading.value(piston, Parameter::efficiency)) {
    body.efficiency = std::min(body.efficiency, *efficiency);
    body.friction_known = true;
  }
  const auto retracted = reading.value(piston, Parameter::spring_free), extended = reading.value(piston, Parameter::spring_end);
  body.spring_retracted += retracted.value_or(extended.value_or(0));
  body.spring_extended += extended.value_or(retracted.value_or(0));
  const PistonAreas areas = areas_of(reading, piston);
  if (body.elements.size() == 1) body.reference = std::max(areas.cap, areas.rod_end);
  if (!(body.reference > 0)) return;
  const double cap = areas.cap / body.reference, rod = areas.rod_end / body.reference;
  add_chamber(body, piston.ends[0], cap, -cap, cap);
  if (piston.ends.size() > 1) add_chamber(body, piston.ends[1], -rod, rod, -rod);
}

// Volumetric losses leave by the case, or past the gears where there is none.
void add_motor(Reading& reading, MovingBody& body, const Element& motor) {
  body.efficiency = std::min(body.efficiency, reading.value_or(motor, Parameter::mechanical, 0.9, "90 %"));
  const double displaced = reading.value(motor, Parameter::displacement).value_or(0);
  if (body.elements.size() == 1) body.reference = displaced;
  if (!(body.reference > 0) || motor.ends.size() < 2) return;
  const double share = displaced / body.reference;
  const double takes = share / reading.value_or(motor, Parameter::volumetric, 0.9, "90 %"), leak = takes - share;
  const bool has_case = motor.ends.size() > 2 && motor.ends[2];
  const double passed = has_case ? share : takes;
  add_chamber(body, motor.ends[0], share, -takes, passed);
  add_chamber(body, motor.ends[1], -share, passed, -takes);
  if (has_case) add_chamber(body, motor.ends[2], 0, leak, leak);
}

// Neither friction nor efficiency stated: the efficiency of the assumptions table.
void assume_friction(Reading& reading, MovingBody& body) {
  if (body.turns || body.friction_known) return;
  body.efficiency = 0.95;
  reading.assume(reading.circuit.elements[body.elements.front()], "efficiency 95 %");
}

std::map<PartId, int> ties_of(const Circuit& circuit) {
  std::map<PartId, int> ties;
  for (std::size_t tie = 0; tie < circuit.ties.size(); ++tie)
    for (PartId part : circuit.ties[tie]) ties.emplace(part, static_cast<int>(tie));
  return ties;
}

}  // namespace

Resistances& operator+=(Resistances& sum, const Resistances& more) {
  sum.out += more.out;
  sum.in += more.in;
  sum.keeps_its_sense |= more.keeps_its_sense;
  return sum;
}

Resistances resisting(double amount, Sense sense) {
  switch (sense) {
    case Sense::pushing_in:
    case Sense::turning_ba: return {amount, amount, true};
    case Sense::pulling_out:
    case Sense::turning_ab: return {-amount, -amount, true};
    default: return {amount, -amount, false};
  }
}

bool is_pump(Reading& reading, const Element& displacement) {
  if (displacement.has("pump") || displacement.has("hand")) return true;
  return !displacement.has("motor") && reading.value(displacement, Parameter::speed).has_value();
}

std::vector<MovingBody> bodies_of(Reading& reading) {
  const Circuit& circuit = reading.circuit;
  const std::map<PartId, int> ties = ties_of(circuit);
  std::vector<MovingBody> bodies;
  std::map<std::pair<std::int64_t, bool>, std::size_t> known;  // by part, or by tie below nil; and pistons apart from motors
  for (const Element& element : circuit.elements) {
    const bool piston = element.kind == ElementKind::piston;
    if (!piston && (element.kind != ElementKind::displacement || is_pump(reading, element))) continue;
    const auto tied = ties.find(element.part);
    const int tie = tied == ties.end() ? -1 : tied->second;
    const auto [place, is_new] = known.emplace(std::pair(tie >= 0 ? -1 - std::int64_t{tie} : std::int64_t{element.part.index}, piston), bodies.size());
    if (is_new) bodies.push_back({.elements = {}, .part = element.part, .tie = tie, .turns = !piston,
                                  .by_itself = moves_by_itself(circuit, element.part), .load = {}, .chambers = {}, .area = {}, .gives = {}});
    MovingBody& body = bodies[place->second];
    const bool new_part = body.elements.empty() || circuit.elements[body.elements.back()].part != element.part;
    if (new_part) body.load += stated_load(circuit.parts[element.part], circuit.parts[element.part].facts);
    body.elements.push_back(circuit.elements.id_of(element));
    if (piston) add_piston(reading, body, element);
    else add_motor(reading, body, element);
  }
  for (MovingBody& body : bodies) {
    assume_friction(reading, body);
    const auto tie = static_cast<std::size_t>(body.tie);
    if (body.tie >= 0 && tie < circuit.tie_facts.size()) body.load += stated_load(circuit.parts[body.part], circuit.tie_facts[tie]);
  }
  return bodies;
}

}  // namespace ferrule::hydraulics
