#include "compiler/paths/proof.hpp"

#include <algorithm>

namespace ferrule {
namespace {

// The way exists in every position; in between it may still be shut, which the checks ask of the crossover.
bool exists_in_all_positions(const Circuit& circuit, const PassageGraph& graph, const Passage& passage) {
  const PartId part = circuit.elements[passage.element].part;
  const std::size_t count = circuit.parts[part].positions.size();
  std::vector<bool> present(count);
  for (std::uint32_t index : graph.leaving[passage.from.index]) {
    const Passage& other = graph.passages[index];
    if (other.to != passage.to || other.reliance != Reliance::in_position) continue;
    if (circuit.elements[other.element].part != part) continue;
    if (static_cast<std::size_t>(other.position) < count) present[other.position] = true;
  }
  return count > 0 && std::find(present.begin(), present.end(), false) == present.end();
}

bool is_open_between_positions(const Part& part) {
  const FactValue* crossover = part.fact("crossover");
  return crossover && crossover->word == "open";
}

class Prover {
 public:
  Prover(const Circuit& circuit, const PassageGraph& graph, NodeId start, const Claim& claim, std::size_t most)
      : circuit_(circuit), graph_(graph), start_(start), claim_(claim), most_(most),
        positions_(circuit.parts.size(), std::int16_t{-1}) {}

  Proof prove() {
    proof_.reached = reached_now();
    if (claim_(proof_.reached)) {
      proof_.verdict = Proof::Verdict::sure;
      return std::move(proof_);
    }
    proof_.verdict = Proof::Verdict::every_position;
    branch(proof_.reached);
    return std::move(proof_);
  }

 private:
  Reached reached_now() const {
    return reach(graph_, start_, [&](const Passage& passage) {
      if (graph_.tank[passage.from.index]) return false;
      return is_sure_in(passage, circuit_, positions_) || is_sure(circuit_, graph_, passage);
    });
  }

  // The first valve at the border whose position has not been asked.
  PartId undecided(const Reached& reached) const {
    for (std::uint32_t index : border_of(graph_, reached)) {
      const Passage& passage = graph_.passages[index];
      const PartId part = circuit_.elements[passage.element].part;
      if (passage.reliance == Reliance::in_position && positions_[part.index] < 0) return part;
    }
    return {};
  }

  void settle(const Reached& reached) {
    ++proof_.vectors;
    if (claim_(reached)) return;
    proof_.verdict = Proof::Verdict::fails;
    proof_.reached = reached;
    for (std::uint32_t part = 0; part < positions_.size(); ++part)
      if (positions_[part] >= 0) proof_.witness.push_back({PartId{part}, positions_[part]});
  }

  bool is_over() const { return proof_.verdict != Proof::Verdict::every_position; }

  // Depth is bounded by the number of valves at the border, which the count of vectors bounds in turn.
  void branch(const Reached& reached) {
    const PartId valve = claim_(reached) ? PartId{} : undecided(reached);
    if (!valve) return settle(reached);
    if (std::find(proof_.cut.begin(), proof_.cut.end(), valve) == proof_.cut.end()) proof_.cut.push_back(valve);
    const auto count = static_cast<std::int16_t>(circuit_.parts[valve].positions.size());
    for (std::int16_t position = 0; position < count && !is_over(); ++position) {
      if (proof_.vectors >= most_) {
        proof_.verdict = Proof::Verdict::not_proved;
        break;
      }
      positions_[valve.index] = position;
      branch(reached_now());
    }
    positions_[valve.index] = -1;
  }

  const Circuit& circuit_;
  const PassageGraph& graph_;
  NodeId start_;
  const Claim& claim_;
  std::size_t most_;
  Positions positions_;
  Proof proof_;
};

}  // namespace

bool is_sure(const Circuit& circuit, const PassageGraph& graph, const Passage& passage) {
  if (passage.reliance == Reliance::sure) return true;
  if (passage.reliance != Reliance::in_position) return false;
  return is_open_between_positions(circuit.parts[circuit.elements[passage.element].part]) &&
         exists_in_all_positions(circuit, graph, passage);
}

bool is_sure_in(const Passage& passage, const Circuit& circuit, const Positions& positions) {
  if (passage.reliance == Reliance::sure) return true;
  return passage.reliance == Reliance::in_position &&
         positions[circuit.elements[passage.element].part.index] == passage.position;
}

std::vector<bool> surely_relieved(const Circuit& circuit, const PassageGraph& graph) {
  const Reached relieved = reaching(graph, tank_nodes(circuit), [&](const Passage& passage) {
    return !passage.limiter && is_sure(circuit, graph, passage);
  });
  std::vector<bool> nodes(relieved.by.size());
  for (std::size_t node = 0; node < nodes.size(); ++node) nodes[node] = relieved.by[node] != -2;
  return nodes;
}

Proof prove_for_all(const Circuit& circuit, const PassageGraph& graph, NodeId start, const Claim& claim, std::size_t most) {
  return Prover(circuit, graph, start, claim, most).prove();
}

std::vector<std::uint32_t> border_of(const PassageGraph& graph, const Reached& reached) {
  std::vector<std::uint32_t> border;
  for (std::uint32_t index = 0; index < graph.passages.size(); ++index) {
    const Passage& passage = graph.passages[index];
    if (reached.contains(passage.from) && !reached.contains(passage.to) && !graph.tank[passage.from.index])
      border.push_back(index);
  }
  return border;
}

}  // namespace ferrule
