#include "checks/marking/record.hpp"

#include <algorithm>
#include <cmath>

#include "compiler/figures/book.hpp"

namespace ferrule::marking {
namespace {

// Up to here a pump counts as unloaded, and from here on as standing at its limit (proposals; common practice).
constexpr double unloaded_share = 0.15, unloaded_pressure = 15e5, at_limit_share = 0.9;

// A throttle that takes off less controls nothing: wide open, or passed by through its check.
constexpr double least_throttling = 3e5;

bool has_role(const Circuit& circuit, PartId part, std::string_view role) {
  const Definition* definition = circuit.parts[part].definition;
  return definition && definition->role(role);
}

struct Asking {
  const Circuit& circuit;
  const PassageGraph& graph;
  const working::Book& book;
  std::size_t index;
  const State& state;
  const OperatingPoint& point;
  StatePaths paths;
  std::vector<Conduction> conduction;
};

// ---------------------------------------------------------------- joins

// A pump whose own outlet is let off to the reservoir presses on nothing.
bool presses(const Asking& in, PartId pump) {
  return std::any_of(in.paths.ports.begin(), in.paths.ports.end(), [&](const Reach& reach) {
    return in.circuit.ports[reach.port].part == pump && reach.to_tank != Reach::ToTank::open;
  });
}

Joined fed(const Asking& in, const Reach& reach) {
  const auto one_presses = [&](const std::vector<PartId>& pumps) { return std::any_of(pumps.begin(), pumps.end(), [&](PartId pump) { return presses(in, pump); }); };
  return one_presses(reach.fed_by) ? Joined::open : one_presses(reach.fed_through_pressure_control) || !reach.stores.empty() ? Joined::by_pressure : Joined::no;
}

Joined to_tank(const Reach& reach) {
  return reach.to_tank == Reach::ToTank::open ? Joined::open : reach.to_tank == Reach::ToTank::none ? Joined::no : Joined::by_pressure;
}

bool is_throttle(const Element& element) {
  return element.kind == ElementKind::regulated_flow || (element.kind == ElementKind::restriction && element.has("adjustable"));
}

// Everything that the oil of this node passes without a pump, an actuator or the reservoir between: up to the next parting of ways.
bool passes_throttle(const Asking& in, NodeId node) {
  if (!in.point.settled) return false;
  const auto flows = [&](const Passage& p) {
    const Element& element = in.circuit.elements[p.element];
    return !in.graph.tank[p.from.index] && element.kind != ElementKind::piston && element.kind != ElementKind::displacement &&
           std::abs(in.point.flow[p.element.index]) > 1e-9;
  };
  const Reached reached = reach(in.graph, node, flows);
  const Reached back = reaching(in.graph, {node}, flows);
  return std::any_of(in.graph.passages.begin(), in.graph.passages.end(), [&](const Passage& p) {
    return is_throttle(in.circuit.elements[p.element]) && flows(p) && (reached.contains(p.from) || back.contains(p.to)) &&
           in.point.pressure[p.from.index] - in.point.pressure[p.to.index] > least_throttling;
  });
}

// ---------------------------------------------------------------- what holds

// Where oil can leave to from this node.
std::vector<bool> zone_of(const Asking& in, NodeId start) {
  std::vector<bool> zone(in.graph.tank.size());
  std::vector<NodeId> front{start};
  zone[start.index] = true;
  const auto take = [&](NodeId node) {
    if (zone[node.index]) return;
    zone[node.index] = true;
    front.push_back(node);
  };
  for (std::size_t next = 0; next < front.size(); ++next)
    for (std::uint32_t i : in.graph.leaving[front[next].index])
      if (in.conduction[i] == Conduction::open) take(in.graph.passages[i].to);
  return zone;
}

// A spool among what shuts the oil in lets it creep past; seats do not.
Hold hold_of_node(const Asking& in, NodeId node) {
  const std::vector<bool> zone = zone_of(in, node);
  Hold hold = Hold::seat;
  for (std::size_t i = 0; i < zone.size(); ++i)
    if (zone[i] && in.graph.tank[i]) return Hold::nothing;
  for (const Port& port : in.circuit.ports) {
    const Part& part = in.circuit.parts[port.part];
    if (zone[port.node.index] && !part.positions.empty() && !part.has("seat") && port.use == PortUse::main) hold = Hold::spool;
  }
  return hold;
}

// Of the ports that are shut in, the one with the highest pressure bears the load; without pressures the tightest counts.
Hold hold_of(const Asking& in, const ActuatorRecord& actuator) {
  Hold best = Hold::nothing;
  double highest = -1;
  for (const PortRecord& port : actuator.ports) {
    if (port.to_tank == Joined::open) continue;
    if (port.fed == Joined::open) {
      best = std::max(best, Hold::pressed);
      continue;
    }
    const Hold hold = hold_of_node(in, in.circuit.ports[port.port].node);
    const double pressure = port.pressure.value_or(0);
    if (pressure > highest || (pressure == highest && hold > best)) best = hold, highest = pressure;
  }
  return best;
}

// ---------------------------------------------------------------- motion and numbers

std::optional<double> number(const Asking& in, PartId part, std::string_view what) {
  const auto subject = in.book.subject(in.circuit.parts[part].tag);
  if (!subject) return {};
  const std::vector<std::string_view> words = in.book.words_for(subject->kind);
  if (std::find(words.begin(), words.end(), what) == words.end()) return {};
  const working::Worked worked = in.book.result(*subject, what, in.index);
  return worked.values.empty() ? std::nullopt : worked.result().si;
}

Moves moves_of(const Asking& in, const ActuatorRecord& actuator) {
  const working::Moment& moment = in.book.moment(in.index);
  for (std::uint32_t i : in.book.elements_of(actuator.part)) {
    const hydraulics::MovingBody* body = moment.body[i];
    if (!body) continue;
    const double speed = in.point.speed[i];
    if (std::isnan(speed)) continue;
    if (!working::stands_still(*body, speed)) return body->turns ? (speed > 0 ? Moves::turns_ab : Moves::turns_ba) : speed > 0 ? Moves::out : Moves::in;
    break;
  }
  const auto let_off = [](const PortRecord& port) { return port.to_tank == Joined::open; };
  const bool free = actuator.ports.size() > 1 && std::all_of(actuator.ports.begin(), actuator.ports.end(), let_off);
  return free ? Moves::free : Moves::stands;
}

ActuatorRecord actuator_in(const Asking& in, PartId part) {
  ActuatorRecord out;
  out.part = part;
  for (const Reach& reach : in.paths.ports) {
    if (in.circuit.ports[reach.port].part != part) continue;
    const NodeId node = in.circuit.ports[reach.port].node;
    PortRecord port{reach.port, fed(in, reach), to_tank(reach), passes_throttle(in, node), {}};
    if (in.point.settled && !std::isnan(in.point.pressure[node.index])) port.pressure = in.point.pressure[node.index];
    out.ports.push_back(port);
  }
  if (in.point.settled) {
    out.moves = moves_of(in, out);
    out.speed = number(in, part, "speed");
    out.force = number(in, part, "force");
    if (!out.force) out.force = number(in, part, "torque");
  }
  if (out.moves == Moves::stands) out.hold = hold_of(in, out);
  return out;
}

// ---------------------------------------------------------------- the supply

std::optional<double> limit_of(const Circuit& circuit, const Reach& outlet) {
  std::optional<double> least;
  for (PartId relief : outlet.reliefs_seen)
    for (const Element& element : circuit.elements)
      if (element.part == relief && element.value(Parameter::cracking))
        least = std::min(least.value_or(1e300), *element.value(Parameter::cracking));
  return least;
}

void add_supply(const Asking& in, StateRecord& out) {
  for (const Reach& reach : in.paths.ports) {
    if (has_role(in.circuit, in.circuit.ports[reach.port].part, "actuator")) continue;
    if (!in.point.settled) continue;
    const double pressure = in.point.pressure[in.circuit.ports[reach.port].node.index];
    if (std::isnan(pressure) || pressure < out.supply) continue;
    out.supply = pressure;
    const std::optional<double> limit = limit_of(in.circuit, reach);
    out.idle = pressure <= std::max(unloaded_pressure, unloaded_share * limit.value_or(0)) ? Idle::unloaded
               : limit && pressure >= at_limit_share * *limit                             ? Idle::at_limit
                                                                                           : Idle::partly;
  }
  if (in.point.settled) out.power = in.book.moment(in.index).shaft;
}

std::vector<std::size_t> states_to_tell(const States& states, const working::Book& book, std::size_t most) {
  std::vector<std::size_t> told = book.told();
  for (std::size_t i = 0; i < states.states.size(); ++i)
    if (states.states[i].state_class == StateClass::stop && std::find(told.begin(), told.end(), i) == told.end()) told.push_back(i);
  if (told.size() > most) told.resize(most);
  return told;
}

}  // namespace

std::string_view word_of(Moves moves) {
  constexpr std::string_view words[] = {"stands", "is free", "goes out", "goes in", "turns from A to B", "turns from B to A"};
  return words[static_cast<std::size_t>(moves)];
}

Record record_of(const Circuit& circuit, std::size_t most) {
  const States states = states_of(circuit);
  const Points points(circuit, states.states);
  const working::Book book(circuit, states.states, points);
  const PassageGraph graph = passages_of(circuit);
  const std::vector<std::size_t> idle = idle_states(states);
  Record record;
  for (std::uint32_t i = 0; i < circuit.parts.size(); ++i)
    if (has_role(circuit, {i}, "actuator")) record.actuators.push_back({i});
  for (std::size_t index : states_to_tell(states, book, most)) {
    const State& state = states.states[index];
    const Asking in{circuit, graph, book, index, state, points[index], paths_in(circuit, graph, state), conduction_in(circuit, graph, state)};
    StateRecord out{state.name, state.state_class, in.point.settled, {}, std::find(idle.begin(), idle.end(), index) != idle.end(), {}, 0, 0};
    for (PartId part : record.actuators) out.actuators.push_back(actuator_in(in, part));
    add_supply(in, out);
    record.states.push_back(std::move(out));
  }
  return record;
}

}  // namespace ferrule::marking
