// How fast oil passes through a line, and how fast it may, by what the line is for and the pressure that may stand in it.
//
// Limits are common practice (trade texts span the brackets, m/s): suction 1.2 (0.5-1.5); return 3.0 (1.5-4.6); drain 1.5 (1-2);
// pressure to 25 bar 3.0, to 50 bar 4.0, to 100 bar 5.0, to 200 bar 6.0, above 7.0 (2-10).
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "checks/machinery/rule.hpp"

namespace ferrule {

struct SpeedLimit {
  double speed = 0;            // m/s
  std::string source;
  double lowest = 0;           // m/s; below `speed` where nothing limits the pressure of the zone: what is allowed at any pressure
  bool unlimited_zone() const { return lowest < speed; }
};
// `require` of the circuit goes before practice. `bore` in m (a drilling shorter than ten bores has no time to build up its loss
// and may be passed half as fast again); `ceiling` in Pa, none where nothing limits the pressure.
SpeedLimit speed_limit(const Circuit& circuit, const Line& line, double bore, std::optional<double> ceiling);

// The most pressure that may stand in a pipe, from that of the nodes (ceilings_of); none where nothing limits it.
std::optional<double> ceiling_of(const std::vector<std::optional<double>>& ceilings, const Element& pipe);

struct LineFlow {
  double most = 0;               // m3/s
  const State* state = nullptr;  // in which
  std::size_t unsolved = 0;      // states without numbers
  bool is_bound = false;         // no state was solved: none can send more
};
// Motions of different steps never add up, so a valve that comes late makes no flow of its own (checks page B.0).
std::span<const State> before_late(const States& states);
// Over all states that count.
LineFlow greatest_flow(const Solved& solved, ElementId pipe);
// What a pump takes in is its geometric flow, not what it delivers: a suction line carries at least that when it carries `flow`.
double with_geometric(const Solved& solved, const Line& line, const Element& pipe, double flow);

// A pilot line, a linkage, or what leads the air and the leakage of a vent: nothing to size it for.
bool carries_no_steady_flow(const Circuit& circuit, LineFunction function, const Element& pipe);
// The element of each line, by part; null for what is no line.
std::vector<const Element*> pipes_of(const Circuit& circuit);

}  // namespace ferrule
