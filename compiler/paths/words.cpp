// The flow-path table as an instructor reads it aloud. Everything said is derived from the table and the model.
#include <fmt/format.h>

#include <algorithm>

#include "compiler/paths/paths.hpp"

namespace ferrule {
namespace {

std::string listed(const std::vector<std::string>& words, std::string_view last = "and") {
  std::string text;
  for (std::size_t index = 0; index < words.size(); ++index) {
    if (index > 0) text += index + 1 == words.size() ? fmt::format(" {} ", last) : ", ";
    text += words[index];
  }
  return text;
}

std::string verb(std::size_t count, std::string_view one, std::string_view many) {
  return std::string(count == 1 ? one : many);
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

std::string join_in_words(const std::vector<std::string>& group) {
  if (group.size() == 2) return fmt::format("{} joins {}", group[0], group[1]);
  return listed(group) + " are joined";
}

std::string valve_in_words(const PortJoin& join) {
  std::vector<std::string> said;
  for (const auto& group : join.joined) said.push_back(join_in_words(group));
  if (!said.empty() && !join.blocked.empty())
    said.push_back(listed(join.blocked) + verb(join.blocked.size(), " is blocked", " are blocked"));
  if (said.empty()) said.push_back("all ports are blocked");
  return fmt::format("{} stands in {}: {}.", join.valve, join.position, fmt::format("{}", fmt::join(said, ", ")));
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

std::string pump_in_words(const Circuit& circuit, const StatePaths& paths, const Reach& outlet) {
  const PartId pump = circuit.ports[outlet.port].part;
  const std::string& tag = circuit.parts[pump].tag;
  if (outlet.to_tank == Reach::ToTank::open) return fmt::format("The oil of {} returns to the reservoir at low pressure.", tag);
  const std::vector<std::string> fed = actuators_fed_by(circuit, paths, pump);
  const std::string reliefs = listed(tags(circuit, outlet.reliefs_seen), "or");
  if (!fed.empty())
    return fmt::format("{} feeds {}{}.", tag, listed(fed),
                       reliefs.empty() ? "; no relief valve stands open to it" : "; " + reliefs + " limits its pressure");
  if (strokes_back(circuit, pump)) return fmt::format("Nothing takes the oil of {}: it strokes back and holds its pressure.", tag);
  if (reliefs.empty()) return fmt::format("{} is shut in: its oil has no way out and no relief valve.", tag);
  return fmt::format("The oil of {} has no way but over {}: it runs at full pressure, and all its power becomes heat.", tag, reliefs);
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

std::string port_in_words(const Circuit& circuit, const StatePaths& paths, const Reach& reach) {
  const std::string& name = circuit.ports[reach.port].name;
  const PortState state = state_of(circuit, paths, reach);
  std::vector<std::string> feeders =
      tags(circuit, state == PortState::pressed ? pressing(circuit, paths, reach.fed_by) : reach.fed_by);
  for (std::string& tag : tags(circuit, reach.stores)) feeders.push_back(std::move(tag));
  const std::vector<std::string> through = tags(circuit, reach.fed_through_pressure_control);
  switch (state) {
    case PortState::pressed:
      return feeders.empty() ? fmt::format("{} gets oil of {} once a pressure valve opens", name, listed(through))
                             : fmt::format("{} gets oil of {}", name, listed(feeders));
    case PortState::passing:
      return fmt::format("{} stands open to the reservoir, with oil of {} passing by", name, listed(feeders));
    case PortState::leaving: return fmt::format("{} is open to the reservoir", name);
    case PortState::let_off_by_pressure: return fmt::format("the oil at {} leaves only through a pressure valve", name);
    case PortState::shut: return fmt::format("the oil at {} is shut in", name);
    case PortState::airy: return fmt::format("{} only breathes", name);
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

// "goes out", "turns from A to B": the way oil at this end drives it.
std::string driven(const Circuit& circuit, const StatePaths& paths, const Actuator& actuator, int fed_end) {
  const Motion* motion = motion_of(paths, actuator.part);
  if (motion && motion->kind == Motion::Kind::presses) return "so it presses";
  if (motion && motion->kind == Motion::Kind::stands)
    return is_piston(circuit, actuator.part) ? "so it is pushed against its stop" : "so its load brings it to a stand";
  if (is_piston(circuit, actuator.part)) return fed_end == 0 ? "so it goes out" : "so it goes in";
  return fed_end == 0 ? "so it turns from A to B" : "so it turns from B to A";
}

std::string returner(const Circuit& circuit, PartId part) {
  const Definition* definition = circuit.parts[part].definition;
  const Role* role = definition ? definition->role("returns-by") : nullptr;
  return role && !role->ports.empty() ? role->ports[0] : "load";
}

std::string outcome_of_one(const Circuit& circuit, const StatePaths& paths, const Actuator& actuator, PortState state, int end) {
  if (has_role(circuit, actuator.part, "brake"))
    return state == PortState::pressed ? "so the brake is released" : gives_way(state) ? "so the brake holds" : "";
  if (state == PortState::pressed) return driven(circuit, paths, actuator, end);
  if (state == PortState::shut) return "so it stands";
  if (gives_way(state)) return fmt::format("so its {} brings it back", returner(circuit, actuator.part));
  return {};
}

std::string outcome_of_two(const Circuit& circuit, const StatePaths& paths, const Actuator& actuator, PortState first, PortState second) {
  const bool pushed = first == PortState::pressed, pulled = second == PortState::pressed;
  if (pushed && pulled)
    return is_piston(circuit, actuator.part) ? "so the larger side drives the rod out (regeneration)" : "so it stands";
  if (pushed) return gives_way(second) ? driven(circuit, paths, actuator, 0) : "so it cannot move";
  if (pulled) return gives_way(first) ? driven(circuit, paths, actuator, 1) : "so it cannot move";
  if (first == PortState::shut && second == PortState::shut) return "so it stands";
  if (gives_way(first) && gives_way(second) &&
      (first == PortState::let_off_by_pressure || second == PortState::let_off_by_pressure))
    return "so nothing drives it, and a load moves it only by opening that pressure valve";
  if (gives_way(first) && gives_way(second)) return "so nothing drives it and a load may move it";
  return "so it stands; a load may rest on the oil that is shut in";
}

// The side of a single-acting cylinder that does no work has to let air or leakage in and out.
std::string vent_in_words(const Circuit& circuit, const StatePaths& paths, PartId part) {
  const Definition* definition = circuit.parts[part].definition;
  const Role* role = definition ? definition->role("single-acting") : nullptr;
  if (!role || role->ports.size() < 2) return {};  // working port, then vent
  const PortId port = circuit.port_of(part, role->ports[1]);
  if (!port || circuit.ports[port].end != Port::End::joined) return "its other side only breathes";
  const Condition condition = paths.nodes[circuit.ports[port].node.index];
  if (condition == Condition::drained || condition == Condition::returned) return "its other side is open to the reservoir";
  if (condition == Condition::open) return "its other side only breathes";
  return condition == Condition::blocked ? "its other side is shut" : "its other side has oil on it";
}

std::string actuator_in_words(const Circuit& circuit, const StatePaths& paths, const Actuator& actuator) {
  std::vector<std::string> said;
  PortState states[2] = {PortState::airy, PortState::airy};
  for (const Reach* reach : actuator.ports) {
    said.push_back(port_in_words(circuit, paths, *reach));
    states[end_of(circuit, *reach)] = state_of(circuit, paths, *reach);
  }
  const std::string vent = vent_in_words(circuit, paths, actuator.part);
  if (!vent.empty()) said.push_back(vent);
  const Reach& first = *actuator.ports.front();
  const std::string outcome = actuator.ports.size() == 1
                                  ? outcome_of_one(circuit, paths, actuator, state_of(circuit, paths, first), end_of(circuit, first))
                                  : outcome_of_two(circuit, paths, actuator, states[0], states[1]);
  return fmt::format("At {}, {}{}.", circuit.parts[actuator.part].tag, listed(said), outcome.empty() ? "" : ", " + outcome);
}

// Oil of a store that is still under pressure is a hazard wherever the drive stands (ISO 4413: stored energy).
std::vector<std::string> stores_in_words(const Circuit& circuit, const StatePaths& paths) {
  std::vector<std::string> said;
  for (const Part& part : circuit.parts) {
    const Role* role = part.definition ? part.definition->role("stores") : nullptr;
    if (!role || role->ports.empty()) continue;
    const PortId port = circuit.port_of(circuit.parts.id_of(part), role->ports[0]);
    if (!port) continue;
    if (paths.nodes[circuit.ports[port].node.index] == Condition::circulates)
      said.push_back(fmt::format("{} empties to the reservoir.", part.tag));
    else
      said.push_back(fmt::format("{} keeps its oil under pressure.", part.tag));
  }
  return said;
}

}  // namespace

std::vector<std::string> sentences_of(const Circuit& circuit, const StatePaths& paths) {
  std::vector<std::string> said;
  for (const PortJoin& valve : paths.valves) said.push_back(valve_in_words(valve));
  for (const Reach& reach : paths.ports)
    if (is_pump(circuit, circuit.ports[reach.port].part)) said.push_back(pump_in_words(circuit, paths, reach));
  if (!paths.standing_pumps.empty())
    said.push_back(fmt::format("{} {} still.", listed(tags(circuit, paths.standing_pumps)),
                               verb(paths.standing_pumps.size(), "stands", "stand")));
  for (const Actuator& actuator : actuators_of(circuit, paths)) said.push_back(actuator_in_words(circuit, paths, actuator));
  for (std::string& store : stores_in_words(circuit, paths)) said.push_back(std::move(store));
  if (said.empty()) said.push_back("nothing is fed and nothing moves.");
  return said;
}

std::string in_words(const Circuit& circuit, const StatePaths& paths) {
  return fmt::format("{}: {}", heading(paths), fmt::join(sentences_of(circuit, paths), " "));
}

}  // namespace ferrule
