// Two partitions of the same things, and where they part company. Internal to render/readback.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "render/readback/netlist.hpp"

namespace ferrule::readback {

// A port (or, for shafts, a part): the net it has in the text and the net it has on paper.
struct Member {
  std::string name;                  // "1V1.P"
  std::size_t told = 0, read = 0;    // names of nets; any numbers
  std::optional<Spot> spot;          // where it is drawn; none when it is not
};

// `meetings` by number of a read net: where its ink met ink of another net.
std::vector<Fault> disagreements(const std::vector<Member>& members, const std::vector<std::vector<Spot>>& meetings);

// "0P1.P, 0V1.P and 1V1.P"; of many the first four and how many more.
std::string listed(const std::vector<std::string>& names);

}  // namespace ferrule::readback
