// The inside of a spool valve, made from its position table alone: chambers, lands, drilling, and how far each position shifts it.
//
// Lengths in mm along the axis of the bore, from the left face of the housing. Proportions are the house's own; the form of such
// figures is common practice of textbooks (from memory).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/model/circuit.hpp"

namespace ferrule::sections {

// Ports in groups: {{"P", "A"}, {"B", "T"}}. Ports that stand alone are shut.
using Groups = std::vector<std::vector<std::string>>;

struct PositionTable {
  std::vector<std::string> ports;   // in the order in which the rows name them
  std::vector<Groups> joined;       // by position, left box first
  int rest = 0;
};
// What the rows of a directional valve join; throttled and metered paths join as well.
PositionTable table_of(const Part& valve);

struct Interval {
  double from = 0, to = 0;
};

struct Chamber {
  int port = 0;                     // index into Spool::ports
  Interval at;
};

struct Spool {
  std::vector<std::string> ports;
  std::vector<Chamber> chambers;    // from left to right; chambers of one port are joined inside the housing
  std::vector<Interval> lands;      // at rest; between them are grooves
  std::vector<double> holes;        // radial, at rest; joined by one axial drilling
  std::vector<double> offsets;      // by position: how far the spool stands to the right of rest
  double length = 0;                // of the housing; at rest the spool ends at its faces
};

inline constexpr double stroke = 8, web = 6.5, hole_radius = 0.9;

// A spool that joins in every position what the table says and nothing else. None when no single spool with one drilling
// does: `why` says so.
std::optional<Spool> spool_for(const PositionTable& table, std::string& why);

// What the geometry joins in a position, read from chambers, lands and holes: groups of more than one port, sorted.
Groups joins_at(const Spool& spool, std::size_t position);
// The same form, of a table.
Groups sorted_groups(const Groups& groups);

}  // namespace ferrule::sections
