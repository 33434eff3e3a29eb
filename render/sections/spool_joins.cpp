// What a spool joins, by the intervals of its geometry: chambers with grooves, grooves and chambers with the drilling.
#include <algorithm>
#include <numeric>

#include "render/sections/spool.hpp"

namespace ferrule::sections {
namespace {

bool overlap(const Interval& a, const Interval& b) { return std::min(a.to, b.to) - std::max(a.from, b.from) > 1e-9; }
Interval moved(const Interval& a, double by) { return {a.from + by, a.to + by}; }

struct Union {
  std::vector<std::size_t> parent;
  explicit Union(std::size_t many) : parent(many) { std::iota(parent.begin(), parent.end(), std::size_t{0}); }
  std::size_t root(std::size_t i) {
    while (parent[i] != i) i = parent[i] = parent[parent[i]];
    return i;
  }
  void join(std::size_t a, std::size_t b) { parent[root(a)] = root(b); }
};

}  // namespace

Groups sorted_groups(const Groups& groups) {
  Groups out;
  for (std::vector<std::string> group : groups) {
    std::sort(group.begin(), group.end());
    if (group.size() > 1) out.push_back(std::move(group));
  }
  std::sort(out.begin(), out.end());
  return out;
}

Groups joins_at(const Spool& spool, std::size_t position) {
  const double by = spool.offsets[position];
  const std::size_t ports = spool.ports.size(), grooves = spool.lands.empty() ? 0 : spool.lands.size() - 1, drilling = ports + grooves;
  Union oil(drilling + 1);
  for (std::size_t g = 0; g < grooves; ++g) {
    const Interval groove = moved({spool.lands[g].to, spool.lands[g + 1].from}, by);
    for (const Chamber& chamber : spool.chambers)
      if (overlap(groove, chamber.at)) oil.join(ports + g, static_cast<std::size_t>(chamber.port));
  }
  for (const double hole : spool.holes) {
    const Interval mouth{hole - hole_radius, hole + hole_radius};
    for (std::size_t g = 0; g < grooves; ++g)
      if (overlap({spool.lands[g].to, spool.lands[g + 1].from}, mouth)) oil.join(drilling, ports + g);
    for (const Chamber& chamber : spool.chambers)
      if (overlap(moved(mouth, by), chamber.at)) oil.join(drilling, static_cast<std::size_t>(chamber.port));
  }
  Groups groups(drilling + 1);
  for (std::size_t p = 0; p < ports; ++p) groups[oil.root(p)].push_back(spool.ports[p]);
  return sorted_groups(groups);
}

}  // namespace ferrule::sections
