// Proofs over all states without listing them, and searches for ways that some state may open.
#pragma once

#include <functional>
#include <utility>

#include "compiler/paths/paths.hpp"

namespace ferrule {

// A position chosen for some valves, by part; -1 where none is chosen (the valve then conducts nothing).
using Positions = std::vector<std::int16_t>;

// Ways that are open in every position of every valve, and those that the chosen positions open.
bool is_sure(const Circuit& circuit, const PassageGraph& graph, const Passage& passage);
bool is_sure_in(const Passage& passage, const Circuit& circuit, const Positions& positions);

// Nodes from which oil surely gets off to the reservoir without a relief in between: only back pressure stands there.
std::vector<bool> surely_relieved(const Circuit& circuit, const PassageGraph& graph);

struct Proof {
  enum class Verdict : std::uint8_t {
    sure,             // holds over sure passages alone: all states at once
    every_position,   // holds in every position vector of the cut
    fails,            // `witness` is one vector in which it does not hold
    not_proved,       // the cut is too large to be listed; `cut` names it
  } verdict = Verdict::not_proved;
  Reached reached;                                       // of the proof, or of the failing vector
  std::vector<std::pair<PartId, std::int16_t>> witness;  // positions of the failing vector, only those that matter
  std::vector<PartId> cut;                               // valves whose position had to be asked, in the order of asking
  std::size_t vectors = 0;                               // position vectors looked at
};

// What is to hold of the nodes reached from the start. It must be monotone: more nodes never make it false.
using Claim = std::function<bool(const Reached&)>;

// First over sure passages; then by the positions of the valves that border the reached set, at most `most` vectors
// (checks page B.0). No way goes on through a reservoir.
Proof prove_for_all(const Circuit& circuit, const PassageGraph& graph, NodeId start, const Claim& claim,
                    std::size_t most = 729);

// Passages that leave the reached set and were not taken: what would have to open.
std::vector<std::uint32_t> border_of(const PassageGraph& graph, const Reached& reached);

struct PossibleWay {
  std::optional<Way> way;
  std::vector<std::pair<PartId, std::int16_t>> positions;  // of the valves on the way: one each
  bool complete = true;                                    // false: given up after `most` steps; "no way" is then not proved
};

// A way that some feasible state may open, from where oil is under pressure: one position for each valve along the whole
// way, and never on through a node that is surely relieved (only back pressure acts beyond it).
PossibleWay possible_way(const Circuit& circuit, const PassageGraph& graph, NodeId start,
                         const std::function<bool(NodeId)>& is_goal, std::size_t most = 20000);

}  // namespace ferrule
