// What the text asks for itself: rows after they were assigned, left and right before rows are put in order. A hint that cannot be
// obeyed, or that contradicts an earlier one, is left out and said so; what is left is judged on the finished layout, so that a
// hint either holds or is refused.
#include <algorithm>
#include <cstdlib>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

using Kind = Hint::Kind;

// Items come first among the nodes, in their order.
bool between_items(const Plan& plan, const Hint& hint) {
  const int items = int(plan.problem->items.size());
  const bool of_net = hint.kind == Kind::rail || hint.kind == Kind::marks || hint.kind == Kind::trough;
  return !of_net && hint.a >= 0 && hint.a < items && hint.b >= 0 && hint.b < items && hint.a != hint.b;
}

bool refused(const std::vector<Refusal>& refusals, int hint) {
  return std::any_of(refusals.begin(), refusals.end(), [&](const Refusal& refusal) { return refusal.hint == hint; });
}

// ---------------------------------------------------------------- rows

// What moves into or over the row of what stands.
const char* why_not_in_row(const Node& a, const Node& b) {
  if (a.item->in_trough || b.item->in_trough || a.placed_apart || b.placed_apart) return "a reservoir and what stands on it have a place of their own";
  if ((a.block == 0) != (b.block == 0)) return "one stands in the supply, the other in a branch";
  if (a.tier != b.tier) return "supply, control and actuators stand one over the other";
  if (a.item->beside >= 0 || b.item->beside >= 0) return "what watches a rod stands beside it";
  if ((a.mate_left >= 0 || a.mate_right >= 0)) return "a shaft or rod holds its place";
  return nullptr;
}

// ---------------------------------------------------------------- left and right

struct SideBySide {
  int left, right, hint;
};

// Whether a stands left of b by the hints so far, also over others between them; the hint that says so first, or -1.
int said_left(const std::vector<SideBySide>& order, int a, int b) {
  std::vector<int> front{a}, by{-1};
  for (std::size_t i = 0; i < front.size(); ++i)
    for (const SideBySide& said : order) {
      if (said.left != front[i] || std::find(front.begin(), front.end(), said.right) != front.end()) continue;
      const int first = by[i] >= 0 ? by[i] : said.hint;
      if (said.right == b) return first;
      front.push_back(said.right), by.push_back(first);
    }
  return -1;
}

int centre(const Node& node) { return node.guess + node.stand().centre.x; }

// With all that one shaft or rod joins.
void stand_at(Plan& plan, int n, int x) {
  const int by = x - centre(plan.nodes[n]);
  for (int m = n; m >= 0; m = plan.nodes[m].mate_left) plan.nodes[m].guess += by;
  for (int m = plan.nodes[n].mate_right; m >= 0; m = plan.nodes[m].mate_right) plan.nodes[m].guess += by;
}

void accept(Plan& plan, std::vector<SideBySide>& order, int index) {
  const Hint& hint = plan.problem->hints[index];
  const int left = hint.kind == Kind::left_of ? hint.a : hint.b, right = hint.kind == Kind::left_of ? hint.b : hint.a;
  const int other = said_left(order, right, left);
  if (other >= 0) plan.refusals.push_back({index, other, "that contradicts"});
  else order.push_back({left, right, index});
}

// The part named first moves; a few rounds, since one move may undo another.
void settle(Plan& plan, const std::vector<SideBySide>& order) {
  for (std::size_t round = 0, moved = 1; moved > 0 && round <= order.size(); ++round) {
    moved = 0;
    for (const SideBySide& said : order) {
      const Node &left = plan.nodes[said.left], &right = plan.nodes[said.right];
      if (left.block != right.block || centre(left) < centre(right)) continue;
      const bool first_left = plan.problem->hints[said.hint].a == said.left;
      stand_at(plan, first_left ? said.left : said.right, first_left ? centre(right) - 1 : centre(left) + 1);
      ++moved;
    }
  }
}

// ---------------------------------------------------------------- what came of it

Point centre_of(const Plan& plan, const Layout& layout, int item) {
  const Point at = layout.items[item].at, centre = plan.problem->items[item].poses[layout.items[item].pose].centre;
  return {at.x + centre.x, at.y + centre.y};
}

bool holds(const Plan& plan, const Layout& layout, const Hint& hint) {
  const Point a = centre_of(plan, layout, hint.a), b = centre_of(plan, layout, hint.b);
  switch (hint.kind) {
    case Kind::left_of: return a.x < b.x;
    case Kind::right_of: return a.x > b.x;
    case Kind::above: return a.y < b.y;
    case Kind::below: return a.y > b.y;
    case Kind::same_row: return a.y == b.y;
    case Kind::same_column: return a.x == b.x;
    default: return true;
  }
}

std::string why_not_so(const Plan& plan, const Hint& hint) {
  const Node &a = plan.nodes[hint.a], &b = plan.nodes[hint.b];
  const bool sideways = hint.kind == Kind::left_of || hint.kind == Kind::right_of;
  if (a.placed_apart || b.placed_apart) return "a reservoir and what stands on it have a place of their own";
  if (sideways && a.block != b.block) return "supply and branches stand in the order of the text";
  if (hint.kind == Kind::same_column && a.block != b.block) return "they stand in different branches";
  if (hint.kind == Kind::above || hint.kind == Kind::below) return "supply, control and actuators stand one over the other";
  return "the lines that join them hold them where they are";
}

}  // namespace

void obey_rows(Plan& plan) {
  for (std::size_t i = 0; i < plan.problem->hints.size(); ++i) {
    const Hint& hint = plan.problem->hints[i];
    const bool row = hint.kind == Kind::same_row || hint.kind == Kind::above || hint.kind == Kind::below;
    if (!row || !between_items(plan, hint)) continue;
    // The lower row may be the last one: what is to stand lower stays, the other is raised.
    Node& moves = plan.nodes[hint.kind == Kind::below ? hint.b : hint.a];
    const Node& stands = plan.nodes[hint.kind == Kind::below ? hint.a : hint.b];
    const bool so_by_tier = hint.kind != Kind::same_row && moves.tier != stands.tier;
    if (so_by_tier) continue;
    if (const char* why = why_not_in_row(moves, stands)) plan.refusals.push_back({int(i), -1, why});
    else moves.row = hint.kind == Kind::same_row ? stands.row : std::max(moves.row, stands.row + 1);
  }
}

void obey_order(Plan& plan) {
  std::vector<SideBySide> order;
  for (std::size_t i = 0; i < plan.problem->hints.size(); ++i) {
    const Hint& hint = plan.problem->hints[i];
    if (!between_items(plan, hint)) continue;
    if (hint.kind == Kind::same_column && plan.nodes[hint.a].block == plan.nodes[hint.b].block)
      stand_at(plan, hint.a, centre(plan.nodes[hint.b]));
    if (hint.kind == Kind::left_of || hint.kind == Kind::right_of) accept(plan, order, int(i));
  }
  settle(plan, order);
}

void judge_hints(const Plan& plan, Layout& layout) {
  layout.refusals = plan.refusals;
  for (std::size_t i = 0; i < plan.problem->hints.size(); ++i) {
    const Hint& hint = plan.problem->hints[i];
    if (!between_items(plan, hint) || refused(layout.refusals, int(i)) || holds(plan, layout, hint)) continue;
    layout.refusals.push_back({int(i), -1, why_not_so(plan, hint)});
  }
  std::stable_sort(layout.refusals.begin(), layout.refusals.end(), [](const Refusal& a, const Refusal& b) { return a.hint < b.hint; });
}

}  // namespace ferrule::layout
