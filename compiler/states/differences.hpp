// Where two lists of valve positions differ: of a thousand valves a step moves two, so blocks are compared first.
#pragma once

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <vector>

namespace ferrule {

// Calls `use(part)` for every part that stands differently; the lists are of one length.
template <class Use>
void each_difference(const std::vector<std::int16_t>& a, const std::vector<std::int16_t>& b, Use use) {
  constexpr std::size_t block = 64;
  for (std::size_t first = 0; first < a.size(); first += block) {
    const std::size_t count = std::min(block, a.size() - first);
    if (std::memcmp(a.data() + first, b.data() + first, count * sizeof a[0]) == 0) continue;
    for (std::size_t part = first; part < first + count; ++part)
      if (a[part] != b[part]) use(part);
  }
}

}  // namespace ferrule
