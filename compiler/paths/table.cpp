// The flow-path table of one state: joins of the valves, condition of every node, reach of the ports that matter.
#include <algorithm>

#include "compiler/paths/paths.hpp"

namespace ferrule {
namespace {

template <class T>
bool contains(const std::vector<T>& all, const T& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

template <class T>
void add_once(std::vector<T>& all, const T& one) {
  if (!contains(all, one)) all.push_back(one);
}

// ---------------------------------------------------------------- joins

// Merges the groups that share a port: P-T, A-T and B-T join all four.
void join(std::vector<std::vector<std::string>>& groups, const std::vector<std::string>& ports) {
  std::vector<std::string> merged;
  std::vector<std::vector<std::string>> others;
  for (const auto& group : groups) {
    const bool shares = std::any_of(group.begin(), group.end(), [&](const std::string& port) { return contains(ports, port); });
    if (shares)
      for (const std::string& port : group) add_once(merged, port);
    else
      others.push_back(group);
  }
  for (const std::string& port : ports) add_once(merged, port);
  others.push_back(std::move(merged));
  groups = std::move(others);
}

std::vector<std::string> ports_of_rows(const Part& part) {
  std::vector<std::string> ports;
  for (const PositionRow& row : part.positions)
    for (const RowPath& path : row.paths)
      for (const std::string& port : path.ports) add_once(ports, port);
  return ports;
}

PortJoin join_of(const Part& part, std::int16_t position) {
  PortJoin result{part.tag, part.positions[position].name, {}, {}};
  for (const RowPath& path : part.positions[position].paths) join(result.joined, path.ports);
  const std::vector<std::string> ports = ports_of_rows(part);
  const auto place = [&](const std::string& port) { return std::find(ports.begin(), ports.end(), port); };
  for (auto& group : result.joined)
    if (group.size() > 2)  // a pair keeps the sense in which it was written
      std::sort(group.begin(), group.end(), [&](const std::string& a, const std::string& b) { return place(a) < place(b); });
  for (const std::string& port : ports) {
    const bool joined = std::any_of(result.joined.begin(), result.joined.end(),
                                    [&](const auto& group) { return contains(group, port); });
    if (!joined) result.blocked.push_back(port);
  }
  return result;
}

// ---------------------------------------------------------------- reaches

class FlowPaths {
 public:
  FlowPaths(const Circuit& circuit, const PassageGraph& graph, const State& state)
      : circuit_(circuit), graph_(graph), conduction_(conduction_in(circuit, graph, state)),
        pumps_(sources_in(circuit, state, false)), sources_(sources_in(circuit, state, true)) {
    for (const OilSource& source : sources_) {
      freely_.push_back(reach(graph, outlet(source), [this](const Passage& p) { return goes_on(p) && is_open(p); }));
      by_pressure_.push_back(reach(graph, outlet(source), [this](const Passage& p) { return goes_on(p) && !is_shut(p); }));
    }
    relieved_ = reaching(graph, tank_nodes(circuit), [this](const Passage& p) { return is_open(p); });
    let_off_ = reaching(graph, tank_nodes(circuit), [this](const Passage& p) { return !is_shut(p); });
  }

  Reach reach_of(PortId port) const {
    Reach result;
    result.port = port;
    const NodeId node = circuit_.ports[port].node;
    for (std::size_t index = 0; index < sources_.size(); ++index) add_source(result, index, node);
    result.to_tank = relieved_.contains(node)  ? Reach::ToTank::open
                     : let_off_.contains(node) ? Reach::ToTank::through_pressure_control
                                               : Reach::ToTank::none;
    const Reached from_here = reach(graph_, node, [this](const Passage& p) { return goes_on(p) && is_open(p); });
    for (const Passage& passage : graph_.passages)
      if (passage.limiter && from_here.contains(passage.from) && !is_shut(passage))
        add_once(result.reliefs_seen, circuit_.elements[passage.element].part);
    return result;
  }

  std::vector<Condition> conditions() const {
    const std::vector<bool> suction = suction_nodes(), drains = drain_nodes(), pressed = pockets_of_actuators();
    std::vector<bool> open(circuit_.nodes.size());
    for (const Element& element : circuit_.elements)
      if (element.kind == ElementKind::atmosphere)
        for (NodeId end : element.ends)
          if (end) open[end.index] = true;
    std::vector<Condition> conditions;
    for (std::uint32_t index = 0; index < circuit_.nodes.size(); ++index) {
      const bool fed = is_fed({index}), off = relieved_.contains({index});
      conditions.push_back(open[index]             ? Condition::open
                           : suction[index]        ? Condition::suction
                           : drains[index] && off  ? Condition::drained
                           : fed && off            ? Condition::circulates
                           : is_pressed({index})   ? Condition::fed
                           : off                   ? Condition::returned
                           : pressed[index]        ? Condition::trapped
                                                   : Condition::blocked);
    }
    return conditions;
  }

  const std::vector<OilSource>& pumps() const { return pumps_; }

 private:
  NodeId outlet(const OilSource& source) const { return circuit_.ports[source.outlet].node; }
  Conduction of(const Passage& passage) const { return conduction_[&passage - graph_.passages.data()]; }
  bool is_open(const Passage& passage) const { return of(passage) == Conduction::open; }
  bool is_shut(const Passage& passage) const { return of(passage) == Conduction::shut; }
  bool goes_on(const Passage& passage) const { return !graph_.tank[passage.from.index]; }

  void add_source(Reach& result, std::size_t index, NodeId node) const {
    const OilSource& source = sources_[index];
    if (source.store) {
      if (by_pressure_[index].contains(node)) add_once(result.stores, source.part);
    } else if (source.outlet == result.port) {
      return;  // a pump is not fed by itself
    } else if (freely_[index].contains(node)) {
      add_once(result.fed_by, source.part);
    } else if (by_pressure_[index].contains(node)) {
      add_once(result.fed_through_pressure_control, source.part);
    }
  }

  bool is_fed(NodeId node) const {
    return !graph_.tank[node.index] &&
           std::any_of(by_pressure_.begin(), by_pressure_.end(), [&](const Reached& r) { return r.contains(node); });
  }

  // A pump that idles through an open way presses on nothing, wherever its oil may go.
  bool is_pressed(NodeId node) const {
    for (std::size_t index = 0; index < sources_.size(); ++index)
      if (by_pressure_[index].contains(node) && !relieved_.contains(outlet(sources_[index]))) return true;
    return false;
  }

  // From the inlets of the pumps back to the reservoir.
  std::vector<bool> suction_nodes() const {
    std::vector<NodeId> inlets;
    for (std::uint32_t part = 0; part < circuit_.parts.size(); ++part) {
      const Definition* definition = circuit_.parts[{part}].definition;
      const Role* role = definition ? definition->role("draws") : nullptr;
      if (role && role->ports.size() == 1)  // a closed circuit has no suction side
        if (const PortId port = circuit_.port_of({part}, role->ports[0])) inlets.push_back(circuit_.ports[port].node);
    }
    const Reached back = reaching(graph_, inlets, [this](const Passage& p) { return goes_on(p) && !is_shut(p) && !is_fed(p.from); });
    std::vector<bool> nodes(circuit_.nodes.size());
    for (std::size_t node = 0; node < nodes.size(); ++node)
      nodes[node] = back.by[node] != -2 && !graph_.tank[node] && !is_fed({static_cast<std::uint32_t>(node)});
    return nodes;
  }

  std::vector<bool> drain_nodes() const {
    std::vector<bool> nodes(circuit_.nodes.size());
    const auto mark = [&](PortId port) { nodes[circuit_.ports[port].node.index] = true; };
    for (std::uint32_t port = 0; port < circuit_.ports.size(); ++port)
      if (circuit_.ports[{port}].use == PortUse::drain) mark({port});
    for (const Run& run : circuit_.runs)
      if (run.function == LineFunction::drain)
        for (const RunStep& step : run.steps)
          if (step.port) mark(step.port);
    for (std::size_t node = 0; node < nodes.size(); ++node)
      if (graph_.tank[node]) nodes[node] = false;
    return nodes;
  }

  // Nodes joined to a chamber of an actuator, whichever way the passage runs.
  std::vector<bool> pockets_of_actuators() const {
    std::vector<NodeId> chambers;
    for (PortId port : actuator_ports(circuit_)) chambers.push_back(circuit_.ports[port].node);
    const Reached out = reach(graph_, chambers, [this](const Passage& p) { return goes_on(p) && is_open(p); });
    std::vector<bool> nodes(circuit_.nodes.size());
    for (std::size_t node = 0; node < nodes.size(); ++node) nodes[node] = out.by[node] != -2;
    return nodes;
  }

  const Circuit& circuit_;
  const PassageGraph& graph_;
  std::vector<Conduction> conduction_;
  std::vector<OilSource> pumps_, sources_;
  std::vector<Reached> freely_, by_pressure_;  // by source
  Reached relieved_, let_off_;
};

std::vector<PartId> standing_pumps(const Circuit& circuit, const State& state) {
  std::vector<PartId> pumps;
  for (const OilSource& source : pumps_of(circuit))
    if (!state.running[source.part.index]) add_once(pumps, source.part);
  return pumps;
}

}  // namespace

StatePaths paths_in(const Circuit& circuit, const PassageGraph& graph, const State& state) {
  const FlowPaths table(circuit, graph, state);
  StatePaths paths;
  paths.state = state.name;
  paths.state_class = state.state_class;
  paths.step = state.step;
  paths.motions = state.motions;
  paths.standing_pumps = standing_pumps(circuit, state);
  for (std::uint32_t part = 0; part < circuit.parts.size(); ++part)
    if (state.position[part] >= 0) paths.valves.push_back(join_of(circuit.parts[{part}], state.position[part]));
  for (PortId port : actuator_ports(circuit)) paths.ports.push_back(table.reach_of(port));
  for (const OilSource& pump : table.pumps()) paths.ports.push_back(table.reach_of(pump.outlet));
  paths.nodes = table.conditions();
  return paths;
}

std::string_view word_of(Condition condition) {
  static constexpr std::string_view words[] = {"fed",     "returned", "blocked",    "trapped",
                                               "drained", "open",     "circulates", "suction"};
  return words[static_cast<std::size_t>(condition)];
}

std::string_view word_of(Reach::ToTank way) {
  static constexpr std::string_view words[] = {"open", "through pressure control", "none"};
  return words[static_cast<std::size_t>(way)];
}

}  // namespace ferrule
