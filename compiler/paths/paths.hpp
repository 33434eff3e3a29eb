// Ways of the oil through a circuit: sure, in one state, possible. Never swap them.
//
// Sure: conducts in every state, setting and foreseeable condition; proofs of safety use these.
// In a state: conducts in that state; behaviour, flow, idle, hold.
// Possible: may conduct in some feasible state; searches for hazards.
// (Terms and table: checks page B.0; ISO 4413 asks for protection in all intended conditions.)
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/states/state.hpp"

namespace ferrule {

// How far a passage can be relied on. Elements say it by kind and flags, see passages.cpp.
enum class Reliance : std::uint8_t {
  sure,        // pipe, passage, cooler, forward check, filter with bypass, relief above its full-flow pressure ...
  in_position, // exists in one position of a directional valve
  by_pressure, // opens by pressure but is no limiter (sequence, unloading, counterbalance, piloted check backwards)
  may_close,   // throttle, shut-off, coupling, compensated flow control, filter without bypass, reducing valve
};

// One direction through one element.
struct Passage {
  NodeId from, to;
  ElementId element;
  Reliance reliance = Reliance::sure;
  std::int16_t position = -1;   // of the element's part; -1 when it is not a valve position
  bool limiter = false;         // a relief by function: open above its full-flow pressure
};

struct PassageGraph {
  std::vector<Passage> passages;
  std::vector<std::vector<std::uint32_t>> leaving;   // by node: indices into passages
  std::vector<std::vector<std::uint32_t>> arriving;  // by node
  std::vector<bool> tank;                            // by node: a connection of a reservoir; no way goes on through one
};
PassageGraph passages_of(const Circuit& circuit);

struct Way {
  std::vector<std::uint32_t> passages;  // indices, from the start on
};

// From `start`, all nodes reached over the passages that `admit` accepts, with the passage each was reached by.
struct Reached {
  std::vector<std::int32_t> by;         // by node: passage index; -1 start; -2 not reached
  bool contains(NodeId node) const { return by[node.index] != -2; }
  Way way_to(NodeId node, const PassageGraph& graph) const;
};
template <class Admit>
Reached reach(const PassageGraph& graph, NodeId start, Admit admit);
// The same from several starts at once.
template <class Admit>
Reached reach(const PassageGraph& graph, std::vector<NodeId> starts, Admit admit);
// Backwards: all nodes that have a way to one of `goals`; `by` is the first passage of that way.
template <class Admit>
Reached reaching(const PassageGraph& graph, std::vector<NodeId> goals, Admit admit);

// What a passage does in one state. `by_pressure`: opens when the pressure is high enough (relief, sequence,
// counterbalance, reducing valve backwards); a relief whose vent is open to the reservoir is `open`.
enum class Conduction : std::uint8_t { shut, by_pressure, open };
// By passage. Piloted elements go by whether their pilot line is under pressure in this state.
std::vector<Conduction> conduction_in(const Circuit& circuit, const PassageGraph& graph, const State& state);

// Does the passage conduct in this state, if need be by pressure? (positions, pilots that are fed, drives are not asked)
// For more than a few passages of one state take conduction_in.
bool conducts(const Circuit& circuit, const State& state, const Passage& passage);

std::vector<NodeId> tank_nodes(const Circuit& circuit);
std::vector<std::string> trail(const Circuit& circuit, const PassageGraph& graph, const Way& way);  // "0P1.P", "0V1.P", ...

// A pump (by its role `feeds`) or a store of pressurised oil, and where it pushes the oil.
struct OilSource {
  PartId part;
  PortId outlet;
  bool store = false;
};
// Pumps whose drive runs and, with `stores`, all accumulators (a charge is not seen from outside).
std::vector<OilSource> sources_in(const Circuit& circuit, const State& state, bool stores);
// Every pump outlet of the circuit, running or not.
std::vector<OilSource> pumps_of(const Circuit& circuit);

// An edge that stands open without pressure (the spool of a flow divider): it cracks at no or negative pressure.
bool is_normally_open(const Element& element);

// The working ports of the actuators (role `actuator`) and the releasing ports of brakes (role `brake`), in the order of
// the text; of an actuator head end or A first.
std::vector<PortId> actuator_ports(const Circuit& circuit);

// ---------------------------------------------------------------- the flow-path table (`ferrule paths`)

enum class Condition : std::uint8_t {
  fed,         // a store or a running pump that does not idle presses on it, and nothing lets the oil off
  returned,    // open to the reservoir, nothing feeds it
  blocked,     // shut off on all sides, no actuator presses on it
  trapped,     // oil of an actuator shut in (or let off by a pressure valve only): it may be under pressure
  drained,     // a drain that is open to the reservoir
  open,        // open to the air
  circulates,  // fed and open to the reservoir: oil passes at low pressure
  suction,     // between reservoir and pump inlet
};
std::string_view word_of(Condition condition);

struct PortJoin { std::string valve, position; std::vector<std::vector<std::string>> joined; std::vector<std::string> blocked; };

// What feeds an actuator port or pump outlet in a state, and which way it has to the reservoir.
struct Reach {
  PortId port;
  std::vector<PartId> fed_by, fed_through_pressure_control;  // running pumps
  enum class ToTank : std::uint8_t { open, through_pressure_control, none } to_tank = ToTank::none;
  std::vector<PartId> reliefs_seen;  // whose inlet stands open to the port
  std::vector<PartId> stores;        // accumulators that press on the port
};
std::string_view word_of(Reach::ToTank way);

struct StatePaths {
  std::string state;
  StateClass state_class = StateClass::rest;
  StepId step;                         // none outside a cycle
  std::vector<PortJoin> valves;
  std::vector<Condition> nodes;        // by node
  std::vector<Reach> ports;            // actuator ports, then outlets of running pumps
  std::vector<PartId> standing_pumps;  // pumps whose drive is off
  std::vector<Motion> motions;         // what the text says of the actuators in this state
};
StatePaths paths_in(const Circuit& circuit, const PassageGraph& graph, const State& state);

// The table in plain words, one paragraph a state; sentence by sentence and in other languages: sentences.hpp.
std::string in_words(const Circuit& circuit, const StatePaths& paths);

// ---------------------------------------------------------------- bodies

template <class Admit>
Reached reach(const PassageGraph& graph, std::vector<NodeId> front, Admit admit) {
  Reached reached{std::vector<std::int32_t>(graph.leaving.size(), -2)};
  for (NodeId start : front) reached.by[start.index] = -1;
  for (std::size_t next = 0; next < front.size(); ++next)
    for (std::uint32_t index : graph.leaving[front[next].index]) {
      const Passage& passage = graph.passages[index];
      if (reached.by[passage.to.index] != -2 || !admit(passage)) continue;
      reached.by[passage.to.index] = static_cast<std::int32_t>(index);
      front.push_back(passage.to);
    }
  return reached;
}

template <class Admit>
Reached reach(const PassageGraph& graph, NodeId start, Admit admit) {
  return reach(graph, std::vector<NodeId>{start}, admit);
}

template <class Admit>
Reached reaching(const PassageGraph& graph, std::vector<NodeId> front, Admit admit) {
  Reached reached{std::vector<std::int32_t>(graph.leaving.size(), -2)};
  for (NodeId goal : front) reached.by[goal.index] = -1;
  for (std::size_t next = 0; next < front.size(); ++next)
    for (std::uint32_t index : graph.arriving[front[next].index]) {
      const Passage& passage = graph.passages[index];
      if (reached.by[passage.from.index] != -2 || !admit(passage)) continue;
      reached.by[passage.from.index] = static_cast<std::int32_t>(index);
      front.push_back(passage.from);
    }
  return reached;
}

}  // namespace ferrule
