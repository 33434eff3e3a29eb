// The circuit's graph against the net list read from paper. Internal to render/readback.
#pragma once

#include <vector>

#include "compiler/model/circuit.hpp"
#include "render/readback/partition.hpp"

namespace ferrule::readback {

struct Compared {
  std::size_t ports = 0, nets = 0;   // of the text: ports of its symbols, nets of two ports or more
  std::vector<Fault> faults;
};

// Oil: nodes with the pipes taken out, since a pipe is a line of the drawing. A reservoir is one point; what stands in it is
// open to it.
Compared compared_oil(const Circuit& circuit, const Geometry& geometry, const Netlist& read);

// Shafts and rods: parts that turn together by the fact that names their drive. A load goes with its actuator.
std::vector<Fault> compared_shafts(const Circuit& circuit, const Netlist& read);

}  // namespace ferrule::readback
