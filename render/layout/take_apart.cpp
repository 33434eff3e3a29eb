// Step 1: nodes and taps, blocks (supply and branches), and which lines to the reservoir fall to the trough or end in a mark.
#include <algorithm>
#include <map>
#include <numeric>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

// The two things layout adds itself. A mark is drawn 2 M wide and 3 M high under its port (house size of the line end in the
// reservoir); an entry is a point on the rim of a trough.
const Item& mark_item() {
  static const Item item = [] {
    Item mark;
    mark.family = "tank-mark";
    mark.poses.push_back({0, false, 0, {-2, 0, 2, 6}, {0, 5}, {{"T", {0, 0}, Side::above, PortUse::main}}, {}});
    return mark;
  }();
  return item;
}

const Item& entry_item() {
  static const Item item = [] {
    Item entry;
    entry.family = "trough-entry";
    entry.poses.push_back({0, false, 0, {0, 0, 0, 2}, {0, 0}, {{"T", {0, 0}, Side::above, PortUse::main}}, {}});
    return entry;
  }();
  return item;
}

struct Union {
  std::vector<int> up;
  explicit Union(std::size_t n) : up(n) { std::iota(up.begin(), up.end(), 0); }
  int root(int i) {
    while (up[i] != i) i = up[i] = up[up[i]];
    return i;
  }
  void join(int a, int b) {
    a = root(a), b = root(b);
    if (a != b) up[std::max(a, b)] = std::min(a, b);   // the earlier item names the set
  }
};

// Of the supply whatever it is joined to.
bool surely_supply(const Item& item) {
  return item.branch == 0 || item.trough || item.in_trough || item.on_cover ||
         (item.branch < 0 && (item.prime_mover || item.family == "pump"));
}

bool is_bus(NetKind kind) {
  return kind != NetKind::working && kind != NetKind::mechanical;
}

// Feeding lines: what a part of the supply is known by. Returns, drains and signals reach everything.
bool feeds(const Net& net) {
  return net.kind == NetKind::pressure || net.kind == NetKind::working || net.kind == NetKind::suction;
}

bool is_valve(const Item& item) {
  return item.tier == Tier::control && (item.family == "directional" || item.family == "section");
}

// By item: a directional valve that works something.
std::vector<char> working_valves(const Problem& problem) {
  std::vector<char> works(problem.items.size(), 0);
  for (const Net& net : problem.nets)
    for (const End& end : net.ends) works[end.item] |= net.kind == NetKind::working && is_valve(problem.items[end.item]);
  return works;
}

// A check valve or filter straight behind a pump: before any valve that works something.
void add_pump_lines(const Problem& problem, std::vector<char>& member) {
  const std::vector<char> works = working_valves(problem);
  for (const Net& net : problem.nets) {
    const auto any = [&](auto test) { return std::any_of(net.ends.begin(), net.ends.end(), [&](const End& e) { return test(e.item); }); };
    if (!feeds(net) || !any([&](int i) { return problem.items[i].family == "pump"; }) || any([&](int i) { return bool(works[i]); })) continue;
    for (const End& end : net.ends) {
      const Item& item = problem.items[end.item];
      if (item.branch < 0 && item.tier != Tier::actuator && !is_valve(item)) member[end.item] = 1;
    }
  }
}

// What lies between lines of the supply alone belongs to it: an unloading valve, a lowering valve on the pump's line.
bool add_between(const Problem& problem, std::vector<char>& member) {
  std::vector<char> candidate(problem.items.size(), 0), barred(problem.items.size(), 0);
  for (const Net& net : problem.nets) {
    if (!feeds(net)) continue;
    int members = 0;
    for (const End& end : net.ends) members += member[end.item];
    for (const End& end : net.ends) (members > member[end.item] ? candidate : barred)[end.item] = 1;
  }
  bool changed = false;
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const Item& item = problem.items[i];
    if (member[i] || barred[i] || !candidate[i] || item.branch >= 0 || item.tier == Tier::actuator || item.tier == Tier::supply) continue;
    member[i] = changed = true;
  }
  return changed;
}

// By item: does it belong to the supply. What usually does (a relief, a gauge) and has no circuit number belongs there unless
// all its main lines are working lines that no part of the supply feeds: a relief at a cylinder stands in the branch.
std::vector<char> members_of_supply(const Problem& problem) {
  std::vector<char> member(problem.items.size(), 0), open(problem.items.size(), 0), worked(problem.items.size(), 0);
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const Item& item = problem.items[i];
    member[i] = surely_supply(item);
    open[i] = !member[i] && item.branch < 0 && item.tier == Tier::supply;
  }
  add_pump_lines(problem, member);
  for (bool changed = true; changed;) {
    changed = add_between(problem, member);
    for (const Net& net : problem.nets) {
      if (!feeds(net)) continue;
      bool fed = net.kind != NetKind::working;
      for (const End& end : net.ends) fed = fed || member[end.item];
      for (const End& end : net.ends) {
        if (net.kind == NetKind::working) worked[end.item] = 1;
        if (fed && open[end.item] && !member[end.item]) member[end.item] = changed = true;
      }
    }
  }
  for (std::size_t i = 0; i < member.size(); ++i) member[i] = member[i] || (open[i] && !worked[i]);
  return member;
}

// Which set of items each item belongs to: the items that are joined by working lines and shafts.
Union sets_of(const Problem& problem, const std::vector<char>& supply) {
  Union sets(problem.items.size());
  for (const Net& net : problem.nets) {
    if (is_bus(net.kind)) continue;
    int first = -1;
    for (const End& end : net.ends) {
      if (supply[end.item] || problem.items[end.item].branch > 0) continue;
      if (first >= 0) sets.join(first, end.item);
      first = end.item;
    }
  }
  return sets;
}

// Votes of the nets: the block that most nets of the set reach; 0 when only the supply answers, -1 for none.
int voted(const std::map<int, int>& votes) {
  int best = -1, most = 0;
  for (const auto& [block, count] : votes)
    if (block > 0 && count > most) best = block, most = count;
  if (best < 0 && votes.count(0)) return 0;
  return best;
}

struct Blocks {
  const Problem& problem;
  std::vector<char> supply;   // by item
  Union sets;
  std::vector<int> of_set;    // by root: block or -1
  std::map<int, int> by_branch;
  int count = 1;

  explicit Blocks(const Problem& p) : problem(p), supply(members_of_supply(p)), sets(sets_of(p, supply)), of_set(p.items.size(), -1) {}

  int block(int item) {
    const Item& it = problem.items[item];
    if (it.beside >= 0) return block(it.beside);
    if (supply[item]) return 0;
    if (it.branch > 0) return by_branch[it.branch];
    return of_set[sets.root(item)];
  }

  void number() {
    for (const Item& item : problem.items)
      if (item.branch > 0 && !surely_supply(item)) by_branch[item.branch] = 0;
    for (auto& [branch, block] : by_branch) block = count++;
    // Sets that are joined to a numbered branch by a working line belong to it; sets with an actuator are branches.
    for (const Net& net : problem.nets) {
      if (is_bus(net.kind)) continue;
      int known = -1;
      for (const End& end : net.ends)
        if (known < 0 && problem.items[end.item].branch > 0) known = block(end.item);
      for (const End& end : net.ends)
        if (known > 0 && block(end.item) < 0) of_set[sets.root(end.item)] = known;
    }
    for (std::size_t i = 0; i < problem.items.size(); ++i)
      if (problem.items[i].tier == Tier::actuator && block(i) < 0) of_set[sets.root(i)] = count++;
  }

  // Sets without an actuator join the block they share most nets with.
  void attach_rest() {
    for (int pass = 0; pass < 3; ++pass) {
      std::map<int, std::map<int, int>> votes;  // by root
      for (const Net& net : problem.nets) count_votes(net, votes);
      for (auto& [root, of_root] : votes)
        if (const int best = voted(of_root); best > 0 || (best == 0 && pass == 2)) of_set[root] = best;
    }
    for (std::size_t i = 0; i < problem.items.size(); ++i)
      if (block(i) < 0) of_set[sets.root(i)] = count++;
  }

  void count_votes(const Net& net, std::map<int, std::map<int, int>>& votes) {
    std::vector<int> open, there;
    for (const End& end : net.ends) {
      const int b = block(end.item);
      if (b < 0) open.push_back(sets.root(end.item));
      else there.push_back(b);
    }
    if (open.empty()) return;
    std::sort(there.begin(), there.end());
    there.erase(std::unique(there.begin(), there.end()), there.end());
    if (there.size() > 2) return;             // a rail says nothing about belonging
    for (const int root : open)
      for (const int b : there) ++votes[root][b];
  }
};

struct Builder {
  Plan& plan;
  const Problem& problem;
  std::vector<std::vector<char>> used;   // by item, by pin

  void add_nodes(Blocks& blocks) {
    for (std::size_t i = 0; i < problem.items.size(); ++i) {
      const Item& item = problem.items[i];
      Node node;
      node.item = &item;
      node.source = int(i);
      node.block = blocks.block(int(i));
      node.reservoir = item.trough ? int(i) : item.host;
      node.placed_apart = item.trough || (item.on_cover && item.host >= 0);
      plan.nodes.push_back(std::move(node));
      used.emplace_back(item.poses.empty() ? 0 : item.poses[0].pins.size(), char(0));
    }
  }

  bool usable(const End& end) const {
    if (end.item < 0 || end.item >= int(problem.items.size())) return false;
    if (problem.items[end.item].trough) return true;
    if (problem.items[end.item].on_cover) return false;      // stands on the cover without a line
    if (end.pin < 0 || end.pin >= int(used[end.item].size())) return false;
    return !used[end.item][end.pin];
  }

  int add_tap(int net, int node, int pin, End end) {
    Tap tap;
    tap.node = node, tap.pin = pin, tap.net = net, tap.end = end;
    plan.taps.push_back(tap);
    plan.nodes[node].taps.push_back(int(plan.taps.size()) - 1);
    return int(plan.taps.size()) - 1;
  }

  int hinted(int net, Hint::Kind kind) const {
    for (const Hint& hint : problem.hints)
      if (hint.kind == kind && hint.a == net) return 1;
    return 0;
  }

  // Marks for the drains and returns of one branch; the trough for what the supply holds and for rails (gold rules 3 and 8).
  bool ends_in_marks(int net, const std::vector<End>& tanks, const std::vector<End>& others, int branches) const {
    const bool elsewhere = std::any_of(tanks.begin(), tanks.end(), [&](const End& end) { return problem.items[end.item].elsewhere; });
    if (elsewhere || hinted(net, Hint::Kind::marks)) return true;
    if (hinted(net, Hint::Kind::rail) || hinted(net, Hint::Kind::trough) || others.empty()) return false;
    if (plan.distances.short_trough && others.size() == 1 && problem.nets[net].kind != NetKind::suction) return true;
    int first = -1;
    for (const End& end : others) {
      const int block = plan.nodes[end.item].block;
      if (block == 0 || (first > 0 && block != first)) return false;
      first = block;
    }
    return problem.nets[net].kind == NetKind::drain || branches > 1 || others.size() == 1;
  }

  int add_tank_node(int net, End end, bool mark, int block) {
    Node node;
    node.kind = mark ? Node::Kind::mark : Node::Kind::entry;
    node.item = mark ? &mark_item() : &entry_item();
    node.reservoir = end.item;
    node.block = mark ? block : 0;
    plan.nodes.push_back(std::move(node));
    return add_tap(net, int(plan.nodes.size()) - 1, 0, end);
  }

  void add_net(int index) {
    const Net& net = problem.nets[index];
    std::vector<End> others, tanks;
    for (const End& end : net.ends) {
      if (!usable(end)) continue;
      const bool tank = problem.items[end.item].trough;
      (tank ? tanks : others).push_back(end);
      if (!tank) used[end.item][end.pin] = 1;
    }
    if (others.empty() || others.size() + tanks.size() < 2) return;
    const bool inside = std::all_of(others.begin(), others.end(), [&](const End& end) { return problem.items[end.item].in_trough; });
    if (inside && !tanks.empty()) return;      // a strainer stands open in the oil
    for (const End& end : others) add_tap(index, end.item, end.pin, end);
    if (tanks.empty()) return;
    const int first = plan.nodes[others[0].item].block;
    const bool marks = ends_in_marks(index, tanks, others, int(plan.blocks.size()) - 1);
    if (!marks) {
      for (const End& end : tanks) add_tank_node(index, end, false, 0);
      return;
    }
    if (others.size() == 1 && hang(tanks[0])) return;
    add_tank_node(index, tanks[0], true, first);
  }

  // Room for what stands on a cover without a line, and for the reservoir's texts.
  void add_tails() {
    for (std::size_t i = 0; i < problem.items.size(); ++i) {
      if (!problem.items[i].trough || problem.items[i].elsewhere) continue;
      int width = 24, text = 0;
      for (const TextBlock& block : problem.items[i].texts) text = std::max(text, block.width);
      for (const Item& item : problem.items)
        if (item.on_cover && item.host == int(i)) width += girth_of(item) + 8;
      Node node;
      node.kind = Node::Kind::tail;
      node.item = &entry_item();
      node.reservoir = int(i);
      node.block = 0;
      node.cell.room = {0, 0, (width + text + 9) / 2 * 2, 2};
      plan.nodes.push_back(std::move(node));
    }
  }

  static int girth_of(const Item& item) {
    int text = 0;
    for (const TextBlock& block : item.texts) text += block.width + 4;
    return item.poses[0].box.right - item.poses[0].box.left + 2 * text;
  }

  // A single drain ends in a mark inside the cell of its symbol: no line through the sheet.
  bool hang(End tank) {
    Tap& tap = plan.taps.back();
    if (pin_of(plan, tap).side == Side::above) return false;
    tap.way = Way::hang;
    tap.hung = tank;
    return true;
  }
};

}  // namespace

const Pin& pin_of(const Plan& plan, const Tap& tap) {
  return plan.nodes[tap.node].stand().pins[tap.pin];
}

int channel_of(const Plan& plan, const Tap& tap) {
  return plan.nodes[tap.node].row - (tap.way == Way::up ? 0 : 1);
}

void take_apart(Plan& plan) {
  const Problem& problem = *plan.problem;
  Blocks blocks(problem);
  blocks.number();
  blocks.attach_rest();
  plan.blocks.resize(blocks.count);
  Builder builder{plan, problem, {}};
  builder.add_nodes(blocks);
  for (std::size_t n = 0; n < problem.nets.size(); ++n) builder.add_net(int(n));
  builder.add_tails();
  for (std::size_t n = 0; n < plan.nodes.size(); ++n) plan.blocks[plan.nodes[n].block].nodes.push_back(int(n));
}

}  // namespace ferrule::layout
