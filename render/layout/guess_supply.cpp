#include <algorithm>
#include <map>

#include "render/layout/guess.hpp"

namespace ferrule::layout {

namespace {

constexpr int left_of_pump = -1, at_pump = 0, beside = 2, right_of_pump = 3, return_line = 4;

bool instrument(const Item& item) { return item.family == "gauge" || item.family == "isolator" || item.family == "switch"; }

struct Supply {
  Plan& plan;
  std::vector<int> stands_on;       // by node: the tap of the lower neighbour it stands straight on, -1
  std::vector<int> own;             // by node: its own tap of that pair
  std::vector<char> main;           // in the line from pump to valves
  std::vector<char> in_line;        // the same, or in a second pump's line that joins it
  std::vector<int> group;           // by node: index of its pump

  explicit Supply(Plan& p)
      : plan(p), stands_on(p.nodes.size(), -1), own(p.nodes.size(), -1), main(p.nodes.size(), 0), in_line(p.nodes.size(), 0), group(p.nodes.size(), -1) {}

  bool in_play(const Node& node) const { return !node.placed_apart && node.kind == Node::Kind::symbol && node.row > 0; }

  // The lowest tap of a strand that leaves upward from a row under `row`.
  int feeder(const Strand& strand, int row) const {
    int best = -1;
    for (const int t : strand.taps) {
      const Tap& tap = plan.taps[t];
      const Node& node = plan.nodes[tap.node];
      if (tap.way != Way::up || node.row >= row || !in_play(node)) continue;
      const bool pump = node.item->family == "pump" || main[tap.node];
      if (best < 0 || (pump && plan.nodes[plan.taps[best].node].item->family == "relief")) best = t;
    }
    return best;
  }

  // In line between pump and valves: fed by a pump or another such part from below, and its upper net goes on.
  void find_main() {
    std::vector<int> nodes = plan.blocks[0].nodes;
    std::stable_sort(nodes.begin(), nodes.end(), [&](int a, int b) { return plan.nodes[a].row < plan.nodes[b].row; });
    std::vector<char> fed(plan.nodes.size(), 0);
    for (const int n : nodes) fed[n] = plan.nodes[n].item->family == "pump" || is_fed(n, fed);
    for (std::size_t i = nodes.size(); i-- > 0;)
      for (const int t : plan.nodes[nodes[i]].taps)
        if (plan.taps[t].way == Way::up && plan.taps[t].strand >= 0 && plan.nodes[nodes[i]].item->family != "pump" && fed[nodes[i]])
          if (leads_on(plan.taps[t])) in_line[nodes[i]] = 1, main[nodes[i]] |= !joins_pump(plan.taps[t]);
  }

  // A second pump's line joins the line of one that stands under it: that one is the main line.
  bool joins_pump(const Tap& tap) const {
    for (const int t : plan.strands[tap.strand].taps)
      if (plan.taps[t].way == Way::up && plan.nodes[plan.taps[t].node].item->family == "pump") return true;
    return false;
  }

  bool is_fed(int n, const std::vector<char>& fed) const {
    for (const int t : plan.nodes[n].taps) {
      const Tap& tap = plan.taps[t];
      if (tap.way != Way::down || tap.strand < 0 || plan.problem->nets[tap.net].kind == NetKind::return_) continue;
      for (const int o : plan.strands[tap.strand].taps)
        if (plan.taps[o].way == Way::up && fed[plan.taps[o].node]) return true;
    }
    return false;
  }

  bool leads_on(const Tap& tap) const {
    if (plan.net_strands[tap.net].size() > 1) return true;
    for (const int t : plan.strands[tap.strand].taps)
      if (plan.taps[t].way == Way::down && main[plan.taps[t].node]) return true;
    return false;
  }

  void find_stacks() {
    for (const int n : plan.blocks[0].nodes) {
      if (!in_play(plan.nodes[n])) continue;
      for (const int t : plan.nodes[n].taps) {
        const Tap& tap = plan.taps[t];
        if (tap.way != Way::down || tap.strand < 0) continue;
        const Strand& strand = plan.strands[tap.strand];
        const bool pair = strand.taps.size() == 2 && plan.net_strands[tap.net].size() == 1;
        if (!pair && !in_line[n]) continue;
        if (const int lower = feeder(strand, plan.nodes[n].row); lower >= 0) stands_on[n] = lower, own[n] = t;
      }
    }
  }

  // Which pump a part belongs to: the first reached through lines that do not leave the supply, then through any.
  void find_groups() {
    std::vector<int> queue;
    for (const int n : plan.blocks[0].nodes)
      if (plan.nodes[n].item->family == "pump" && plan.nodes[n].mate_left < 0) group[n] = int(queue.size()), queue.push_back(n);
    if (queue.empty()) return;
    for (std::size_t i = 0; i < queue.size(); ++i)
      if (const int mate = plan.nodes[queue[i]].mate_right; mate >= 0 && group[mate] < 0) group[mate] = group[queue[i]], queue.push_back(mate);
    for (const bool far : {false, true})
      for (std::size_t i = 0; i < queue.size(); ++i) spread(queue[i], far, queue);
    for (const int n : plan.blocks[0].nodes)
      if (group[n] < 0) group[n] = 0;
  }

  void spread(int n, bool far, std::vector<int>& queue) {
    const std::vector<int> taps = plan.nodes[n].taps;
    for (const int t : taps) {
      const Tap& tap = plan.taps[t];
      if (tap.strand < 0 || (!far && plan.net_strands[tap.net].size() > 1)) continue;
      for (const int o : plan.strands[tap.strand].taps)
        if (const int other = plan.taps[o].node; group[other] < 0) group[other] = group[n], queue.push_back(other);
    }
  }

  bool carries_instrument(int n) const {
    if (instrument(*plan.nodes[n].item)) return true;
    for (const int t : plan.nodes[n].taps) {
      const Tap& tap = plan.taps[t];
      if (tap.strand < 0 || plan.strands[tap.strand].taps.size() != 2) continue;
      for (const int o : plan.strands[tap.strand].taps)
        if (instrument(*plan.nodes[plan.taps[o].node].item)) return true;
    }
    return false;
  }

  // The relief of a pump with another pump on its right stands left, so that no line passes between the two.
  bool of_left_pump(const Node& node) const {
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      if (tap.way != Way::up || tap.strand < 0 || pin_of(plan, tap).use != PortUse::main) continue;
      for (const int o : plan.strands[tap.strand].taps) {
        const Node& pump = plan.nodes[plan.taps[o].node];
        if (plan.taps[o].way == Way::up && pump.item->family == "pump" && pump.mate_right >= 0 &&
            plan.nodes[pump.mate_right].item->family == "pump")
          return true;
      }
    }
    return false;
  }

  bool lifts_signal(const Node& node) const {
    return std::any_of(node.taps.begin(), node.taps.end(), [&](int t) { return plan.taps[t].strand >= 0 && plan.strands[plan.taps[t].strand].lifted; });
  }

  int rank(int n, bool left_free) const {
    const Node& node = plan.nodes[n];
    if (node.item->family == "pump" || node.item->prime_mover) return at_pump;
    if (lifts_signal(node)) return right_of_pump;
    if (carries_instrument(n)) return left_free ? left_of_pump : right_of_pump;
    if (node.item->family == "relief") return of_left_pump(node) ? left_of_pump : beside;
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      if (tap.way == Way::up && plan.problem->nets[tap.net].kind == NetKind::return_) return return_line;
    }
    return right_of_pump;
  }

  void place() {
    std::map<int, std::vector<std::pair<int, int>>> heads;   // group -> (rank, node)
    std::map<int, bool> left_free;
    for (const int n : plan.blocks[0].nodes)
      for (const int t : plan.nodes[n].taps)
        if (plan.nodes[n].item->family == "pump" && plan.taps[t].way != Way::face && pin_of(plan, plan.taps[t]).side == Side::left)
          left_free[group[n]] = false;
    for (const int n : plan.blocks[0].nodes) {
      const Node& node = plan.nodes[n];
      if (!in_play(node) || stands_on[n] >= 0 || node.mate_left >= 0) continue;
      const auto free = left_free.find(group[n]);
      const int r = rank(n, free == left_free.end() || free->second);
      if (r == left_of_pump && node.item->family != "relief") left_free[group[n]] = false;
      heads[r == return_line ? 1 << 20 : group[n]].push_back({r, n});
    }
    int x = 0;
    for (auto& [g, list] : heads) {
      std::stable_sort(list.begin(), list.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
      for (const auto& [r, n] : list) x = put_chain(n, x);
    }
    put_stacks();
    put_floor();
  }

  int put_chain(int n, int x) {
    for (; n >= 0; n = plan.nodes[n].mate_right) {
      Node& node = plan.nodes[n];
      node.guess = x - node.stand().box.left;
      x += girth(node) + 6;
    }
    return x;
  }

  void put_stacks() {
    std::vector<int> nodes = plan.blocks[0].nodes;
    std::stable_sort(nodes.begin(), nodes.end(), [&](int a, int b) { return plan.nodes[a].row < plan.nodes[b].row; });
    for (const int n : nodes)
      if (stands_on[n] >= 0)
        plan.nodes[n].guess = guess_of(plan, plan.taps[stands_on[n]]) - pin_of(plan, plan.taps[own[n]]).at.x;
  }

  // Entries and strainers under the lowest port of their net; marks under theirs.
  void put_floor() {
    for (const int n : plan.blocks[0].nodes) {
      Node& node = plan.nodes[n];
      if (node.placed_apart || in_play(node)) continue;
      int best = -1, own_tap = -1;
      for (const int t : node.taps) {
        if (plan.taps[t].strand < 0) continue;
        for (const int o : plan.strands[plan.taps[t].strand].taps) {
          const Node& other = plan.nodes[plan.taps[o].node];
          if (!in_play(other) || other.block != 0) continue;
          const bool closer = best < 0 || (plan.taps[o].way == Way::down && plan.taps[best].way != Way::down);
          if (closer) best = o, own_tap = t;
        }
      }
      if (best >= 0) node.guess = guess_of(plan, plan.taps[best]) - pin_of(plan, plan.taps[own_tap]).at.x;
    }
  }
};

}  // namespace

int guess_of(const Plan& plan, const Tap& tap) {
  return plan.nodes[tap.node].guess + pin_of(plan, tap).at.x;
}

int girth(const Node& node) {
  int text = 0;
  for (const TextBlock& block : node.item->texts)
    if (block.kind == TextBlock::Kind::designation || block.kind == TextBlock::Kind::data) text = std::max(text, block.width);
  return node.stand().box.right - node.stand().box.left + text + 4;
}

void guess_supply(Plan& plan) {
  Supply supply(plan);
  supply.find_main();
  supply.find_stacks();
  supply.find_groups();
  supply.place();
  for (const int n : plan.blocks[0].nodes) plan.nodes[n].main_line = supply.main[n] || plan.nodes[n].item->family == "pump";
}

}  // namespace ferrule::layout
