#include "compiler/hydraulics/prepared.hpp"

#include "compiler/hydraulics/bodies.hpp"
#include "compiler/hydraulics/laws_of.hpp"

namespace ferrule::hydraulics {
namespace {

std::vector<NodeId> stated_ends(const Element& element) {
  std::vector<NodeId> nodes;
  for (NodeId end : element.ends)
    if (end) nodes.push_back(end);
  return nodes;
}

Prepared two_way(const Element& element, AnyLaw law) { return {std::move(law), stated_ends(element), {-1, 1}, 1}; }

// Nodes that are only felt come last and are given nothing.
void feel(Prepared& made, const Element& element) {
  for (const Sense& sense : element.senses) {
    made.nodes.push_back(sense.node);
    made.gives.insert(made.gives.end(), made.own, 0.0);
  }
}

Prepared sensing(const Element& element, PressurePath law) {
  const bool reducing = element.kind == ElementKind::reducing_path;
  law.weight = {0, 0};
  if (element.senses.empty() && reducing) law.weight = {0, -1};
  if (element.senses.empty() && !reducing) law.weight = {1, element.has("drained") ? 0.0 : -1.0};
  for (const Sense& sense : element.senses) law.weight.push_back(reducing ? -sense.weight : sense.weight);
  Prepared made = two_way(element, std::move(law));
  feel(made, element);
  return made;
}

// Ratio times pilot pressure against the load side; the back of the pilot piston sees the inlet unless it is vented.
Prepared piloted(Reading& reading, const Element& element, PilotedOneWay law) {
  const double ratio = reading.value_or(element, Parameter::ratio, 3, "3");
  law.pilot = {element.has("vented") ? 1.0 : 1.0 - ratio, -1};
  if (law.closing) law.pilot = {-1, 0};
  for (const Sense& sense : element.senses) law.pilot.push_back(ratio * sense.weight);
  const bool closing = law.closing;
  Prepared made = two_way(element, std::move(law));
  if (!closing) {
    made.gives = {-1, 1, 1, -1};
    made.own = 2;
  }
  feel(made, element);
  return made;
}

Prepared regulated(Reading& reading, const Element& element) {
  const auto law = regulated_of(reading, element);
  if (!law) return {};
  Prepared made = two_way(element, *law);
  if (made.nodes.size() > 2) {
    made.gives = {-1, -1, 1, 0, 0, 1};
    made.own = 2;
  }
  return made;
}

// Nodes: outlet, inlet, case, felt ones. The leakage goes to the case, or back to the inlet where there is none.
Prepared pump(Reading& reading, const Element& element) {
  if (element.ends.size() < 2) return {};
  Pump law = pump_of(reading, element);
  const bool over_centre = theoretical_flow(reading, element) < 0;
  const NodeId out = element.ends[over_centre ? 0 : 1], in = element.ends[over_centre ? 1 : 0];
  const bool has_case = element.ends.size() > 2 && element.ends[2];
  if (!out || !(law.full > 0)) return {};
  Prepared made{std::nullopt, {out}, {1, 0}, 2};
  if (in) {
    made.nodes.push_back(in);
    made.gives.insert(made.gives.end(), {-1.0, has_case ? -1.0 : 0.0});
  }
  if (has_case) {
    made.nodes.push_back(element.ends[2]);
    made.gives.insert(made.gives.end(), {0, 1});
  }
  law.weight.assign(made.nodes.size(), 0);
  for (const Sense& sense : element.senses) law.weight.push_back(sense.weight);
  feel(made, element);
  made.law = std::move(law);
  return made;
}

}  // namespace

Prepared prepared(Reading& reading, const Element& element, double scale_flow) {
  switch (element.kind) {
    case ElementKind::pipe: return two_way(element, pipe_of(reading, element));
    case ElementKind::restriction:
    case ElementKind::flow_fuse: return two_way(element, loss_of(reading, element, scale_flow));
    case ElementKind::one_way: return two_way(element, one_way_of(reading, element, scale_flow));
    case ElementKind::piloted_one_way: return piloted(reading, element, piloted_of(reading, element, scale_flow));
    case ElementKind::pressure_path: return sensing(element, relief_of(reading, element, scale_flow));
    case ElementKind::reducing_path: return sensing(element, reducing_of(reading, element, scale_flow));
    case ElementKind::regulated_flow: return regulated(reading, element);
    case ElementKind::selector: return {Selector{}, stated_ends(element), {-1, 0, 0, -1, 1, 1}, 2};
    case ElementKind::displacement: return is_pump(reading, element) ? pump(reading, element) : Prepared{};
    default: return {};
  }
}

}  // namespace ferrule::hydraulics
