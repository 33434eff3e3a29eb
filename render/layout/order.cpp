// Step 4: mirror, left-to-right order in every row, and which side ports reach a slot beside them.
#include <algorithm>
#include <cstdlib>

#include "render/layout/guess.hpp"

namespace ferrule::layout {

namespace {

bool is_side(Side side) { return side == Side::left || side == Side::right; }

// ---------------------------------------------------------------- mirrors

struct Mirror {
  Plan& plan;

  // May a node stand in `pose` without changing which channel its lines open into?
  bool same_openings(const Node& node, const Pose& pose) const {
    for (const int t : node.taps) {
      const Pin& now = pin_of(plan, plan.taps[t]);
      const Pin& then = pose.pins[plan.taps[t].pin];
      if (is_side(now.side) != is_side(then.side)) return false;
      if (!is_side(now.side) && now.side != then.side) return false;
    }
    return true;
  }

  // Mean x of what the tap's net reaches besides this node.
  bool target(const Tap& tap, int& x) const {
    if (tap.strand < 0) return false;
    const Strand& strand = plan.strands[tap.strand];
    for (const int s : strand.slots)
      if (plan.slots[s].row == plan.nodes[tap.node].row) return x = plan.slots[s].guess, true;
    // An actuator looks at its valve or stays as it is, everything else looks at all it is joined to.
    const bool actuator = plan.nodes[tap.node].item->tier == Tier::actuator;
    if (actuator) {
      for (const int t : strand.taps)
        if (plan.nodes[plan.taps[t].node].primary) return x = guess_of(plan, plan.taps[t]), true;
      return false;
    }
    long sum = 0, count = 0;
    for (const int t : strand.taps)
      if (plan.taps[t].node != tap.node && count < 32) sum += guess_of(plan, plan.taps[t]), ++count;
    if (count) x = int(sum / count);
    return count > 0;
  }

  int cost(const Node& node, const Pose& pose, int middle) const {
    int sum = 0;
    const int centre = node.guess + node.stand().centre.x;
    std::vector<std::pair<int, int>> above, below;       // (pin x, target x)
    const bool beside_signals = std::any_of(node.taps.begin(), node.taps.end(), [&](int t) {
      const Pin& pin = pin_of(plan, plan.taps[t]);
      return pin.use != PortUse::main && !is_side(pin.side);
    });
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      const Pin& pin = pose.pins[tap.pin];
      int x = 0;
      if (tap.strand >= 0 && plan.strands[tap.strand].lifted && pin.side == Side::left) sum += 8;    // it rises outside of what its part stands under
      if (!target(tap, x)) continue;
      if (pin.use == PortUse::main && beside_signals) x = centre;      // it stands in its lane; the signals point elsewhere
      if (pin.side == Side::left && x > centre) sum += 8;
      if (pin.side == Side::right && x < centre) sum += 8;
      if (pin.side == Side::above) above.push_back({pin.at.x, x});
      if (pin.side == Side::below) below.push_back({pin.at.x, x});
    }
    // A valve row reads left to right: it is mirrored only to save a crossing.
    if (pose.flip && node.item->family == "directional") sum += 4;
    return sum + 6 * inversions(above) + 6 * inversions(below) + inward(node, pose, middle);
  }

  static int inversions(const std::vector<std::pair<int, int>>& pins) {
    int count = 0;
    for (std::size_t i = 0; i < pins.size() && i < 16; ++i)
      for (std::size_t j = 0; j < i; ++j)
        count += (pins[i].first < pins[j].first && pins[i].second > pins[j].second) ||
                 (pins[i].first > pins[j].first && pins[i].second < pins[j].second);
    return count;
  }

  // Pairs in the lanes are mirror images, wide side outward (gold rule 7).
  static int inward(const Node& node, const Pose& pose, int middle) {
    if (node.block == 0 || node.item->tier != Tier::modulation) return 0;
    const int to_left = pose.centre.x - pose.box.left, to_right = pose.box.right - pose.centre.x;
    if (std::abs(to_left - to_right) < 3) return 0;
    const int centre = node.guess + node.stand().centre.x;
    if (centre == middle) return 0;
    return (centre < middle) == (to_left < to_right) ? 4 : 0;
  }

  void choose(Node& node, int middle) const {
    if (node.item->poses.size() < 2 || node.primary || node.item->family == "cylinder" || node.mate_left >= 0 || node.mate_right >= 0) return;
    const int centre = node.guess + node.stand().centre.x;
    int best = node.pose, least = cost(node, node.stand(), middle);
    for (std::size_t p = 0; p < node.item->poses.size(); ++p) {
      const Pose& pose = node.item->poses[p];
      if (int(p) == node.pose || !same_openings(node, pose)) continue;
      const int now = cost(node, pose, middle);
      if (now < least) least = now, best = int(p);
    }
    if (best == node.pose) return;
    const Point anchor = anchor_of(node);
    node.pose = best;
    node.guess = centre - node.stand().centre.x;
    if (const Point then = anchor_of(node); then.x != anchor.x) node.guess += anchor.x - then.x;
    for (const int t : node.taps)
      if (plan.taps[t].way == Way::up || plan.taps[t].way == Way::down) plan.taps[t].lane = pin_of(plan, plan.taps[t]).at.x;
  }

  // The first vertical line of a node stays where it is.
  Point anchor_of(const Node& node) const {
    for (const int t : node.taps)
      if (const Pin& pin = pin_of(plan, plan.taps[t]); !is_side(pin.side)) return {node.guess + pin.at.x, 0};
    return {node.guess + node.stand().centre.x, 0};
  }
};

// The middle between the lanes of a block: of its actuators' ports.
int middle_of(const Plan& plan, const Block& block) {
  long sum = 0, count = 0;
  for (const int n : block.nodes) {
    if (plan.nodes[n].item->tier != Tier::actuator) continue;
    for (const int t : plan.nodes[n].taps)
      if (plan.taps[t].strand >= 0) sum += guess_of(plan, plan.taps[t]), ++count;
  }
  return count ? int(sum / count) : 0;
}

// ---------------------------------------------------------------- rows

struct Unit {
  int block, x, sequence;
  int node, slot;
};

int anchor_of_chain(const Plan& plan, int head) {
  int best = head;
  for (int n = head; n >= 0; n = plan.nodes[n].mate_right)
    if (plan.nodes[n].taps.size() > plan.nodes[best].taps.size()) best = n;
  return best;
}

void sort_rows(Plan& plan) {
  std::vector<std::vector<Unit>> rows(plan.rows);
  int sequence = 0;
  for (std::size_t n = 0; n < plan.nodes.size(); ++n) {
    const Node& node = plan.nodes[n];
    if (node.placed_apart || node.mate_left >= 0) continue;
    const Node& anchor = plan.nodes[anchor_of_chain(plan, int(n))];
    rows[node.row].push_back({node.block, anchor.guess + anchor.stand().centre.x, sequence++, int(n), -1});
  }
  for (std::size_t s = 0; s < plan.slots.size(); ++s)
    rows[plan.slots[s].row].push_back({plan.slots[s].block, plan.slots[s].guess, sequence++, -1, int(s)});
  plan.order.assign(plan.rows, {});
  for (int r = 0; r < plan.rows; ++r) {
    std::stable_sort(rows[r].begin(), rows[r].end(), [](const Unit& a, const Unit& b) {
      return a.block != b.block ? a.block < b.block : a.x != b.x ? a.x < b.x : a.sequence < b.sequence;
    });
    for (const Unit& unit : rows[r]) {
      if (unit.slot >= 0) plan.order[r].push_back({-1, unit.slot});
      for (int n = unit.node; n >= 0; n = plan.nodes[n].mate_right) plan.order[r].push_back({n, -1});
    }
  }
}

// Every reservoir's entries and strainers stand together.
void gather_troughs(Plan& plan) {
  if (plan.order.empty()) return;
  std::vector<int> first(plan.problem->items.size(), -1);
  int next = 0;
  for (const Element& element : plan.order[0])
    if (element.node >= 0 && plan.nodes[element.node].reservoir >= 0)
      if (int& rank = first[plan.nodes[element.node].reservoir]; rank < 0) rank = next++;
  std::stable_sort(plan.order[0].begin(), plan.order[0].end(), [&](const Element& a, const Element& b) {
    const auto rank = [&](const Element& e) {
      return e.node >= 0 && plan.nodes[e.node].reservoir >= 0 ? first[plan.nodes[e.node].reservoir] : next;
    };
    const auto tail = [&](const Element& e) { return e.node >= 0 && plan.nodes[e.node].kind == Node::Kind::tail; };
    return rank(a) != rank(b) ? rank(a) < rank(b) : tail(a) < tail(b);
  });
}

// ---------------------------------------------------------------- tees

int height_of(const Plan& plan, const Tap& tap) {
  const Node& node = plan.nodes[tap.node];
  return node.dy + pin_of(plan, tap).at.y - node.stand().centre.y;
}

void join_slot(Plan& plan, int n, int slot, Side side, std::vector<std::vector<int>>& heights) {
  for (const int t : plan.nodes[n].taps) {
    Tap& tap = plan.taps[t];
    if ((tap.way != Way::up && tap.way != Way::down) || tap.strand != plan.slots[slot].strand) continue;
    if (pin_of(plan, tap).side != side) continue;
    const int y = height_of(plan, tap);
    auto& used = heights[slot];
    if (std::any_of(used.begin(), used.end(), [&](int h) { return std::abs(h - y) < 2; })) continue;   // no four-way joint
    used.push_back(y);
    tap.way = Way::tee, tap.mate = slot;
  }
}

void find_tees(Plan& plan) {
  std::vector<std::vector<int>> heights(plan.slots.size());
  for (const auto& row : plan.order)
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i].node < 0) continue;
      if (i > 0 && row[i - 1].slot >= 0) join_slot(plan, row[i].node, row[i - 1].slot, Side::left, heights);
      if (i + 1 < row.size() && row[i + 1].slot >= 0) join_slot(plan, row[i].node, row[i + 1].slot, Side::right, heights);
    }
}

// A strainer's text goes left when a line falls beside it on the right.
bool line_falls_right(const Plan& plan, const Node& strainer) {
  for (const int n : plan.blocks[0].nodes) {
    const Node& node = plan.nodes[n];
    const int away = node.guess - strainer.guess;
    if (node.kind == Node::Kind::entry && node.reservoir == strainer.reservoir && away > 0 && away < girth(strainer)) return true;
  }
  return false;
}

int position(const Plan& plan, const Element& e) {
  return e.node >= 0 ? plan.nodes[e.node].guess + plan.nodes[e.node].stand().centre.x : plan.slots[e.slot].guess;
}

int block_of(const Plan& plan, const Element& e) {
  return e.node >= 0 ? plan.nodes[e.node].block : plan.slots[e.slot].block;
}

// In a lane the text goes to the side away from the nearer neighbour, which is the other lane.
void choose_text_sides(Plan& plan) {
  constexpr int open = 1 << 20;
  for (const auto& row : plan.order)
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i].node < 0) continue;
      Node& node = plan.nodes[row[i].node];
      if (node.item->in_trough) node.text_left = line_falls_right(plan, node);
      if (node.block == 0 || node.item->tier != Tier::modulation) continue;
      const int own = position(plan, row[i]);
      const bool left = i > 0 && block_of(plan, row[i - 1]) == node.block;
      const bool right = i + 1 < row.size() && block_of(plan, row[i + 1]) == node.block;
      const int to_left = left ? own - position(plan, row[i - 1]) : open;
      const int to_right = right ? position(plan, row[i + 1]) - own : open;
      node.text_left = to_right < to_left;
    }
}

}  // namespace

void put_in_order(Plan& plan) {
  std::vector<char> done(plan.nodes.size(), 0);
  std::vector<int> middle(plan.blocks.size());
  for (const int round : {0, 1, 2}) {
    std::fill(done.begin(), done.end(), 0);
    guess_supply(plan);
    for (std::size_t b = 1; b < plan.blocks.size(); ++b) guess_branch(plan, int(b), done);
    guess_slots(plan);
    for (std::size_t b = 0; b < plan.blocks.size(); ++b) middle[b] = middle_of(plan, plan.blocks[b]);
    // Actuators turn to their valve first, the rest to their lanes.
    for (Node& node : plan.nodes)
      if (round < 2 && (node.item->tier == Tier::actuator) == (round == 0)) Mirror{plan}.choose(node, middle[node.block]);
  }
  turn_pairs_outward(plan);
  obey_order(plan);
  sort_rows(plan);
  gather_troughs(plan);
  find_tees(plan);
  choose_text_sides(plan);
}

}  // namespace ferrule::layout
