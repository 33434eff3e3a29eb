// A DXF file as its groups say, read without a line of the writer's code. Lengths in mm, y up from the lower edge.
#pragma once

#include <set>
#include <string>
#include <vector>

namespace dxf_reader {

struct Point {
  double x = 0, y = 0;
};

struct Entity {
  std::string kind, layer, line_type, text;
  bool closed = false;
  std::vector<Point> points;     // LINE: both ends; POLYLINE: its vertices; CIRCLE, ARC: the centre; TEXT: where it is aligned
  double size = 0, from = 0, to = 0, turned = 0;   // radius or height of letters; angles
};

struct File {
  std::string version;
  std::set<std::string> layers, line_types, styles;
  std::vector<Entity> entities;
  std::vector<std::string> faults;   // what breaks the format: "a VERTEX outside a POLYLINE"
};

File read(const std::string& bytes);

}  // namespace dxf_reader
