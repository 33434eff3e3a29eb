// How fast a body can move in one state at the most, from what feeds it and what holds it.
#pragma once

#include <cmath>
#include <span>
#include <utility>
#include <vector>

#include "compiler/hydraulics/most_flows.hpp"
#include "compiler/hydraulics/open_ways.hpp"

namespace ferrule::hydraulics {

// One body moving one way.
struct Movement {
  const MovingBody& body;
  std::int32_t index;
  bool outward;
  double resistance;  // bar on the reference area; below nil the load drives

  double push(std::size_t chamber) const { return outward ? body.area[chamber] : -body.area[chamber]; }
  bool drives(std::size_t chamber) const { return push(chamber) > 0; }
  bool yields(std::size_t chamber) const { return push(chamber) < 0; }
  // L/min into the chamber for each L/min of the body.
  double taken(std::size_t chamber) const { return -body.gives[2 * chamber + (outward ? 0 : 1)]; }
};

double intake(const Movement& movement);   // sums over the chambers that fill, and that empty
double exhaust(const Movement& movement);

// What every question about a body needs of the circuit; read once.
struct Supply {
  Supply(const Shared& shared, const PassageGraph& graph, std::span<const State> states);

  const Shared& shared;
  const PassageGraph& graph;
  OpenWays ways;
  double flow = 0;                     // L/min of all pumps, leakage included
  std::vector<bool> relieved;          // by node: surely open to the reservoir, or the reservoir itself
  std::vector<bool> outlet;            // by node: of a pump
  std::vector<std::int32_t> body_at;   // by node: whose chamber it is; -1 none
  std::vector<bool> commanded;         // by part: some state sets its data anew
  Reached to_tank;                     // the sure ways to the reservoir
  double gain = 1;                     // no line carries more than this times `flow`; assumed, and to be found true
  double least_gain = 1, round_gain = 1;  // the largest gain of a body without and with oil that comes round to its intake
  bool beyond_proof = false;           // stores, pressurised reservoirs, bodies that pumps and loads do not drive
  mutable std::vector<bool> seen;      // scratch of zone_of

  // The most that returning oil can press with at a relieved node, bar.
  double back_pressure(NodeId node) const;
};

struct Pace {
  double most = 0;                                          // L/min of the body's reference volume, or `unbounded`
  bool comes_round = false;                                 // its exhaust may reach its intake
  bool lasts = true;                                        // false: more valves have a say than are worth comparing
  std::vector<std::pair<PartId, std::int16_t>> valves;      // it is the same in every state that has these so
};
Pace pace_of(const Supply& supply, const Moment& moment, const Movement& movement);

}  // namespace ferrule::hydraulics
