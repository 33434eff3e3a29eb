// The moving things of a state: pistons of one rod or one tie, motors; what resists them and whether they may move.
#pragma once

#include <string>
#include <vector>

#include "compiler/hydraulics/network.hpp"
#include "compiler/hydraulics/reading.hpp"

namespace ferrule::hydraulics {

struct MovingBody {
  std::vector<ElementId> elements;  // pistons or displacement units
  bool turns = false;
  double reference = 1;             // m2 of the first piston's cap, or m3/rad: 1 L/min of displaced flow moves 1/reference
  double load_out = 0, load_in = 0; // N or N m, see Body
  double friction = 0;              // N or N m
  double efficiency = 1;
  bool friction_known = false;
  bool locked = false;              // stands on a stop or the work
  std::uint32_t branch = 0xffffffff;
};

// All bodies of the circuit, in the order of its elements.
std::vector<MovingBody> bodies_of(Reading& reading);

// Areas of a piston, m2: facing the cap and facing the rod end.
struct PistonAreas {
  double cap = 0, rod_end = 0;
};
PistonAreas areas_of(Reading& reading, const Element& piston);

bool is_pump(Reading& reading, const Element& displacement);

}  // namespace ferrule::hydraulics
