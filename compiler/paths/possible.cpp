// Hazards are searched over what may conduct; a way that would need one valve in two positions is none.
#include <algorithm>
#include <deque>

#include "compiler/paths/proof.hpp"

namespace ferrule {
namespace {

using Choice = std::vector<std::pair<PartId, std::int16_t>>;  // sorted by part

struct Stride {
  NodeId node;
  Choice choice;
  std::int32_t from = -1;     // index of the step before
  std::uint32_t passage = 0;  // that led here
};

// With a subset of the choices one can go on wherever one can with all of them.
bool is_covered(const std::vector<const Choice*>& seen, const Choice& choice) {
  return std::any_of(seen.begin(), seen.end(), [&](const Choice* other) {
    return std::includes(choice.begin(), choice.end(), other->begin(), other->end());
  });
}

// The choice with this valve in this position, or none when it is already in another.
std::optional<Choice> with(const Choice& choice, PartId part, std::int16_t position) {
  const auto place = std::lower_bound(choice.begin(), choice.end(), std::pair{part, std::int16_t{-1}});
  if (place != choice.end() && place->first == part)
    return place->second == position ? std::optional(choice) : std::nullopt;
  Choice longer(choice.begin(), place);
  longer.push_back({part, position});
  longer.insert(longer.end(), place, choice.end());
  return longer;
}

class Search {
 public:
  Search(const Circuit& circuit, const PassageGraph& graph, std::size_t most)
      : circuit_(circuit), graph_(graph), relieved_(surely_relieved(circuit, graph)), most_(most),
        seen_(circuit.nodes.size()) {}

  PossibleWay from(NodeId start, const std::function<bool(NodeId)>& is_goal) {
    add({start, {}, -1, 0});
    for (std::size_t next = 0; next < steps_.size(); ++next) {
      if (is_goal(steps_[next].node)) return found(next);
      if (!relieved_[steps_[next].node.index] && !extend(next)) return {std::nullopt, {}, false};
    }
    return {};
  }

 private:
  void add(Stride step) {
    if (is_covered(seen_[step.node.index], step.choice)) return;
    steps_.push_back(std::move(step));
    seen_[steps_.back().node.index].push_back(&steps_.back().choice);
  }

  // False when the search has grown too large.
  bool extend(std::size_t from) {
    for (std::uint32_t index : graph_.leaving[steps_[from].node.index]) {
      const Passage& passage = graph_.passages[index];
      if (steps_.size() >= most_) return false;
      const auto choice = passage.position < 0
                              ? std::optional(steps_[from].choice)
                              : with(steps_[from].choice, circuit_.elements[passage.element].part, passage.position);
      if (choice) add({passage.to, *choice, static_cast<std::int32_t>(from), index});
    }
    return true;
  }

  PossibleWay found(std::size_t last) const {
    PossibleWay result;
    result.way.emplace();
    result.positions = steps_[last].choice;
    for (auto step = static_cast<std::int32_t>(last); steps_[step].from >= 0; step = steps_[step].from)
      result.way->passages.push_back(steps_[step].passage);
    std::reverse(result.way->passages.begin(), result.way->passages.end());
    return result;
  }

  const Circuit& circuit_;
  const PassageGraph& graph_;
  std::vector<bool> relieved_;
  std::size_t most_;
  std::deque<Stride> steps_;  // `seen_` points into it
  std::vector<std::vector<const Choice*>> seen_;
};

}  // namespace

PossibleWay possible_way(const Circuit& circuit, const PassageGraph& graph, NodeId start,
                         const std::function<bool(NodeId)>& is_goal, std::size_t most) {
  return Search(circuit, graph, most).from(start, is_goal);
}

}  // namespace ferrule
