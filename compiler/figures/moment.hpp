// What an operating point says beyond pressures and flows: what each end gives, where power goes, what heats the oil.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "compiler/hydraulics/bodies.hpp"
#include "compiler/hydraulics/reading.hpp"

namespace ferrule::working {

// One end of an element.
struct EndAt {
  std::uint32_t element, end;
};

struct Moment {
  Moment(const Circuit& circuit, const State& state, const OperatingPoint& point, const std::vector<hydraulics::MovingBody>& bodies);

  const Circuit& circuit;
  const State& state;
  const OperatingPoint& point;
  const std::vector<hydraulics::MovingBody>& bodies;
  mutable hydraulics::Reading reading;        // facts as this state commands them

  std::vector<std::array<double, 3>> given;   // by element: m3/s that it gives to the node of each end; NaN where undetermined
  std::vector<std::uint32_t> group;           // by node: nodes of one group are joined without loss in this state
  std::vector<const hydraulics::MovingBody*> body;  // by element: what it moves with, or null
  std::vector<double> heat;                   // by element, W; what it gives to the oil
  double shaft = 0;                           // W, of all pumps
  double hydraulic = 0;                       // W, that pumps give to the oil
  double work = 0;                            // W, given to loads; what lowered loads give is negative
  double stored = 0;                          // W, from gas, pressurised reservoirs and trapped springs of air into the oil
  double lifted = 0;                          // W, that rising lines take

  // The ends of elements at the group of this node, in the order of the elements.
  std::span<const EndAt> ends_at(NodeId node) const;
  double pressure(NodeId node) const { return point.pressure[node.index]; }
  double heat_of_all() const;
  // Power an element takes from the oil: sum of pressure times flow taken.
  double taken(ElementId element) const;

 private:
  mutable std::vector<std::vector<EndAt>> ends_;  // by group; gathered when first asked for
};

// W at the shaft of a pump: p q / (eta_v eta_hm), ISO 4391 with constant efficiencies.
double shaft_power(const Moment& moment, ElementId pump);
bool is_pump(const Moment& moment, const Element& element);
// Where a pump delivers to and draws from in this state: a pump that is swung over centre does so the other way round.
NodeId outlet_of(const Moment& moment, ElementId pump);
NodeId inlet_of(const Moment& moment, ElementId pump);
// What the load of a body resists outward with, N or N m: stated for the step, else of the part; springs included.
double load_on(const Moment& moment, const hydraulics::MovingBody& body);
// It stands: what it takes in is below all leakage (6e-5 L/min).
bool stands_still(const hydraulics::MovingBody& body, double speed);
const Motion* stated_motion(const State& state, const hydraulics::MovingBody& body);

}  // namespace ferrule::working
