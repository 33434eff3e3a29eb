// Losses in series and side by side become one before the equations are set up, and are told apart again afterwards.
//
// Series: drops add at one flow. Side by side: of square laws the roots of the conductances add, and each takes its
// share of the flow (textbook rules for orifices). A valve bank at rest, hundreds of centres in parallel, is one loss.
#pragma once

#include <deque>
#include <vector>

#include "compiler/hydraulics/network.hpp"

namespace ferrule::hydraulics {

class Merging {
 public:
  // Adds merged branches to `network` and marks their members in `taken`. `touching` counts the terminals at each point
  // of branches not taken, and is kept so.
  void merge(Network& network, std::vector<bool>& taken, std::vector<std::uint32_t>& touching);
  // Flows of the members and pressures between them, from those of the merged branches.
  void tell_apart(const Network& network, Solution& solution) const;

 private:
  struct Edge {
    std::uint32_t low, high, branch;  // points in order; flows of the branch run from its own first terminal
  };
  struct Pair {
    std::uint32_t merged, one, two;   // branches
    bool turn_one, turn_two;          // the member runs against the merged branch
    std::uint32_t between;            // the point in series; none side by side
  };
  std::vector<Edge> edges_of(const Network& network, const std::vector<bool>& taken) const;
  bool merge_parallel(Network& network, std::vector<bool>& taken, std::vector<std::uint32_t>& touching);
  bool merge_series(Network& network, std::vector<bool>& taken, std::vector<std::uint32_t>& touching);
  std::uint32_t add(Network& network, std::uint32_t from, std::uint32_t to, const Resistance& resistance);

  std::deque<AnyLaw> laws_;
  std::vector<Pair> pairs_;
};

}  // namespace ferrule::hydraulics
