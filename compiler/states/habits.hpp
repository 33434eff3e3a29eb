// What of a circuit is the same in every moment, read once: a thousand states must not ask a thousand parts each.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "compiler/paths/pilots.hpp"

namespace ferrule {

struct Habits {
  explicit Habits(const Circuit& circuit);

  std::vector<std::int16_t> at_rest;             // by part: where a valve goes that nothing acts on; -1 without positions
  std::vector<PartId> staying;                   // valves that may stay where a pulse or a hand put them
  std::vector<PartId> drives;                    // what runs or stands by itself: prime movers, pumps without one
  std::vector<std::pair<PartId, PartId>> pumps;  // with what drives them
  std::vector<Pilot> pilots;
  std::optional<PassageGraph> graph;             // the ways a pilot is fed by; none where nothing is piloted
};

}  // namespace ferrule
