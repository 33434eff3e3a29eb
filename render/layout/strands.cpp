// Step 3: every net as a comb of strands, one per block, with one slot in every row they pass.
#include <algorithm>
#include <numeric>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

bool is_side(const Pin& pin) { return pin.side == Side::left || pin.side == Side::right; }

// Neighbours joined by one straight line: shafts and rods, and whatever else happens to face. A node has one mate a side, and
// mates form chains, never rings.
struct Mating {
  Plan& plan;
  std::vector<int> chain;

  int root(int n) {
    while (chain[n] != n) n = chain[n] = chain[chain[n]];
    return n;
  }

  void mate(const std::vector<int>& taps) {
    if (taps.size() != 2) return;
    Tap* left = &plan.taps[taps[0]];
    Tap* right = &plan.taps[taps[1]];
    if (pin_of(plan, *left).side == Side::left) std::swap(left, right);
    Node& a = plan.nodes[left->node];
    Node& b = plan.nodes[right->node];
    if (pin_of(plan, *left).side != Side::right || pin_of(plan, *right).side != Side::left) return;
    if (a.row != b.row || a.block != b.block || a.mate_right >= 0 || b.mate_left >= 0) return;
    if (root(left->node) == root(right->node)) return;
    chain[root(left->node)] = root(right->node);
    a.mate_right = right->node, b.mate_left = left->node;
    left->way = right->way = Way::face;
    left->mate = int(right - plan.taps.data()), right->mate = int(left - plan.taps.data());
  }
};

// Brings every shaft of a chain on the height of the first.
void level_chains(Plan& plan) {
  for (Node& first : plan.nodes) {
    if (first.mate_left >= 0) continue;
    const Node* a = &first;
    while (a->mate_right >= 0) {
      Node& b = plan.nodes[a->mate_right];
      for (const int t : a->taps) {
        const Tap& tap = plan.taps[t];
        if (tap.way != Way::face || plan.taps[tap.mate].node != a->mate_right) continue;
        const int mine = a->dy + pin_of(plan, tap).at.y - a->stand().centre.y;
        const Tap& other = plan.taps[tap.mate];
        b.dy = mine - (pin_of(plan, other).at.y - b.stand().centre.y);
      }
      a = &b;
    }
  }
}

void widen(Strand& strand, int channel) {
  if (strand.high < strand.low) strand.low = strand.high = channel;
  strand.low = std::min(strand.low, channel), strand.high = std::max(strand.high, channel);
}

void open_vertical(Plan& plan, Strand& strand) {
  for (const int t : strand.taps) {
    Tap& tap = plan.taps[t];
    const Side side = pin_of(plan, tap).side;
    if (side != Side::above && side != Side::below) continue;
    tap.way = side == Side::above ? Way::up : Way::down;
    tap.lane = pin_of(plan, tap).at.x;
    widen(strand, channel_of(plan, tap));
  }
}

// Side ports take the channel their net already runs in; the one above or below their row.
void open_sides(Plan& plan, Strand& strand) {
  for (const int t : strand.taps) {
    Tap& tap = plan.taps[t];
    if (!is_side(pin_of(plan, tap))) continue;
    const int row = plan.nodes[tap.node].row;
    if (strand.high < strand.low) widen(strand, row - 1);
    tap.way = strand.low >= row ? Way::up : Way::down;
    widen(strand, channel_of(plan, tap));
  }
}

// Where the strands of a net meet: between supply and branches, or where a net of branches alone reaches least far.
int home_of(const Plan& plan, const std::vector<int>& strands) {
  for (const int s : strands)
    if (plan.strands[s].block == 0) return plan.supply_rows;
  int best = plan.supply_rows, least = 1 << 30;
  for (int channel = plan.supply_rows; channel < plan.rows; ++channel) {
    int sum = 0;
    for (const int s : strands) {
      const Strand& strand = plan.strands[s];
      if (strand.high >= strand.low) sum += std::max(0, strand.low - channel) + std::max(0, channel - strand.high);
    }
    if (sum < least) least = sum, best = channel;
  }
  return best;
}

void add_slots(Plan& plan, int s) {
  Strand& strand = plan.strands[s];
  for (int row = strand.low + 1; row <= strand.high; ++row) {
    strand.slots.push_back(int(plan.slots.size()));
    plan.blocks[strand.block].slots.push_back(int(plan.slots.size()));
    plan.slots.push_back({s, row, strand.block, 0, 0});
  }
}

bool is_lifted(const Plan& plan, int t) { return plan.habits.lift_signals && may_be_lifted(plan, t); }

void add_strand(Plan& plan, int net, int block, bool lifted) {
  plan.net_strands[net].push_back(int(plan.strands.size()));
  plan.blocks[block].strands.push_back(int(plan.strands.size()));
  plan.strands.push_back({net, block, {}, 0, -1, {}, lifted});
}

void comb(Plan& plan, int net, const std::vector<int>& taps) {
  std::vector<int>& strands = plan.net_strands[net];
  const auto block_of = [&](int t) { return plan.nodes[plan.taps[t].node].block; };
  std::vector<int> sorted = taps;
  std::stable_sort(sorted.begin(), sorted.end(), [&](int a, int b) { return block_of(a) < block_of(b); });
  const bool leaves = block_of(sorted.front()) != block_of(sorted.back());
  std::stable_partition(sorted.begin(), sorted.end(), [&](int t) { return !(leaves && is_lifted(plan, t)); });
  for (const int t : sorted) {
    const bool lifted = leaves && is_lifted(plan, t);
    if (lifted || strands.empty() || plan.strands[strands.back()].block != block_of(t)) add_strand(plan, net, block_of(t), lifted);
    plan.taps[t].strand = strands.back();
    plan.strands[strands.back()].taps.push_back(t);
  }
  for (const int s : strands) open_vertical(plan, plan.strands[s]);
  if (strands.size() > 1) {
    plan.home[net] = home_of(plan, strands);
    for (const int s : strands) widen(plan.strands[s], plan.home[net]);
  }
  for (const int s : strands) open_sides(plan, plan.strands[s]);
  for (const int s : strands) add_slots(plan, s);
}

}  // namespace

bool may_be_lifted(const Plan& plan, int t) {
  const Pin& pin = pin_of(plan, plan.taps[t]);
  return plan.nodes[plan.taps[t].node].block == 0 && pin.use != PortUse::main && is_side(pin) && plan.problem->nets[plan.taps[t].net].kind != NetKind::mechanical;
}

void draw_strands(Plan& plan) {
  const std::size_t nets = plan.problem->nets.size();
  plan.net_strands.resize(nets);
  plan.home.assign(nets, -2);
  std::vector<std::vector<int>> by_net(nets);
  for (std::size_t t = 0; t < plan.taps.size(); ++t)
    if (plan.taps[t].way == Way::none) by_net[plan.taps[t].net].push_back(int(t));
  Mating mating{plan, std::vector<int>(plan.nodes.size())};
  std::iota(mating.chain.begin(), mating.chain.end(), 0);
  for (std::size_t n = 0; n < nets; ++n) {
    if (plan.problem->nets[n].kind == NetKind::mechanical) mating.mate(by_net[n]);
  }
  level_chains(plan);
  for (std::size_t n = 0; n < nets; ++n)
    if (!by_net[n].empty() && plan.taps[by_net[n][0]].way != Way::face) comb(plan, int(n), by_net[n]);
}

}  // namespace ferrule::layout
