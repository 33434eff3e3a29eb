// Where oil under pressure comes from, and where it works.
#include <algorithm>

#include "compiler/paths/paths.hpp"

namespace ferrule {
namespace {

// `P1 at -30 %`: a pump that swings over centre pushes the other way; the first port it feeds is the positive one.
bool feeds_backwards(const State& state, PartId pump) {
  return std::any_of(state.settings.begin(), state.settings.end(), [&](const Command& command) {
    return command.part == pump && command.amount && command.amount->si < 0;
  });
}

void add_outlets(const Circuit& circuit, PartId id, std::string_view role_name, bool store, std::vector<OilSource>& sources) {
  const Definition* definition = circuit.parts[id].definition;
  if (!definition) return;
  for (const Role& role : definition->roles)
    if (role.name == role_name && !role.ports.empty())
      if (const PortId outlet = circuit.port_of(id, role.ports[0])) sources.push_back({id, outlet, store});
}

bool is_working_element(const Element& element) {
  return element.kind == ElementKind::piston ||
         (element.kind == ElementKind::displacement && element.has("motor"));
}

// Case drains and springs of an actuator do not drive it.
bool is_working_end(const Element& element, NodeId node) {
  const std::size_t most = std::min<std::size_t>(2, element.ends.size());
  return std::find(element.ends.begin(), element.ends.begin() + most, node) != element.ends.begin() + most;
}

}  // namespace

std::vector<OilSource> pumps_of(const Circuit& circuit) {
  std::vector<OilSource> sources;
  for (std::uint32_t index = 0; index < circuit.parts.size(); ++index)
    add_outlets(circuit, {index}, "feeds", false, sources);
  return sources;
}

std::vector<OilSource> sources_in(const Circuit& circuit, const State& state, bool stores) {
  std::vector<OilSource> sources;
  for (std::uint32_t index = 0; index < circuit.parts.size(); ++index) {
    const PartId id{index};
    std::vector<OilSource> outlets;
    if (state.running[index]) add_outlets(circuit, id, "feeds", false, outlets);
    // Two outlets: a closed circuit, where one side is pressed and the other is drawn from.
    if (outlets.size() > 1) outlets = {feeds_backwards(state, id) ? outlets[1] : outlets[0]};
    sources.insert(sources.end(), outlets.begin(), outlets.end());
    if (stores) add_outlets(circuit, id, "stores", true, sources);
  }
  return sources;
}

std::vector<PortId> actuator_ports(const Circuit& circuit) {
  std::vector<std::vector<const Element*>> working(circuit.parts.size());
  for (const Element& element : circuit.elements)
    if (is_working_element(element)) working[element.part.index].push_back(&element);
  std::vector<PortId> ports;
  for (std::uint32_t index = 0; index < circuit.ports.size(); ++index) {
    const Port& port = circuit.ports[PortId{index}];
    if (port.use == PortUse::drain) continue;
    const auto& elements = working[port.part.index];
    if (std::any_of(elements.begin(), elements.end(), [&](const Element* e) { return is_working_end(*e, port.node); }))
      ports.push_back({index});
  }
  return ports;
}

}  // namespace ferrule
