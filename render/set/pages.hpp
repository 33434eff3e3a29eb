// The pages of a set that show no circuit: cover, work cycle, parts list. They are A4; a wide work cycle is A3.
#pragma once

#include "render/drawing.hpp"
#include "render/sheet/tables.hpp"

namespace ferrule::set {

// The parts list: where each part stands is filled in, page by page, in DrawnSheet::parts.
std::vector<DrawnSheet> pages_of_parts(const std::vector<DrawnPart>& parts, const std::string& caution);

// The work cycle, a column for each signal on A4, or on A3 where the set has sheets so wide, else in words; none when there are no
// steps.
std::vector<DrawnSheet> pages_of_cycle(const sheet::CycleTable& table, const std::string& caution, const sheet::Format& widest);

struct CoverData {
  std::string title, purpose, caution;
  std::vector<DrawnIndexRow> index;
};
// The index of sheets, the cautions, and how references are read.
std::vector<DrawnSheet> pages_of_cover(const CoverData& data, const Drawing& drawing);

}  // namespace ferrule::set
