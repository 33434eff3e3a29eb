// The moving things of a circuit: pistons of one rod or one tie, motors, the sections of a divider.
#pragma once

#include <vector>

#include "compiler/hydraulics/network.hpp"
#include "compiler/hydraulics/reading.hpp"

namespace ferrule::hydraulics {

// What resists outward and inward motion, N or N m.
struct Resistances {
  double out = 0, in = 0;
  bool keeps_its_sense = false;  // presses also on what stands
};
Resistances& operator+=(Resistances& sum, const Resistances& more);
Resistances resisting(double amount, Load::Sense sense);

struct MovingBody {
  std::vector<ElementId> elements;  // pistons or displacement units
  PartId part;                      // of the first
  int tie = -1;
  bool turns = false;
  bool by_itself = false;           // no actuator: nothing says how it moves, so it moves as it must
  double reference = 1;             // m2 of the larger side of the first piston, or m3/rad
  Resistances load;                 // stated once for all steps
  double friction = 0;              // N or N m
  double efficiency = 1;
  bool friction_known = false;
  double spring_retracted = 0, spring_extended = 0;  // N, pushing in
  std::vector<NodeId> chambers;
  std::vector<double> area, gives;  // by chamber: relative area; flow given outward and inward
};

// All bodies of the circuit, in the order of its elements.
std::vector<MovingBody> bodies_of(Reading& reading);

bool is_pump(Reading& reading, const Element& displacement);

}  // namespace ferrule::hydraulics
