// One A4 side: a spool valve cut open in each of its positions, as the circuit's states show it.
#pragma once

#include <string>
#include <vector>

#include "render/sections/section.hpp"

namespace ferrule::sections {

struct PositionShown {
  std::string caption;              // "position a: P>A B>T"
  std::string where;                // "in step squeeze"; what the oil shown comes from
  Now now;
};

struct SectionPage {
  std::string title, subtitle;      // "1V1 4/3 directional control valve", the circuit
  std::vector<PositionShown> positions;  // by position of the valve
};

// What the oil of a position would be with supply at P and the reservoir at T, when no state of the circuit shows it.
Now assumed(const PositionTable& table, std::size_t position);

// A sheet per four positions, all at one scale.
void paint_page(canvas::Canvas& paper, const Spool& spool, const Part& valve, const SectionPage& page);

}  // namespace ferrule::sections
