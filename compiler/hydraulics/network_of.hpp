// From elements to equations: what of a circuit takes part in one state, and by which law.
#pragma once

#include <cstdint>
#include <deque>
#include <vector>

#include "compiler/hydraulics/bodies.hpp"
#include "compiler/hydraulics/network.hpp"
#include "compiler/hydraulics/prepared.hpp"

namespace ferrule::hydraulics {

inline constexpr std::uint32_t no_branch = 0xffffffff;

// What all states of a circuit share.
struct Shared {
  explicit Shared(const Circuit& circuit);
  Reading reading;                  // outside any step: as the text states it
  double scale_flow = 20;           // L/min of all pumps
  std::vector<Prepared> elements;   // by element
  std::vector<MovingBody> bodies;
};

// The equations of one state; their laws stand in `Shared` or in `own_laws`.
struct Model {
  Network network;
  std::vector<std::uint32_t> point_of;   // by node
  std::vector<std::uint32_t> branch_of;  // by element; no_branch for what passes nothing in this state
  std::vector<std::uint32_t> body_branch;  // by body; no_branch where it is locked
  std::deque<AnyLaw> own_laws;
};

// `step` reads what the state commands; `tripped`: flow fuses that have shut.
Model network_of(const Shared& shared, Reading& step, const std::vector<ElementId>& tripped);

}  // namespace ferrule::hydraulics
