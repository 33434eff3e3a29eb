// The net list that a drawing shows, rebuilt from its geometry alone.
//
// What joins (ISO 1219-1, from memory; layout.md's rules for dots): a line that ends at a port, two pieces that meet in a
// corner, and whatever meets under a dot. Lines that cross without a dot pass each other. Three ways that meet without a dot are
// read as joined and are a fault. References of the same name that point at each other are one line.
#pragma once

#include <string>
#include <vector>

#include "render/readback/geometry.hpp"
#include "render/readback/ink.hpp"

namespace ferrule::readback {

// A port as it stands on paper. What only stands for a component or belongs to it (a mark of a reservoir, a breather, a load)
// is called by that component and has an empty `port`.
struct Terminal {
  std::string component, port;
  bool shaft = false;
  Spot spot;
};

struct ReadNet {
  std::vector<Terminal> ends;        // in the order of the file
  std::vector<Spot> meetings;        // where ink of one net of the file meets that of another: a hint for messages
};

struct Netlist {
  std::vector<ReadNet> oil;          // every port of the drawing is in exactly one; alone when nothing reaches it
  std::vector<ReadNet> shafts;       // ports that shafts and rods reach
  std::vector<Fault> faults;         // what cannot be read one way only: loose ends, missing or idle dots, lone references
};

Netlist netlist_of(const Geometry& geometry);

}  // namespace ferrule::readback
