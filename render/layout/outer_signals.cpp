// A signal between supply and the outermost branch that leaves its part sideways (the load signal of gold rule 10) runs level
// until it stands over its other end, and then straight: two bends less than a jog in the channel between them.
#include <algorithm>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

int edge_of(const Plan& plan, const Element& e, bool left) {
  if (e.slot >= 0) return plan.slots[e.slot].x;
  const Node& node = plan.nodes[e.node];
  return node.x + (left ? node.cell.room.left : node.cell.room.right);
}

// Is `x` beyond everything of that row, with air, on the left or on the right?
bool beyond_row(const Plan& plan, int row, int x, bool left) {
  return std::all_of(plan.order[row].begin(), plan.order[row].end(), [&](const Element& e) {
    const int edge = edge_of(plan, e, left);
    return left ? x + 4 <= edge : x - 4 >= edge;
  });
}

bool in_a_group(const Plan& plan, const Block& block) {
  return std::any_of(block.nodes.begin(), block.nodes.end(), [&](int n) { return plan.nodes[n].item->group >= 0; });
}

// Its only tap, when that turns beside its symbol into the channel between supply and branches.
Tap* turning_tap(Plan& plan, const Strand& strand) {
  if (strand.taps.size() != 1 || !strand.slots.empty()) return nullptr;
  Tap& tap = plan.taps[strand.taps[0]];
  const Side side = pin_of(plan, tap).side;
  return tap.way == Way::down && (side == Side::left || side == Side::right) ? &tap : nullptr;
}

// Where the supply's strand enters the channel between supply and branches, when it passes a row to get there.
const Slot* upper_slot(const Plan& plan, const Strand& strand) {
  for (const int s : strand.slots)
    if (plan.slots[s].row == plan.home[strand.net]) return &plan.slots[s];
  return nullptr;
}

void straighten(Plan& plan, const Strand& supply, const Strand& branch) {
  const Slot* end = upper_slot(plan, supply);
  Tap* tap = turning_tap(plan, branch);
  const Block& block = plan.blocks[branch.block];
  if (end == nullptr || tap == nullptr || in_a_group(plan, block)) return;
  const bool left = pin_of(plan, *tap).side == Side::left;
  if (branch.block != (left ? 1 : int(plan.blocks.size()) - 1) || (left ? end->x >= block.left : end->x <= block.right)) return;
  const Node& node = plan.nodes[tap->node];
  if (beyond_row(plan, node.row, end->x, left)) tap->lane = end->x - node.x;
}

}  // namespace

void straighten_outer_signals(Plan& plan) {
  for (std::size_t n = 0; n < plan.net_strands.size(); ++n) {
    const auto& strands = plan.net_strands[n];
    if (strands.size() != 2 || plan.strands[strands[0]].block != 0) continue;
    straighten(plan, plan.strands[strands[0]], plan.strands[strands[1]]);
  }
}

}  // namespace ferrule::layout
