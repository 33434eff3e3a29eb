// The flow-path table as an instructor reads it aloud. Everything said is derived from the table and the model.
#include <fmt/format.h>

#include <algorithm>

#include "compiler/paths/sentences.hpp"

namespace ferrule {
namespace {

// "A, B and C"; `last` is the key of the word before the last one.
std::string listed(const Phrases& say, const std::vector<std::string>& words, std::string_view last = "path.and") {
  std::string text;
  for (std::size_t index = 0; index < words.size(); ++index) {
    if (index > 0) text += index + 1 == words.size() ? " " + say(last) + " " : ", ";
    text += words[index];
  }
  return text;
}

std::vector<std::string> tags(const Circuit& circuit, const std::vector<PartId>& parts) {
  std::vector<std::string> names;
  for (PartId part : parts) names.push_back(circuit.parts[part].tag);
  return names;
}

bool has_role(const Circuit& circuit, PartId part, std::string_view role) {
  const Definition* definition = circuit.parts[part].definition;
  return definition && definition->role(role);
}

bool is_pump(const Circuit& circuit, PartId part) { return has_role(circuit, part, "feeds"); }

// "1V1=a, 2V1=b" reads "1V1 in a, 2V1 in b".
std::string spoken(std::string name) {
  for (std::size_t at = name.find('='); at != std::string::npos; at = name.find('=')) name.replace(at, 1, " in ");
  return name;
}

std::string heading(const StatePaths& paths) {
  if (paths.state_class == StateClass::rest) return "At rest";
  if (paths.state_class == StateClass::stop) return paths.state == "stop" ? "Stopped" : "Stopped (" + paths.state + ")";
  if (paths.state_class == StateClass::late) return "For a moment on the way to step " + paths.state;
  if (paths.step) return "In step " + paths.state;
  return paths.state == "running" ? "With the drive running" : "With " + spoken(paths.state);
}

// ---------------------------------------------------------------- valves

std::string join_in_words(const std::vector<std::string>& group, const Phrases& say) {
  return group.size() == 2 ? say("path.joins", {group[0], group[1]}) : say("path.joined", {listed(say, group)});
}

std::string valve_in_words(const PortJoin& join, const Phrases& say) {
  std::vector<std::string> said;
  for (const auto& group : join.joined) said.push_back(join_in_words(group, say));
  if (!said.empty() && !join.blocked.empty())
    said.push_back(say(join.blocked.size() == 1 ? "path.one-blocked" : "path.some-blocked", {listed(say, join.blocked)}));
  if (said.empty()) said.push_back(say("path.all-blocked"));
  return say("path.valve", {join.valve, join.position, fmt::format("{}", fmt::join(said, ", "))});
}

// ---------------------------------------------------------------- pumps

// Whether the pump strokes back by itself when nobody takes its oil (role `compensated`).
bool strokes_back(const Circuit& circuit, PartId pump) { return has_role(circuit, pump, "compensated"); }

std::vector<std::string> actuators_fed_by(const Circuit& circuit, const StatePaths& paths, PartId pump) {
  std::vector<std::string> ports;
  for (const Reach& reach : paths.ports)
    if (std::find(reach.fed_by.begin(), reach.fed_by.end(), pump) != reach.fed_by.end() &&
        !is_pump(circuit, circuit.ports[reach.port].part) && reach.to_tank != Reach::ToTank::open)
      ports.push_back(circuit.name_of(reach.port));
  return ports;
}

std::string pump_in_words(const Circuit& circuit, const StatePaths& paths, const Reach& outlet, const Phrases& say) {
  const PartId pump = circuit.ports[outlet.port].part;
  const std::string& tag = circuit.parts[pump].tag;
  if (outlet.to_tank == Reach::ToTank::open) return say("path.pump-idles", {tag});
  const std::vector<std::string> fed = actuators_fed_by(circuit, paths, pump);
  const std::string reliefs = listed(say, tags(circuit, outlet.reliefs_seen), "path.or");
  if (!fed.empty()) return reliefs.empty() ? say("path.pump-feeds-unlimited", {tag, listed(say, fed)}) : say("path.pump-feeds", {tag, listed(say, fed), reliefs});
  if (strokes_back(circuit, pump)) return say("path.pump-strokes-back", {tag});
  return reliefs.empty() ? say("path.pump-shut-in", {tag}) : say("path.pump-over-relief", {tag, reliefs});
}

// ---------------------------------------------------------------- actuators

struct Actuator {
  PartId part;
  std::vector<const Reach*> ports;  // in the order of its element: cap then rod, A then B
};

std::vector<Actuator> actuators_of(const Circuit& circuit, const StatePaths& paths) {
  std::vector<Actuator> actuators;
  for (const Reach& reach : paths.ports) {
    const PartId part = circuit.ports[reach.port].part;
    if (is_pump(circuit, part)) continue;
    if (actuators.empty() || actuators.back().part != part) actuators.push_back({part, {}});
    actuators.back().ports.push_back(&reach);
  }
  return actuators;
}

enum class PortState : std::uint8_t { pressed, passing, leaving, let_off_by_pressure, shut, airy };

// A pump that idles through an open way presses on nothing.
bool idles(const Circuit& circuit, const StatePaths& paths, PartId pump) {
  return std::any_of(paths.ports.begin(), paths.ports.end(), [&](const Reach& outlet) {
    return circuit.ports[outlet.port].part == pump && outlet.to_tank == Reach::ToTank::open;
  });
}

std::vector<PartId> pressing(const Circuit& circuit, const StatePaths& paths, const std::vector<PartId>& pumps) {
  std::vector<PartId> some;
  std::copy_if(pumps.begin(), pumps.end(), std::back_inserter(some), [&](PartId pump) { return !idles(circuit, paths, pump); });
  return some;
}

PortState state_of(const Circuit& circuit, const StatePaths& paths, const Reach& reach) {
  if (paths.nodes[circuit.ports[reach.port].node.index] == Condition::open) return PortState::airy;
  if (reach.to_tank == Reach::ToTank::open) return reach.fed_by.empty() ? PortState::leaving : PortState::passing;
  const bool pressed = !pressing(circuit, paths, reach.fed_by).empty() || !reach.stores.empty() ||
                       !pressing(circuit, paths, reach.fed_through_pressure_control).empty();
  if (pressed) return PortState::pressed;
  return reach.to_tank == Reach::ToTank::none ? PortState::shut : PortState::let_off_by_pressure;
}

std::string port_in_words(const Circuit& circuit, const StatePaths& paths, const Reach& reach, const Phrases& say) {
  const std::string& name = circuit.ports[reach.port].name;
  const PortState state = state_of(circuit, paths, reach);
  std::vector<std::string> feeders =
      tags(circuit, state == PortState::pressed ? pressing(circuit, paths, reach.fed_by) : reach.fed_by);
  for (std::string& tag : tags(circuit, reach.stores)) feeders.push_back(std::move(tag));
  const std::vector<std::string> through = tags(circuit, reach.fed_through_pressure_control);
  switch (state) {
    case PortState::pressed:
      return feeders.empty() ? say("path.gets-oil-once", {name, listed(say, through)}) : say("path.gets-oil", {name, listed(say, feeders)});
    case PortState::passing: return say("path.passing", {name, listed(say, feeders)});
    case PortState::leaving: return say("path.leaving", {name});
    case PortState::let_off_by_pressure: return say("path.let-off", {name});
    case PortState::shut: return say("path.shut-in", {name});
    case PortState::airy: return say("path.breathes", {name});
  }
  return {};
}

bool is_piston(const Circuit& circuit, PartId part) {
  return std::any_of(circuit.elements.begin(), circuit.elements.end(), [&](const Element& element) {
    return element.part == part && element.kind == ElementKind::piston;
  });
}

// Which end of its element a port is: 0 cap or A, 1 rod or B.
int end_of(const Circuit& circuit, const Reach& reach) {
  const NodeId node = circuit.ports[reach.port].node;
  for (const Element& element : circuit.elements)
    if (element.part == circuit.ports[reach.port].part)
      for (int end = 0; end < static_cast<int>(std::min<std::size_t>(2, element.ends.size())); ++end)
        if (element.ends[end] == node) return end;
  return 0;
}

bool gives_way(PortState state) {
  return state == PortState::leaving || state == PortState::airy || state == PortState::passing ||
         state == PortState::let_off_by_pressure;
}

// What the text says that the actuator does; null when it says nothing.
const Motion* motion_of(const StatePaths& paths, PartId actuator) {
  const auto found = std::find_if(paths.motions.begin(), paths.motions.end(),
                                  [&](const Motion& motion) { return motion.actuator == actuator; });
  return found == paths.motions.end() ? nullptr : &*found;
}

// The key of "so it goes out", "so it turns from A to B": the way oil at this end drives it.
std::string_view driven(const Circuit& circuit, const StatePaths& paths, const Actuator& actuator, int fed_end) {
  const Motion* motion = motion_of(paths, actuator.part);
  if (motion && motion->kind == Motion::Kind::presses) return "so.presses";
  if (motion && motion->kind == Motion::Kind::stands)
    return is_piston(circuit, actuator.part) ? "so.at-stop" : "so.stopped-by-load";
  if (is_piston(circuit, actuator.part)) return fed_end == 0 ? "so.out" : "so.in";
  return fed_end == 0 ? "so.turns-ab" : "so.turns-ba";
}

std::string returner(const Circuit& circuit, PartId part) {
  const Definition* definition = circuit.parts[part].definition;
  const Role* role = definition ? definition->role("returns-by") : nullptr;
  return role && !role->ports.empty() ? role->ports[0] : "load";
}

std::string_view outcome_of_one(const Circuit& circuit, const StatePaths& paths, const Actuator& actuator, PortState state, int end) {
  if (has_role(circuit, actuator.part, "brake"))
    return state == PortState::pressed ? "so.brake-released" : gives_way(state) ? "so.brake-holds" : "";
  if (state == PortState::pressed) return driven(circuit, paths, actuator, end);
  if (state == PortState::shut) return "so.stands";
  if (gives_way(state)) return returner(circuit, actuator.part) == "spring" ? "so.spring-back" : "so.load-back";
  return {};
}

std::string_view outcome_of_two(const Circuit& circuit, const StatePaths& paths, const Actuator& actuator, PortState first, PortState second) {
  const bool pushed = first == PortState::pressed, pulled = second == PortState::pressed;
  if (pushed && pulled)
    return is_piston(circuit, actuator.part) ? "so.regenerates" : "so.stands";
  if (pushed) return gives_way(second) ? driven(circuit, paths, actuator, 0) : "so.cannot-move";
  if (pulled) return gives_way(first) ? driven(circuit, paths, actuator, 1) : "so.cannot-move";
  if (first == PortState::shut && second == PortState::shut) return "so.stands";
  if (gives_way(first) && gives_way(second) &&
      (first == PortState::let_off_by_pressure || second == PortState::let_off_by_pressure))
    return "so.only-by-pressure-valve";
  if (gives_way(first) && gives_way(second)) return "so.free";
  return "so.rests-on-oil";
}

// The side of a single-acting cylinder that does no work has to let air or leakage in and out.
std::string_view vent_in_words(const Circuit& circuit, const StatePaths& paths, PartId part) {
  const Definition* definition = circuit.parts[part].definition;
  const Role* role = definition ? definition->role("single-acting") : nullptr;
  if (!role || role->ports.size() < 2) return {};  // working port, then vent
  const PortId port = circuit.port_of(part, role->ports[1]);
  if (!port || circuit.ports[port].end != Port::End::joined) return "vent.breathes";
  const Condition condition = paths.nodes[circuit.ports[port].node.index];
  if (condition == Condition::drained || condition == Condition::returned) return "vent.to-reservoir";
  if (condition == Condition::open) return "vent.breathes";
  return condition == Condition::blocked ? "vent.shut" : "vent.oil";
}

std::string actuator_in_words(const Circuit& circuit, const StatePaths& paths, const Actuator& actuator, const Phrases& say) {
  std::vector<std::string> said;
  PortState states[2] = {PortState::airy, PortState::airy};
  for (const Reach* reach : actuator.ports) {
    said.push_back(port_in_words(circuit, paths, *reach, say));
    states[end_of(circuit, *reach)] = state_of(circuit, paths, *reach);
  }
  const std::string_view vent = vent_in_words(circuit, paths, actuator.part);
  if (!vent.empty()) said.push_back(say(vent));
  const Reach& first = *actuator.ports.front();
  const std::string_view outcome = actuator.ports.size() == 1
                                  ? outcome_of_one(circuit, paths, actuator, state_of(circuit, paths, first), end_of(circuit, first))
                                  : outcome_of_two(circuit, paths, actuator, states[0], states[1]);
  return outcome.empty() ? say("path.actuator", {circuit.parts[actuator.part].tag, listed(say, said)})
                         : say("path.actuator-so", {circuit.parts[actuator.part].tag, listed(say, said), say(outcome)});
}

// Oil of a store that is still under pressure is a hazard wherever the drive stands (ISO 4413: stored energy).
std::vector<std::string> stores_in_words(const Circuit& circuit, const StatePaths& paths, const Phrases& say) {
  std::vector<std::string> said;
  for (const Part& part : circuit.parts) {
    const Role* role = part.definition ? part.definition->role("stores") : nullptr;
    if (!role || role->ports.empty()) continue;
    const PortId port = circuit.port_of(circuit.parts.id_of(part), role->ports[0]);
    if (!port) continue;
    if (paths.nodes[circuit.ports[port].node.index] == Condition::circulates)
      said.push_back(say("path.store-empties", {part.tag}));
    else
      said.push_back(say("path.store-keeps", {part.tag}));
  }
  return said;
}

}  // namespace

std::vector<std::string> sentences_of(const Circuit& circuit, const StatePaths& paths, const Phrases& say) {
  std::vector<std::string> said;
  for (const PortJoin& valve : paths.valves) said.push_back(valve_in_words(valve, say));
  for (const Reach& reach : paths.ports)
    if (is_pump(circuit, circuit.ports[reach.port].part)) said.push_back(pump_in_words(circuit, paths, reach, say));
  if (!paths.standing_pumps.empty())
    said.push_back(say(paths.standing_pumps.size() == 1 ? "path.stands-still" : "path.stand-still", {listed(say, tags(circuit, paths.standing_pumps))}));
  for (const Actuator& actuator : actuators_of(circuit, paths)) said.push_back(actuator_in_words(circuit, paths, actuator, say));
  for (std::string& store : stores_in_words(circuit, paths, say)) said.push_back(std::move(store));
  if (said.empty()) said.push_back(say("path.nothing"));
  return said;
}

std::string in_words(const Circuit& circuit, const StatePaths& paths) {
  return fmt::format("{}: {}", heading(paths), fmt::join(sentences_of(circuit, paths, Phrases("en")), " "));
}

}  // namespace ferrule
