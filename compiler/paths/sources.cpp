// Where oil under pressure comes from, and where it works.
#include "compiler/paths/paths.hpp"

namespace ferrule {
namespace {

void add_outlets(const Circuit& circuit, PartId id, std::string_view role_name, bool store, std::vector<OilSource>& sources) {
  const Definition* definition = circuit.parts[id].definition;
  const Role* role = definition ? definition->role(role_name) : nullptr;
  if (!role) return;
  for (const std::string& port : role->ports)
    if (const PortId outlet = circuit.port_of(id, port)) sources.push_back({id, outlet, store});
}

// `P1 at -30 %`: how a pump that swings over centre is set; without a command what its facts say.
double stroke_of(const Circuit& circuit, const State& state, PartId pump) {
  double stroke = circuit.parts[pump].si("opening").value_or(0);
  for (const Command& command : state.settings)
    if (command.part == pump && command.amount) stroke = command.amount->si;
  return stroke;
}

// Two outlets: a closed circuit. One side is pressed, the other drawn from; without stroke neither. The first port that
// it feeds is the one of positive stroke.
void add_pressed_outlet(const Circuit& circuit, const State& state, PartId pump, std::vector<OilSource>& sources) {
  std::vector<OilSource> outlets;
  add_outlets(circuit, pump, "feeds", false, outlets);
  const double stroke = outlets.size() > 1 ? stroke_of(circuit, state, pump) : 1;
  if (outlets.empty() || stroke == 0) return;
  sources.push_back(outlets[stroke < 0 ? 1 : 0]);
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
    if (state.running[index]) add_pressed_outlet(circuit, state, {index}, sources);
    if (stores) add_outlets(circuit, {index}, "stores", true, sources);
  }
  return sources;
}

bool is_normally_open(const Element& element) {
  return element.kind == ElementKind::pressure_path && element.value(Parameter::cracking).value_or(1) <= 0;
}

std::vector<PortId> actuator_ports(const Circuit& circuit) {
  std::vector<PortId> ports;
  for (std::uint32_t index = 0; index < circuit.parts.size(); ++index) {
    const Definition* definition = circuit.parts[PartId{index}].definition;
    const Role* role = definition ? definition->role("actuator") : nullptr;
    if (definition && !role) role = definition->role("brake");
    for (std::size_t port = 0; role && port < role->ports.size(); ++port)
      if (const PortId id = circuit.port_of({index}, role->ports[port])) ports.push_back(id);
  }
  return ports;
}

}  // namespace ferrule
