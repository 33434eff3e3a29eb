// One box of a directional valve: where its ports lie and how its flow paths are drawn (ISO 1219-1; the rule is ours where the
// standard shows examples only).
#pragma once

#include "render/symbols/figure.hpp"

namespace ferrule::symbols {

struct BoxPorts {
  double width = 4, height = 4;
  struct At { std::string name; double x = 0, y = 0; };
  std::vector<At> ports;              // in the order in which blocked ports are drawn
  const At* find(const std::string& name) const;
};

// Which way a name of a port looks and where it stands, for all ports that the rows of one valve name. A, B and C2 look up,
// P, T and the like down; of numbered ports the one that most rows join looks up. Ports stand 2 M apart, 1 M from the corner,
// one alone in the middle unless two stand on the other side.
BoxPorts box_ports(const std::vector<PositionRow>& rows);

// The paths of one position inside its box, origin in its top left corner:
//   blocked port: a stub of 1 M with a bar; two ports: one straight line, or up, across and back when they lie on one side;
//   three and more, or a restriction: from every port to the middle line and a cross line there. A path between opposite
//   sides is slanting where it must be, and slanting lines cross without a joint.
Strokes box_strokes(const BoxPorts& box, const std::vector<RowPath>& paths);

}  // namespace ferrule::symbols
