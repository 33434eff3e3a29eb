// What the text asks for itself: rows after they were assigned, left and right before rows are put in order. A hint that cannot be
// obeyed, or that contradicts an earlier one, is left out and said so.
#include <algorithm>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

using Kind = Hint::Kind;

// Items come first among the nodes, in their order.
bool known(const Plan& plan, const Hint& hint) {
  const int items = int(plan.problem->items.size());
  return hint.a >= 0 && hint.a < items && hint.b >= 0 && hint.b < items && hint.a != hint.b;
}

std::string words(const Plan& plan, const Hint& hint) {
  const char* relation = hint.kind == Kind::left_of    ? " left of "
                         : hint.kind == Kind::right_of ? " right of "
                         : hint.kind == Kind::same_row ? " same row as "
                                                       : " same column as ";
  return "place " + plan.problem->items[hint.a].id + relation + plan.problem->items[hint.b].id;
}

void refuse(Plan& plan, const Hint& hint, const std::string& why) { plan.notes.push_back("not obeyed: " + words(plan, hint) + ": " + why); }

// a stands left of b by the hints so far, also over others between them; the hint that says so first, or null.
const Hint* said_left(const std::vector<std::pair<std::pair<int, int>, const Hint*>>& order, int a, int b) {
  std::vector<int> front{a};
  std::vector<const Hint*> by{nullptr};
  for (std::size_t i = 0; i < front.size(); ++i)
    for (const auto& [pair, hint] : order) {
      if (pair.first != front[i] || std::find(front.begin(), front.end(), pair.second) != front.end()) continue;
      const Hint* first = by[i] ? by[i] : hint;
      if (pair.second == b) return first;
      front.push_back(pair.second), by.push_back(first);
    }
  return nullptr;
}

int centre(const Node& node) { return node.guess + node.stand().centre.x; }

void stand_at(Plan& plan, int n, int x) {
  Node& node = plan.nodes[n];
  const int by = x - centre(node);
  for (int m = n; m >= 0; m = plan.nodes[m].mate_left) plan.nodes[m].guess += by;
  for (int m = node.mate_right; m >= 0; m = plan.nodes[m].mate_right) plan.nodes[m].guess += by;
}

}  // namespace

void obey_rows(Plan& plan) {
  for (const Hint& hint : plan.problem->hints) {
    if (hint.kind != Kind::same_row || !known(plan, hint)) continue;
    Node& a = plan.nodes[hint.a];
    const Node& b = plan.nodes[hint.b];
    if (a.placed_apart || b.placed_apart) refuse(plan, hint, "what belongs to a reservoir stands with it");
    else if ((a.block == 0) != (b.block == 0)) refuse(plan, hint, "one stands in the supply, the other in a branch");
    else a.row = b.row;
  }
}

void obey_order(Plan& plan) {
  std::vector<std::pair<std::pair<int, int>, const Hint*>> order;
  for (const Hint& hint : plan.problem->hints) {
    if (hint.kind == Kind::same_column && known(plan, hint)) {
      if (plan.nodes[hint.a].block == plan.nodes[hint.b].block) stand_at(plan, hint.a, centre(plan.nodes[hint.b]));
      else refuse(plan, hint, "they stand in different branches");
    }
    if ((hint.kind != Kind::left_of && hint.kind != Kind::right_of) || !known(plan, hint)) continue;
    const int left = hint.kind == Kind::left_of ? hint.a : hint.b, right = hint.kind == Kind::left_of ? hint.b : hint.a;
    if (const Hint* other = said_left(order, right, left)) {
      refuse(plan, hint, "contradicts " + words(plan, *other));
      continue;
    }
    order.push_back({{left, right}, &hint});
    const Node &l = plan.nodes[left], &r = plan.nodes[right];
    if (l.block != r.block) {
      if (l.block > r.block || l.block == 0) refuse(plan, hint, "branches stand in the order of the text");
      continue;
    }
    if (centre(l) < centre(r)) continue;
    if (l.mate_left >= 0 || l.mate_right >= 0) refuse(plan, hint, "a shaft or rod holds its place");
    else stand_at(plan, hint.a, hint.kind == Kind::left_of ? centre(r) - 1 : centre(l) + 1);
  }
}

}  // namespace ferrule::layout
