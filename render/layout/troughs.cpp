// Step 10: the reservoirs. A trough under all that falls into it or stands in it; breathers and switches on its cover wherever
// no line comes down; tag and data beside it.
#include <algorithm>

#include "render/layout/occupied.hpp"
#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

struct Trough {
  const Plan& plan;
  Layout& layout;
  int item;
  int left = 1 << 28, right = -(1 << 28), rim = 0, tail = 0;
  bool deep = false;
  std::vector<Box> taken;        // what comes down to the rim, and covers set so far

  void gather() {
    for (const Element& element : plan.order.empty() ? std::vector<Element>{} : plan.order[0]) {
      if (element.node < 0 || plan.nodes[element.node].reservoir != item) continue;
      const Node& node = plan.nodes[element.node];
      if (node.kind == Node::Kind::tail) {
        tail = node.x;
        continue;
      }
      deep = deep || node.kind == Node::Kind::symbol;
      left = std::min(left, node.x + node.cell.room.left - 4), right = std::max(right, node.x + node.cell.room.right + 4);
      for (const int t : node.taps)
        if (plan.taps[t].way == Way::up) taken.push_back({node.x + plan.taps[t].lane, rim - 100, node.x + plan.taps[t].lane, rim});
    }
    if (left > right) left = tail, right = tail;
  }

  // Where what hangs over it ends highest, of such places the rightmost; without a free one to the right of everything.
  void set_cover(const Node& node) {
    const Box& room = node.cell.room;
    int best = 0, highest = rim;
    for (int x = right - 4 - room.right; x + room.left >= left + 4; x -= 2)
      if (const int over = fits(node, x) ? lowest_over(x + room.left - 4, x + room.right + 4) : rim; over < highest) highest = over, best = x;
    if (highest < rim) return put(node, best);
    int x = std::max(right, tail) - room.left;
    x += x & 1;
    while (!fits(node, x)) x += 2;
    put(node, x);
    right = std::max(right, x + room.right + 4);
  }

  // Where the lowest thing of the supply over this stretch of the cover ends.
  int lowest_over(int from, int to) const {
    int lowest = -(1 << 28);
    for (const int n : plan.blocks[0].nodes) {
      const Node& node = plan.nodes[n];
      if (node.placed_apart || node.kind != Node::Kind::symbol || node.row == 0) continue;
      const auto hangs = [&](const Box& box) {
        if (node.x + box.left < to && from < node.x + box.right) lowest = std::max(lowest, node.y + box.bottom);
      };
      hangs(node.stand().box);
      for (const PlacedText& text : node.cell.texts) hangs(text.box);
    }
    return lowest;
  }

  Box room_at(const Node& node, int x) const {
    const Box& room = node.cell.room;
    const int y = rim - node.stand().box.bottom;
    return {x + room.left, y + room.top, x + room.right, rim};
  }

  bool fits(const Node& node, int x) const {
    const Box box = room_at(node, x);
    return std::none_of(taken.begin(), taken.end(), [&](const Box& other) { return meets(box, other, 3); });
  }

  void put(const Node& node, int x) {
    taken.push_back(room_at(node, x));
    Placed& placed = layout.items[node.source];
    placed.at = {x, rim - node.stand().box.bottom};
    placed.pose = node.pose;
    for (PlacedText text : node.cell.texts) {
      text.box = {text.box.left + placed.at.x, text.box.top + placed.at.y, text.box.right + placed.at.x, text.box.bottom + placed.at.y};
      layout.texts.push_back(std::move(text));
    }
  }

  void close() {
    left -= left & 3;
    const int width = std::max(24, (right - left + 3) / 4 * 4);
    Placed& placed = layout.items[item];
    placed.trough_width = width, placed.trough_height = deep ? 16 : 8;
    placed.at = {left + width / 2, rim};
    int y = rim + 1;
    for (const TextBlock& block : plan.problem->items[item].texts) {
      PlacedText text;
      text.id = block.id;
      text.box = {left + width + 2, y, left + width + 2 + block.width, y + block.height};
      y += block.height + 1;
      layout.texts.push_back(std::move(text));
    }
  }
};

}  // namespace

void place_troughs(const Plan& plan, Layout& layout) {
  const Problem& problem = *plan.problem;
  layout.trough_entries.resize(problem.items.size());
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    if (!problem.items[i].trough) continue;
    layout.trough_entries[i].assign(problem.items[i].poses[0].pins.size(), nowhere);
    if (problem.items[i].elsewhere) continue;
    Trough trough{plan, layout, int(i), 1 << 28, -(1 << 28), plan.row_y[0], 0, false, {}};
    trough.gather();
    for (const Node& node : plan.nodes)
      if (node.placed_apart && !node.item->trough && node.reservoir == int(i)) trough.set_cover(node);
    trough.close();
  }
  for (const TankMark& entry : layout.entries) {
    auto& points = layout.trough_entries[entry.reservoir];
    if (entry.end.pin >= 0 && entry.end.pin < int(points.size())) points[entry.end.pin] = entry.at;
  }
}

}  // namespace ferrule::layout
