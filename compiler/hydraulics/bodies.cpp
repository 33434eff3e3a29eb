#include "compiler/hydraulics/bodies.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ferrule::hydraulics {
namespace {

using Sense = Load::Sense;

struct Resistances {
  double out = 0, in = 0;
  bool keeps_its_sense = false;  // presses also on what stands
};

Resistances resisting(double amount, Sense sense) {
  switch (sense) {
    case Sense::pushing_in:
    case Sense::turning_ba: return {amount, amount, true};
    case Sense::pulling_out:
    case Sense::turning_ab: return {-amount, -amount, true};
    default: return {amount, -amount, false};
  }
}

Sense sense_of(std::string_view word) {
  if (word.find("pushing") != word.npos) return Sense::pushing_in;
  if (word.find("pulling") != word.npos) return Sense::pulling_out;
  if (word.find("A>B") != word.npos) return Sense::turning_ab;
  if (word.find("B>A") != word.npos) return Sense::turning_ba;
  return Sense::against;
}

Resistances& operator+=(Resistances& sum, const Resistances& more) {
  sum.out += more.out;
  sum.in += more.in;
  sum.keeps_its_sense |= more.keeps_its_sense;
  return sum;
}

// Weight along the rod: with the rod up it pushes in, with the rod down it pulls out.
Resistances weight_of(const Part& part) {
  const auto mass = part.si("mass");
  const FactValue* upright = part.fact("vertical");
  const FactValue* inclined = part.fact("inclined");
  if (!mass || (!upright && !inclined)) return {};
  const double share = upright ? 1 : std::sin(inclined->numbers.empty() ? 0 : inclined->numbers.front().si);
  const std::string& stands = upright ? upright->word : inclined->word;
  return resisting(*mass * 9.80665 * share, stands == "rod down" ? Sense::pulling_out : Sense::pushing_in);
}

Resistances stated_load(const Part& part) {
  Resistances sum = weight_of(part);
  const FactValue* load = part.fact("load");
  if (load && !load->numbers.empty()) sum += resisting(load->numbers.front().si, sense_of(load->word));
  return sum;
}

const Motion* motion_of(const Reading& reading, PartId part, int tie) {
  for (const Motion& motion : reading.state.motions)
    if (motion.actuator == part || (tie >= 0 && motion.tie == tie)) return &motion;
  return nullptr;
}

int tie_of(const Circuit& circuit, PartId part) {
  for (std::size_t tie = 0; tie < circuit.ties.size(); ++tie)
    if (std::find(circuit.ties[tie].begin(), circuit.ties[tie].end(), part) != circuit.ties[tie].end()) return static_cast<int>(tie);
  return -1;
}

// A spring pushes the rod in; of its two forces the one at the end of the motion decides whether it gets there.
double spring_of(Reading& reading, const Element& piston, const Motion* motion) {
  const auto free = reading.value(piston, Parameter::spring_free), end = reading.value(piston, Parameter::spring_end);
  const bool retracts = motion && motion->kind == Motion::Kind::retracts;
  if (retracts) return free.value_or(end.value_or(0));
  return end.value_or(free.value_or(0));
}

// Dividers and intensifiers are no actuators: nothing says how they move, so they move as they must.
bool moves_by_itself(const Circuit& circuit, PartId part) {
  const Definition* definition = circuit.parts[part].definition;
  if (definition) return !definition->role("actuator");
  return std::any_of(circuit.elements.begin(), circuit.elements.end(),
                     [&](const Element& e) { return e.kind == ElementKind::shared_shaft && e.part == part; });
}

// Whether the body may move, and against what. Without a cycle it moves in work states and stands in all others;
// what stands under a load of fixed sense hangs on its oil, and friction is left out (unfavourable side).
void apply_motion(Reading& reading, MovingBody& body, PartId part, int tie) {
  if (moves_by_itself(reading.circuit, part)) return;
  const Motion* motion = motion_of(reading, part, tie);
  Resistances load = stated_load(reading.circuit.parts[part]);
  if (motion && motion->load.force) load = resisting(motion->load.force->si, motion->load.sense);
  const StateClass state = reading.state.state_class;
  const bool free_state = reading.state.motions.empty() && (state == StateClass::work || state == StateClass::late);
  const bool moves = motion ? motion->kind <= Motion::Kind::turns_ba : free_state;
  body.load_out += load.out;
  body.load_in += load.in;
  if (moves) return;
  const bool at_work = motion && motion->kind == Motion::Kind::presses;
  body.locked = at_work || !load.keeps_its_sense;
  body.friction = 0;
  body.efficiency = 1;
}

void add_piston(Reading& reading, MovingBody& body, const Element& piston, const Motion* motion) {
  if (const auto friction = reading.value(piston, Parameter::friction)) {
    body.friction += *friction;
    body.friction_known = true;
  }
  if (const auto efficiency = reading.value(piston, Parameter::efficiency)) {
    body.efficiency = std::min(body.efficiency, *efficiency);
    body.friction_known = true;
  }
  const double spring = spring_of(reading, piston, motion);
  body.load_out += spring;
  body.load_in += spring;
}

// Neither friction nor efficiency stated: the efficiency of the assumptions table.
void assume_friction(Reading& reading, MovingBody& body) {
  if (body.turns || body.friction_known) return;
  body.efficiency = 0.95;
  reading.assume(reading.circuit.elements[body.elements.front()], "efficiency 95 %");
}

bool belongs(const MovingBody& body, const Circuit& circuit, const Element& element, int tie) {
  const Element& first = circuit.elements[body.elements.front()];
  if (first.kind != element.kind) return false;
  return first.part == element.part || (tie >= 0 && tie_of(circuit, first.part) == tie);
}

}  // namespace

bool is_pump(Reading& reading, const Element& displacement) {
  if (displacement.has("pump")) return true;
  return !displacement.has("motor") && reading.value(displacement, Parameter::speed).has_value();
}

PistonAreas areas_of(Reading& reading, const Element& piston) {
  constexpr double quarter = std::numbers::pi / 4;
  const double bore = reading.value(piston, Parameter::bore).value_or(0);
  const double rod = reading.value(piston, Parameter::rod).value_or(0);
  const double annulus = quarter * (bore * bore - rod * rod);
  return {piston.has("through-rod") ? annulus : quarter * bore * bore, annulus};
}

std::vector<MovingBody> bodies_of(Reading& reading) {
  const Circuit& circuit = reading.circuit;
  std::vector<MovingBody> bodies;
  for (const Element& element : circuit.elements) {
    const bool piston = element.kind == ElementKind::piston;
    if (!piston && (element.kind != ElementKind::displacement || is_pump(reading, element))) continue;
    const int tie = circuit.ties.empty() ? -1 : tie_of(circuit, element.part);
    const Motion* motion = motion_of(reading, element.part, tie);
    auto body = std::find_if(bodies.begin(), bodies.end(), [&](const MovingBody& b) { return belongs(b, circuit, element, tie); });
    const bool is_new = body == bodies.end();
    if (is_new) body = bodies.insert(bodies.end(), MovingBody{.elements = {}, .turns = !piston});
    body->elements.push_back(circuit.elements.id_of(element));
    if (piston) add_piston(reading, *body, element, motion);
    if (!piston) body->efficiency = std::min(body->efficiency, reading.value_or(element, Parameter::mechanical, 0.9, "90 %"));
    if (!is_new) continue;
    const PistonAreas areas = piston ? areas_of(reading, element) : PistonAreas{};
    body->reference = piston ? std::max(areas.cap, areas.rod_end) : reading.value(element, Parameter::displacement).value_or(0);
  }
  for (MovingBody& body : bodies) {
    assume_friction(reading, body);
    const PartId part = circuit.elements[body.elements.front()].part;
    apply_motion(reading, body, part, circuit.ties.empty() ? -1 : tie_of(circuit, part));
  }
  return bodies;
}

}  // namespace ferrule::hydraulics
