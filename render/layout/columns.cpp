// Step 6: exact x. Every block by itself: least weighted length of the lines between facing ports, cells apart. Then the blocks
// side by side, the supply under them.
#include <algorithm>
#include <map>

#include "render/layout/least_sum.hpp"
#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

constexpr int unit = 120;      // weights are divided by numbers of ports; 120 keeps them whole
constexpr int many = 24;       // ports on one side of a trunk above which neighbours are tied, not all pairs

struct Grip { int var, offset; bool slot; int node, guess; };   // what pulls on a trunk

struct BlockColumns {
  Plan& plan;
  const Block& block;
  std::vector<int>& var_of_node;
  std::vector<int>& var_of_slot;
  std::vector<int> x;
  std::vector<Gap> gaps;
  std::vector<Pull> pulls;
  bool spread = false;         // an actuator has lanes on both sides: both jog, alike

  void add_variables() {
    for (const int n : block.nodes)
      if (!plan.nodes[n].placed_apart) var_of_node[n] = int(x.size()), x.push_back(0);
    for (const int s : block.slots) var_of_slot[s] = int(x.size()), x.push_back(0);
  }

  // ---------------------------------------------------------------- cells apart

  int least(const Element& a, const Element& b) const {
    const Node* left = a.node >= 0 ? &plan.nodes[a.node] : nullptr;
    const Node* right = b.node >= 0 ? &plan.nodes[b.node] : nullptr;
    int gap = (left ? left->cell.room.right : 0) - (right ? right->cell.room.left : 0);
    if (left && right) gap += left->kind == Node::Kind::entry || right->kind == Node::Kind::entry ? 2 : plan.distances.cells;
    else gap += left || right ? 2 : 4;
    if (left && right && left->mate_right == b.node) gap = std::max(gap, reach(*left, false) + reach(*right, true) + 4);
    if (left && b.slot >= 0) gap = std::max(gap, tee_reach(*left, b.slot));
    if (right && a.slot >= 0) gap = std::max(gap, tee_reach(*right, a.slot));
    return gap + (gap & 1);
  }

  int reach(const Node& node, bool to_left) const {
    int most = 0;
    for (const int t : node.taps) {
      const Pin& pin = pin_of(plan, plan.taps[t]);
      if (plan.taps[t].way == Way::face && (pin.side == Side::left) == to_left) most = to_left ? -pin.at.x : pin.at.x;
    }
    return most;
  }

  int tee_reach(const Node& node, int slot) const {
    int most = 0;
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      if (tap.way != Way::tee || tap.mate != slot) continue;
      const Pin& pin = pin_of(plan, tap);
      most = std::max(most, (pin.side == Side::left ? -pin.at.x : pin.at.x) + 4);
    }
    return most;
  }

  void keep_apart(const std::vector<Element>& row, std::size_t first, std::size_t last) {
    int before = 0;
    for (std::size_t i = first; i < last; ++i) {
      const int v = var(row[i]);
      const int wish = row[i].node >= 0 ? plan.nodes[row[i].node].guess : plan.slots[row[i].slot].guess;
      x[v] = (wish - (wish & 1));
      if (i > first) {
        const int u = var(row[i - 1]);
        const int gap = least(row[i - 1], row[i]);
        gaps.push_back({u, v, gap});
        pulls.push_back({u, v, gap, 1});
        x[v] = std::max(x[v], before + gap);
      }
      before = x[v];
    }
  }

  int var(const Element& e) const { return e.node >= 0 ? var_of_node[e.node] : var_of_slot[e.slot]; }

  // ---------------------------------------------------------------- pulls

  void pull_strand(int s) {
    const Strand& strand = plan.strands[s];
    std::vector<std::vector<Grip>> below(std::max(0, strand.high - strand.low + 1)), above(below.size());
    for (const int t : strand.taps) {
      const Tap& tap = plan.taps[t];
      const Grip grip{var_of_node[tap.node], tap.lane, false, tap.node, plan.nodes[tap.node].guess + tap.lane};
      if (tap.way == Way::up) below[channel_of(plan, tap) - strand.low].push_back(grip);
      if (tap.way == Way::down) above[channel_of(plan, tap) - strand.low].push_back(grip);
      if (tap.way == Way::tee) pulls.push_back({grip.var, var_of_slot[tap.mate], pin_of(plan, tap).at.x, unit / 4});
    }
    for (const int slot : strand.slots) {
      const Grip grip{var_of_slot[slot], 0, true, -1, plan.slots[slot].guess};
      below[plan.slots[slot].row - strand.low].push_back(grip);
      above[plan.slots[slot].row - 1 - strand.low].push_back(grip);
    }
    const bool pair = strand.taps.size() == 2 && plan.net_strands[strand.net].size() == 1;
    for (std::size_t c = 0; c < below.size(); ++c) pull_trunk(below[c], above[c], pair);
  }

  void pull_trunk(const std::vector<Grip>& below, const std::vector<Grip>& above, bool pair) {
    if (below.empty() || above.empty() || below.size() * above.size() > many) {
      std::vector<Grip> all = below;
      all.insert(all.end(), above.begin(), above.end());
      for (std::size_t i = 1; i < all.size(); ++i) tie(all[i - 1], all[i], unit / 2);
      return;
    }
    const int count = int(std::max(below.size(), above.size()));
    for (const Grip& b : below)
      for (const Grip& a : above) {
        const int wanted = b.guess != a.guess ? 1 : block_is_supply() ? 4 : 2;      // the composition meant these to be straight
        const bool lane = count > 1 && straight_lane(b, a);
        plan.lane_straightened = plan.lane_straightened || lane;
        tie(b, a, wanted * weight(b, a, pair) * unit / (main_pair(b, a) || lane ? 1 : count));
      }
  }

  void tie(const Grip& a, const Grip& b, int weight) {
    if (a.var != b.var) pulls.push_back({a.var, b.var, a.offset - b.offset, weight});
  }

  // Slots stay straight, a jog stands next to the valve (layout rules: B jogs at one height, A rises straight).
  int weight(const Grip& below, const Grip& above, bool pair) const {
    if (below.slot && above.slot) return 8;
    if (block_is_supply()) return main_pair(below, above) ? 16 : pair ? 6 : 1;
    int weight = below.slot || above.slot ? 4 : 5;
    for (const Grip& grip : {below, above})
      if (grip.node >= 0 && plan.nodes[grip.node].primary) weight = first_lane(grip) && !spread ? 5 : 3;
    return weight;
  }

  bool block_is_supply() const { return &block == plan.blocks.data(); }

  // The pump's line comes first: it stands straight, what hangs on it bends.
  bool on_main(const Grip& grip) const { return grip.slot || plan.nodes[grip.node].main_line; }
  bool main_pair(const Grip& a, const Grip& b) const {
    return block_is_supply() && on_main(a) && on_main(b) && !(a.slot && b.slot);
  }

  // From the first port of a valve straight up to the actuator, whatever else hangs on the lane (gold rule 6).
  bool straight_lane(const Grip& below, const Grip& above) const {
    if (!plan.habits.straight_lane || block_is_supply() || spread || below.guess != above.guess) return false;
    const auto end = [&](const Grip& grip) {
      if (grip.slot) return true;
      const Node& node = plan.nodes[grip.node];
      return node.primary ? first_lane(grip) : node.item->tier == Tier::actuator;
    };
    return end(below) && end(above) && !(below.slot && above.slot);
  }

  bool first_lane(const Grip& grip) const {
    const Node& node = plan.nodes[grip.node];
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      if (pin_of(plan, tap).side == Side::above && tap.lane < grip.offset) return false;
    }
    return true;
  }

  // An actuator with ports on both sides stands over the middle of its valve.
  void centre_spread() {
    int valve = -1, valves = 0;
    spread = false;
    for (const int n : block.nodes)
      if (!plan.nodes[n].placed_apart && plan.nodes[n].primary) valve = n, ++valves;
    if (valves != 1) return;
    for (const int n : block.nodes) {
      const Node& node = plan.nodes[n];
      int sides = 0;
      for (const int t : node.taps)
        if (const Side side = pin_of(plan, plan.taps[t]).side; plan.taps[t].strand >= 0) sides += side == Side::left || side == Side::right;
      if (node.item->tier != Tier::actuator || sides < 2 || node.placed_apart) continue;
      spread = true;
      pulls.push_back({var_of_node[n], var_of_node[valve], node.stand().centre.x - plan.nodes[valve].stand().centre.x, 4 * unit});
    }
  }

  // Shaft ends stand 2 M apart where nothing keeps them farther.
  void pull_mates() {
    for (const int n : block.nodes)
      for (const int t : plan.nodes[n].taps) {
        const Tap& tap = plan.taps[t];
        if (tap.way != Way::face || pin_of(plan, tap).side != Side::right) continue;
        const Tap& other = plan.taps[tap.mate];
        const int offset = pin_of(plan, tap).at.x + 4 - pin_of(plan, other).at.x;
        pulls.push_back({var_of_node[n], var_of_node[other.node], offset, unit});
      }
  }

  void solve() {
    settle(x, gaps, pulls);
    for (const int n : block.nodes)
      if (!plan.nodes[n].placed_apart) plan.nodes[n].x = x[var_of_node[n]];
    for (const int s : block.slots) plan.slots[s].x = x[var_of_slot[s]];
  }
};

// ---------------------------------------------------------------- blocks side by side

void measure(const Plan& plan, Block& block) {
  block.left = 1 << 28, block.right = -(1 << 28);
  for (const int n : block.nodes) {
    const Node& node = plan.nodes[n];
    if (node.placed_apart || node.kind == Node::Kind::tail) continue;
    block.left = std::min(block.left, node.x + node.cell.room.left);
    block.right = std::max(block.right, node.x + node.cell.room.right);
  }
  for (const int s : block.slots) {
    block.left = std::min(block.left, plan.slots[s].x - 2);
    block.right = std::max(block.right, plan.slots[s].x + 2);
  }
  if (block.left > block.right) block.left = block.right = 0;
}

// x of a strand where it enters the channel between supply and branches.
bool end_at_home(const Plan& plan, const Strand& strand, int& x) {
  const int home = plan.home[strand.net];
  for (const int s : strand.slots)
    if (plan.slots[s].row == home + (strand.block ? 1 : 0)) return x = plan.slots[s].x, true;
  for (const int t : strand.taps) {
    const Tap& tap = plan.taps[t];
    const bool reaches = (tap.way == Way::up || tap.way == Way::down) && channel_of(plan, tap) == home;
    if (reaches) return x = plan.nodes[tap.node].x + tap.lane, true;
  }
  return false;
}

// Where the supply's main line ends and the first branch's begins.
bool main_line(const Plan& plan, int& supply_x, int& branch_x) {
  for (const NetKind kind : {NetKind::pressure, NetKind::working, NetKind::return_})
    for (std::size_t n = 0; n < plan.net_strands.size(); ++n) {
      const auto& strands = plan.net_strands[n];
      if (strands.size() < 2 || plan.problem->nets[n].kind != kind || plan.strands[strands[0]].block != 0) continue;
      if (end_at_home(plan, plan.strands[strands[0]], supply_x) && end_at_home(plan, plan.strands[strands[1]], branch_x)) return true;
    }
  return false;
}

void shift(Plan& plan, const Block& block, int by) {
  for (const int n : block.nodes) plan.nodes[n].x += by;
  for (const int s : block.slots) plan.slots[s].x += by;
}

// Ends of lines in the channel between supply and branches.
struct Ends {
  struct End { int net, x; };
  std::vector<End> supply, branches;                 // branches by x
  std::vector<std::pair<int, int>> span;             // by net: outermost ends of the branches

  explicit Ends(const Plan& plan) : span(plan.net_strands.size(), {1 << 28, -(1 << 28)}) {
    for (std::size_t n = 0; n < plan.net_strands.size(); ++n) {
      if (plan.net_strands[n].size() < 2 || plan.home[n] != plan.supply_rows) continue;
      for (const int s : plan.net_strands[n]) {
        int x = 0;
        if (!end_at_home(plan, plan.strands[s], x)) continue;
        (plan.strands[s].block ? branches : supply).push_back({int(n), x});
        if (plan.strands[s].block) span[n] = {std::min(span[n].first, x), std::max(span[n].second, x)};
      }
    }
    std::stable_sort(branches.begin(), branches.end(), [](const End& a, const End& b) { return a.x < b.x; });
  }

  // With the supply shifted: how many of its ends come too near to others, and how many stand straight under an outermost end
  // of their own net, where they make a tee.
  std::pair<int, int> near_and_straight(int by) const {
    int near = 0, straight = 0;
    for (const End& end : supply) {
      const int x = end.x + by;
      bool close = false;
      for (auto b = std::lower_bound(branches.begin(), branches.end(), x - 5, [](const End& e, int v) { return e.x < v; }); b != branches.end() && b->x < x + 6; ++b) {
        const bool own = b->net == end.net && b->x == x && (x == span[end.net].first || x == span[end.net].second);
        straight += own, close = close || !own;
      }
      near += close;
    }
    return {near, straight};
  }
};

// A further shift to the left, as short as may be, that keeps tees and lines apart and lets lines run straight.
int shift_clear(const Plan& plan, int by) {
  constexpr int farthest = 48, apart = 20, unbent = 12;   // half modules; what either is worth in width
  const Ends ends(plan);
  int best = 0, least = 1 << 30;
  for (int step = 0; step <= farthest; step += 2) {
    const auto [near, straight] = ends.near_and_straight(by - step);
    if (const int now = apart * near - unbent * straight + step; now < least) least = now, best = step;
  }
  return by - best;
}

void set_side_by_side(Plan& plan) {
  int x = 0;
  for (std::size_t b = 1; b < plan.blocks.size(); ++b) {
    Block& block = plan.blocks[b];
    measure(plan, block);
    shift(plan, block, x - block.left);
    x += (block.right - block.left + 8 + 7) / 8 * 8;
    measure(plan, block);
  }
  Block& supply = plan.blocks[0];
  measure(plan, supply);
  int from = supply.left, to = plan.blocks.size() > 1 ? plan.blocks[1].left : 0;
  const bool several = plan.blocks.size() > 2;
  if (plan.blocks.size() > 1 && main_line(plan, from, to) && several) to = plan.blocks[1].left - 8;
  const int by = to - from - ((to - from) & 1);
  shift(plan, supply, several ? shift_clear(plan, by) : by);
  measure(plan, supply);
}

}  // namespace

void set_columns(Plan& plan) {
  std::vector<int> var_of_node(plan.nodes.size(), -1), var_of_slot(plan.slots.size(), -1);
  std::vector<std::vector<std::array<std::size_t, 3>>> stretches(plan.blocks.size());   // row, first, last
  for (std::size_t r = 0; r < plan.order.size(); ++r) {
    const auto& row = plan.order[r];
    const auto block_of = [&](const Element& e) { return e.node >= 0 ? plan.nodes[e.node].block : plan.slots[e.slot].block; };
    for (std::size_t i = 0, j; i < row.size(); i = j) {
      for (j = i + 1; j < row.size() && block_of(row[j]) == block_of(row[i]);) ++j;
      stretches[block_of(row[i])].push_back({r, i, j});
    }
  }
  for (std::size_t b = 0; b < plan.blocks.size(); ++b) {
    BlockColumns columns{plan, plan.blocks[b], var_of_node, var_of_slot, {}, {}, {}, false};
    columns.add_variables();
    for (const auto& [r, first, last] : stretches[b]) columns.keep_apart(plan.order[r], first, last);
    columns.centre_spread();
    for (const int s : plan.blocks[b].strands) columns.pull_strand(s);
    columns.pull_mates();
    columns.solve();
  }
  set_side_by_side(plan);
  straighten_outer_signals(plan);
}

}  // namespace ferrule::layout
