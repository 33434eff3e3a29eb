#include "render/layout/levels.hpp"

#include <algorithm>

namespace ferrule::layout {

namespace {

constexpr double trough = 0, pump = 10, supply = 20, rail = 25, under_valve = 30, valve = 40, lane = 60, actuator = 80;

// A line that leaves the block: the supply sees it go up to the valves, a branch sees a rail under its own.
double level_beyond(int block) { return block == 0 ? valve : rail; }
constexpr double over_its_line = 4;     // what ends a line, a gauge, stands on it
constexpr int passes = 24;

// What must not be moved, and where the rest begins.
struct Start { double level; bool fixed; };

Start start_of(const Node& node) {
  if (node.kind != Node::Kind::symbol || node.item->in_trough || node.item->trough) return {trough, true};
  if (goes_on(*node.item)) return {node.block == 0 ? pump : valve, true};
  if (node.primary) return {valve, true};
  if (node.item->tier == Tier::actuator) return {actuator, true};
  if (node.item->family == "pump") return {pump, true};
  const bool lanes = node.item->tier == Tier::modulation || directional(*node.item);
  return {node.block == 0 ? supply : lanes ? lane : under_valve, false};
}

// A net's ends in one block; the rest of the net is reached by a rail, and counts as one end.
struct Share {
  int block = 0, count = 0;
  double sum = 0;
  bool leaves = false;
};

struct Shares {
  std::vector<Share> all;
  std::vector<int> of_tap;           // -1 when it hangs

  Shares(const Plan& plan, const NetTaps& by_net) : of_tap(plan.taps.size(), -1) {
    for (const auto& taps : by_net) {
      const std::size_t first = all.size();
      std::vector<std::pair<int, int>> by_block;
      for (const int t : taps) by_block.push_back({plan.nodes[plan.taps[t].node].block, t});
      std::stable_sort(by_block.begin(), by_block.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
      for (const auto& [block, t] : by_block) {
        if (all.size() == first || all.back().block != block) all.push_back({block, 0, 0, false});
        ++all.back().count, of_tap[t] = int(all.size()) - 1;
      }
      for (std::size_t i = first; i < all.size(); ++i) all[i].leaves = all.size() - first > 1;
    }
  }

  void sum_up(const Plan& plan, const std::vector<double>& level) {
    for (Share& share : all) share.sum = 0;
    for (std::size_t t = 0; t < of_tap.size(); ++t)
      if (of_tap[t] >= 0) all[of_tap[t]].sum += level[plan.taps[t].node];
  }
};

double mean_of_ends(const Plan& plan, const Node& node, const Shares& shares, double own) {
  double total = 0;
  int nets = 0;
  for (const int t : node.taps) {
    if (shares.of_tap[t] < 0 || pin_of(plan, plan.taps[t]).use != PortUse::main) continue;   // signals and drains say nothing about height
    const Share& share = shares.all[shares.of_tap[t]];
    const int others = share.count - 1 + (share.leaves ? 1 : 0);
    if (others > 0) total += (share.sum - own + (share.leaves ? level_beyond(share.block) : 0)) / others, ++nets;
  }
  if (nets == 0) return own;
  return total / nets + (nets == 1 && node.taps.size() == 1 ? over_its_line : 0);
}

}  // namespace

bool directional(const Item& item) {
  return item.tier == Tier::control && (item.family == "directional" || item.family == "section");
}

bool has_hint(const Item& item, const char* word) {
  return std::find(item.hints.begin(), item.hints.end(), word) != item.hints.end();
}

bool goes_on(const Item& item) { return has_hint(item, "goes-on"); }

double Levels::seen(const Plan& plan, int from, int other) const {
  return plan.nodes[from].block == plan.nodes[other].block ? of[other] : level_beyond(plan.nodes[from].block);
}

Levels levels_of(const Plan& plan, const NetTaps& by_net) {
  Levels levels;
  std::vector<char> fixed;
  for (const Node& node : plan.nodes) {
    const Start start = start_of(node);
    levels.of.push_back(start.level), fixed.push_back(start.fixed);
  }
  Shares shares(plan, by_net);
  for (int pass = 0; pass < passes; ++pass) {
    shares.sum_up(plan, levels.of);
    for (std::size_t n = 0; n < plan.nodes.size(); ++n)
      if (!fixed[n]) levels.of[n] = mean_of_ends(plan, plan.nodes[n], shares, levels.of[n]);
  }
  return levels;
}

std::vector<char> over_valves(const Plan& plan, const NetTaps& by_net) {
  std::vector<char> over(plan.nodes.size(), 0), seen(by_net.size(), 0);
  std::vector<int> queue;
  for (std::size_t n = 0; n < plan.nodes.size(); ++n)
    if (plan.nodes[n].block > 0 && plan.nodes[n].item->tier == Tier::actuator) queue.push_back(int(n));
  for (std::size_t i = 0; i < queue.size(); ++i)
    for (const int t : plan.nodes[queue[i]].taps) {
      const int net = plan.taps[t].net, block = plan.nodes[queue[i]].block;
      if (seen[net] || pin_of(plan, plan.taps[t]).use != PortUse::main) continue;
      const auto& ends = by_net[net];
      if (std::any_of(ends.begin(), ends.end(), [&](int o) { return plan.nodes[plan.taps[o].node].block != block; })) continue;
      seen[net] = 1;
      for (const int o : ends) {
        const int other = plan.taps[o].node;
        if (over[other] || plan.nodes[other].primary || plan.nodes[other].kind != Node::Kind::symbol) continue;
        if (pin_of(plan, plan.taps[o]).use != PortUse::main) continue;
        over[other] = 1, queue.push_back(other);
      }
    }
  return over;
}

}  // namespace ferrule::layout
