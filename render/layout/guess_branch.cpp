#include <algorithm>
#include <cstdlib>
#include <map>

#include "render/layout/guess.hpp"

namespace ferrule::layout {

namespace {

struct Branch {
  Plan& plan;
  const Block& block;
  std::vector<char>& done;      // by node: has its place
  std::vector<int> index;       // nodes by falling row, actuators first
  int cursor = 0;
  std::map<int, int> watched;   // actuator, or its load: x of the next watcher
  std::size_t first_open = 0;   // of index: all before have their place

  static bool lane_kind(NetKind kind) { return kind == NetKind::working || kind == NetKind::pressure || kind == NetKind::return_; }

  // The placed port a tap's line leads to: the nearest row, upper ones first; -1.
  int target(const Tap& tap) const {
    if (tap.strand < 0) return -1;
    const int row = plan.nodes[tap.node].row;
    const bool valve = plan.nodes[tap.node].primary;
    int best = -1, least = 1 << 30, asked = 0;
    for (const int o : plan.strands[tap.strand].taps) {
      const Tap& other = plan.taps[o];
      if (other.node == tap.node || !done[other.node] || ++asked > 64) continue;
      const int gap = plan.nodes[other.node].row - row;
      int far = 2 * std::abs(gap) + (gap < 0);
      if (valve && plan.nodes[other.node].item->tier == Tier::actuator) far = -1;   // main line first
      if (far < least) least = far, best = o;
    }
    return best;
  }

  void put_actuators() {
    for (const int n : block.nodes) {
      Node& node = plan.nodes[n];
      if (node.item->tier != Tier::actuator || node.mate_left >= 0 || done[n]) continue;
      for (int m = n; m >= 0; m = plan.nodes[m].mate_right) {
        plan.nodes[m].guess = cursor - plan.nodes[m].stand().box.left;
        cursor += girth(plan.nodes[m]) + 10;
        done[m] = 1;
      }
      cursor += 20;
    }
  }

  // The lane a node stands in: of its own lines the one that leads up to an actuator, else up, else down; the first of equals.
  int lane(const Node& node) const {
    int best = -1, rank = 0;
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      if (!main(tap) || !vertical(tap)) continue;
      const int found = target(tap);
      if (found < 0) continue;
      const Node& other = plan.nodes[plan.taps[found].node];
      const bool to_actuator = other.item->tier == Tier::actuator && !node.primary;
      const int now = 4 * (tap.way == Way::up) + 2 * to_actuator + 1;
      if (now > rank || (now == rank && tap.pin < plan.taps[best].pin)) rank = now, best = t;
    }
    return best;
  }

  bool main(const Tap& tap) const {
    return tap.strand >= 0 && pin_of(plan, tap).use == PortUse::main && lane_kind(plan.problem->nets[tap.net].kind);
  }

  bool put(int n) {
    Node& node = plan.nodes[n];
    int taps = 0;
    for (const int t : node.taps) taps += plan.taps[t].strand >= 0;
    if (spreads(node)) {
      if (!put_in_middle(node)) return false;
    } else if (const int t = lane(node); t >= 0) {
      node.guess = guess_of(plan, plan.taps[target(plan.taps[t])]) - pin_of(plan, plan.taps[t]).at.x;
    } else {
      return put_by_signal(n);
    }
    if (taps == 1 && node.kind == Node::Kind::symbol) stand_outside(node);
    done[n] = 1;
    return true;
  }

  bool put_in_middle(Node& node) {
    int sum = 0, count = 0;
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      const int found = main(tap) ? target(tap) : -1;
      if (found >= 0) sum += guess_of(plan, plan.taps[found]) - pin_of(plan, tap).at.x, ++count;
    }
    if (count) node.guess = sum / count;
    return count > 0;
  }

  bool vertical(const Tap& tap) const { return tap.way == Way::up || tap.way == Way::down; }

  // Lies between lanes, or its lanes spread on both sides: it stands in the middle.
  bool spreads(const Node& node) const {
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      if (!main(tap)) continue;
      const Side own = pin_of(plan, tap).side;
      if (own == Side::left || own == Side::right) return true;
      const int found = target(tap);
      if (found < 0) continue;
      const Side side = pin_of(plan, plan.taps[found]).side;
      if (side == Side::left || side == Side::right) return true;
    }
    return false;
  }

  bool put_by_signal(int n) {
    Node& node = plan.nodes[n];
    for (const int t : node.taps) {
      const int found = target(plan.taps[t]);
      if (found < 0) continue;
      node.guess = guess_of(plan, plan.taps[found]) - pin_of(plan, plan.taps[t]).at.x;
      if (node.kind == Node::Kind::symbol) stand_outside(node);
      done[n] = 1;
      return true;
    }
    return false;
  }

  // Single-ported parts hang outside the lane they tap.
  void stand_outside(Node& node) {
    const int away = girth(node) / 2 + 8;
    node.guess += node.guess + node.stand().centre.x <= middle() ? -away : away;
  }

  int middle() const {
    int sum = 0, count = 0;
    for (const int n : block.nodes) {
      if (plan.nodes[n].item->tier != Tier::actuator) continue;
      for (const int t : plan.nodes[n].taps)
        if (plan.taps[t].strand >= 0) sum += guess_of(plan, plan.taps[t]), ++count;
    }
    return count ? sum / count : 0;
  }

  void follow_chain(int n) {
    for (int m = n; plan.nodes[m].mate_right >= 0; m = plan.nodes[m].mate_right) {
      const int next = plan.nodes[m].mate_right;
      plan.nodes[next].guess = plan.nodes[m].guess + plan.nodes[m].stand().box.right - plan.nodes[next].stand().box.left + 6;
      done[next] = 1;
    }
    for (int m = n; plan.nodes[m].mate_left >= 0; m = plan.nodes[m].mate_left) {
      const int next = plan.nodes[m].mate_left;
      plan.nodes[next].guess = plan.nodes[m].guess + plan.nodes[m].stand().box.left - plan.nodes[next].stand().box.right - 6;
      done[next] = 1;
    }
  }

  // What watches a rod stands right of it and of its load, in the order of the text.
  void put_watchers() {
    for (const int n : block.nodes) {
      Node& node = plan.nodes[n];
      if (node.item->beside < 0 || done[n]) continue;
      int last = node.item->beside;              // items come first among the nodes
      while (plan.nodes[last].mate_right >= 0) last = plan.nodes[last].mate_right;
      int& end = watched.try_emplace(last, plan.nodes[last].guess + plan.nodes[last].stand().box.right + 1).first->second;
      node.guess = end - node.stand().box.left;
      ++end, done[n] = 1;
    }
  }

  void place() {
    put_actuators();
    put_watchers();
    index = block.nodes;
    std::stable_sort(index.begin(), index.end(), [&](int a, int b) { return plan.nodes[a].row > plan.nodes[b].row; });
    std::size_t left = index.size();
    for (std::size_t pass = 0; pass < 12 && left; ++pass) {
      left = 0;
      for (const int n : index)
        if (!done[n] && !plan.nodes[n].placed_apart) put(n) ? follow_chain(n) : void(++left);
      if (left && pass % 3 == 2) put_anywhere();
    }
    while (put_anywhere()) {}
  }

  bool put_anywhere() {
    for (; first_open < index.size(); ++first_open) {
      const int n = index[first_open];
      if (done[n] || plan.nodes[n].placed_apart) continue;
      plan.nodes[n].guess = cursor - plan.nodes[n].stand().box.left;
      cursor += girth(plan.nodes[n]) + 10;
      done[n] = 1;
      follow_chain(n);
      return true;
    }
    return false;
  }
};

// The port a slot leads to: in branches the nearest above, in the supply the line that feeds it from below.
int leading(const Plan& plan, const Slot& slot) {
  const Strand& strand = plan.strands[slot.strand];
  int best = -1, least = 1 << 30;
  for (const int t : strand.taps) {
    const Tap& tap = plan.taps[t];
    const Node& node = plan.nodes[tap.node];
    int far = 4 * std::abs(node.row - slot.row);
    if (slot.block == 0) {
      far += tap.way == Way::up && node.row < slot.row ? 0 : tap.way == Way::down && node.row >= slot.row ? 2 : 400;
      if (node.item->family == "pump") far -= 20;
      if (node.item->family == "relief" || node.kind == Node::Kind::entry) far += 200;
    } else {
      const Side side = pin_of(plan, tap).side;
      if (node.row <= slot.row || tap.way == Way::up) far += 100;
      if ((side == Side::left || side == Side::right) && node.item->tier != Tier::actuator) far += 60;
    }
    if (far < least) least = far, best = t;
  }
  return best;
}

}  // namespace

void guess_branch(Plan& plan, int block, std::vector<char>& done) {
  Branch branch{plan, plan.blocks[block], done, {}, 0, {}, 0};
  branch.place();
}

void guess_slots(Plan& plan) {
  for (Slot& slot : plan.slots)
    if (const int tap = leading(plan, slot); tap >= 0) slot.guess = guess_of(plan, plan.taps[tap]);
}

}  // namespace ferrule::layout
