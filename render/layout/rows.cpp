// Step 2: which row every symbol stands in, and which way up. Supply rows at the bottom, then what stands under the valves, the
// directional valves, modulation, actuators. Inside its range a symbol takes the row in which its nets reach least far.
#include <algorithm>
#include <cstdlib>
#include <map>

#include "render/layout/levels.hpp"

namespace ferrule::layout {

namespace {

constexpr int wide_net = 64;      // nets with more ends say little about rows and cost much to ask
constexpr int top_row = 1000;     // actuators, while rows are still relative to the valves
constexpr int bottom_channel = -1000;
constexpr int pump_row = 5;       // rows below it: filters and check valves in a suction line
constexpr int reach = 8;          // rows of modulation, and under the valves

// The valves a branch hangs on: of its directional valves those that most lines of the supply reach.
void find_primary(Plan& plan, const NetTaps& by_net) {
  std::vector<int> outward(plan.nodes.size(), 0), most(plan.blocks.size(), 0);
  for (const auto& taps : by_net) {
    const bool leaves = std::any_of(taps.begin(), taps.end(), [&](int t) {
      return plan.nodes[plan.taps[t].node].block != plan.nodes[plan.taps[taps[0]].node].block;
    });
    if (leaves)
      for (const int t : taps) ++outward[plan.taps[t].node];
  }
  for (std::size_t n = 0; n < plan.nodes.size(); ++n) {
    Node& node = plan.nodes[n];
    node.primary = node.block > 0 && directional(*node.item);
    if (node.primary) most[node.block] = std::max(most[node.block], std::min(outward[n], 2));
  }
  for (std::size_t n = 0; n < plan.nodes.size(); ++n)
    plan.nodes[n].primary = plan.nodes[n].primary && std::min(outward[n], 2) == most[plan.nodes[n].block];
}

// ---------------------------------------------------------------- which way is up

struct Wish { bool up = false, down = false, passing = false; };

struct Turner {
  Plan& plan;
  const Levels& levels;
  const NetTaps& by_net;

  Wish wish(const Tap& tap) const {
    if (tap.way == Way::hang) return {false, true, false};
    Wish wish;
    const double mine = levels.of[tap.node];
    double sum = 0;
    int count = 0;
    bool higher = false, lower = false, beyond = false;
    for (const int t : by_net[tap.net]) {
      const int other = plan.taps[t].node;
      const bool elsewhere = plan.nodes[other].block != plan.nodes[tap.node].block;
      if (other == tap.node || (elsewhere && beyond)) continue;
      beyond = beyond || elsewhere;              // however many hang on a rail, it is one end
      const double h = levels.seen(plan, tap.node, other);
      sum += h, ++count;
      higher = higher || h > mine + 1, lower = lower || h < mine - 1;
    }
    if (!count) return wish;
    wish.passing = higher && lower;
    wish.up = sum / count > mine + 0.5, wish.down = sum / count < mine - 0.5;
    return wish;
  }

  static int cost(const Pin& pin, const Wish& wish, bool mechanical, bool lying) {
    const bool vertical = pin.side == Side::above || pin.side == Side::below;
    if (mechanical) return vertical ? 4 : 0;
    if (lying) return vertical ? 3 : 0;
    if (!vertical) return pin.use == PortUse::main ? 2 : 0;
    const bool up = pin.side == Side::above;
    return (up && wish.down) || (!up && wish.up) ? (pin.use == PortUse::main ? 6 : 1) : 0;
  }

  // Of equal poses of an actuator the one with its first port left and its shaft up (gold rule: motor between the lanes).
  static int habit(const Node& node, const Pose& pose) {
    if (node.item->tier != Tier::actuator) return 0;
    int sum = 0;
    for (const Pin& pin : pose.pins) sum += pin.use == PortUse::mechanical && pin.side == Side::below ? 2 : 0;
    return sum + (!pose.pins.empty() && pose.pins[0].side == Side::right);
  }

  void turn(Node& node) const {
    if (node.item->poses.size() < 2 || node.taps.empty()) return;
    std::vector<Wish> wishes;
    bool lying = node.taps.size() > 1;
    for (const int t : node.taps) {
      wishes.push_back(wish(plan.taps[t]));
      lying = lying && wishes.back().passing;
    }
    if (node.item->tier == Tier::actuator || directional(*node.item)) lying = false;
    int best = 0, least = 1 << 30;
    for (std::size_t p = 0; p < node.item->poses.size(); ++p) {
      int sum = 0;
      for (std::size_t i = 0; i < node.taps.size(); ++i) {
        const Tap& tap = plan.taps[node.taps[i]];
        if (tap.way == Way::hang && node.item->poses[p].pins[tap.pin].side == Side::above) sum += 1000;   // nothing hangs upward
        sum += cost(node.item->poses[p].pins[tap.pin], wishes[i],
                    plan.problem->nets[tap.net].kind == NetKind::mechanical, lying);
      }
      sum = 4 * sum + habit(node, node.item->poses[p]);
      if (sum < least) least = sum, best = int(p);
    }
    node.pose = best;
  }
};

// ---------------------------------------------------------------- rows of one block

// What a part is in its branch, whatever it usually is: what stands between rail and valve is control, what stands between
// valve and actuator modulation, also a second valve or a relief there.
void settle_tiers(Plan& plan, const std::vector<char>& over) {
  for (std::size_t n = 0; n < plan.nodes.size(); ++n) {
    Node& node = plan.nodes[n];
    node.tier = node.item->tier;
    if (node.item->beside >= 0) node.tier = Tier::actuator;
    else if (node.block == 0) node.tier = node.tier == Tier::actuator ? Tier::actuator : Tier::supply;
    else if (node.primary) node.tier = Tier::control;
    else if (node.tier == Tier::modulation || node.tier == Tier::supply) node.tier = over[n] ? Tier::modulation : Tier::control;
    else if (directional(*node.item) && over[n]) node.tier = Tier::modulation;
  }
}

struct Range { int low, high, start; };

struct Rows {
  Plan& plan;
  const NetTaps& by_net;
  std::vector<char> placed;

  bool sucks(const Node& node) const {
    return std::any_of(node.taps.begin(), node.taps.end(), [&](int t) { return plan.problem->nets[plan.taps[t].net].kind == NetKind::suction; });
  }

  Range range(const Node& node) const {
    if (node.kind == Node::Kind::entry || node.kind == Node::Kind::tail || node.item->in_trough) return {0, 0, 0};
    if (goes_on(*node.item)) return node.block == 0 ? Range{pump_row, pump_row, pump_row} : Range{0, 0, 0};
    if (node.block == 0) return {sucks(node) ? 1 : pump_row, 16, pump_row};
    if (node.kind == Node::Kind::mark) return {-reach, reach, 0};
    if (node.primary) return {0, 0, 0};
    if (node.item->beside >= 0) return {top_row, top_row, top_row};
    switch (node.tier) {
      case Tier::supply: return {-reach, -1, -1};
      case Tier::control: return {-reach, directional(*node.item) ? 0 : -1, -1};
      case Tier::modulation: return {directional(*node.item) ? 0 : 1, reach, 1};
      case Tier::actuator: return {top_row, top_row, top_row};
    }
    return {0, 0, 0};
  }

  // The channel a pin opens into when its node stands in `row`; false for side ports, which take either.
  bool opens(const Tap& tap, int row, int& channel) const {
    const Side side = pin_of(plan, tap).side;
    if (side == Side::left || side == Side::right || tap.way == Way::hang) return false;
    channel = side == Side::above ? row : row - 1;
    return true;
  }

  int cost(const Node& node, int row) const {
    int sum = 0;
    for (const int t : node.taps) {
      const Tap& tap = plan.taps[t];
      int channel = 0, low = 1 << 20, high = -(1 << 20);
      if (!opens(tap, row, channel) || int(by_net[tap.net].size()) > wide_net) continue;
      const bool passing = plan.habits.climb && rises_to_actuator(tap.net, node.block);
      for (const int o : by_net[tap.net]) reach_of(plan.taps[o], node.block, t, low, high);
      if (low > high) continue;
      sum += 4 * std::max(0, low - channel) + (passing ? 1 : 4) * std::max(0, channel - high);
    }
    return sum + 6 * alike(node, row);
  }

  // Such a line passes the rows above the valve anyhow.
  bool rises_to_actuator(int net, int block) const {
    return std::any_of(by_net[net].begin(), by_net[net].end(), [&](int t) {
      const Node& node = plan.nodes[plan.taps[t].node];
      return node.block == block && node.tier == Tier::actuator;
    });
  }

  void reach_of(const Tap& other, int block, int self, int& low, int& high) const {
    const Node& node = plan.nodes[other.node];
    int channel = 0;
    if (&other == &plan.taps[self]) return;
    if (node.block != block) {
      if (block == 0 && plan.problem->nets[other.net].kind == NetKind::return_) return;     // it falls as far as it likes
      channel = block == 0 ? 100 : bottom_channel;
    } else if (!placed[other.node] || !opens(other, node.row, channel)) {
      return;
    }
    if (channel >= top_row - 1) return;        // the actuators' row is as high as it must be: near the valve is near enough
    low = std::min(low, channel), high = std::max(high, channel);
  }

  // Two that lie between the same two lines stand one under the other, not side by side.
  int alike(const Node& node, int row) const {
    if (node.taps.size() < 2 || int(by_net[plan.taps[node.taps[0]].net].size()) > wide_net) return 0;
    int count = 0, channel = 0;
    for (const int t : node.taps)
      if (opens(plan.taps[t], row, channel)) return 0;
    for (const int o : by_net[plan.taps[node.taps[0]].net]) {
      const Node& other = plan.nodes[plan.taps[o].node];
      if (&other == &node || !placed[plan.taps[o].node] || other.row != row || other.block != node.block) continue;
      count += other.item->family == node.item->family && other.taps.size() == node.taps.size();
    }
    return count;
  }

  void settle(int n) {
    Node& node = plan.nodes[n];
    const Range range = this->range(node);
    int best = range.start, least = cost(node, best);
    for (int step = 1; step <= range.high - range.low; ++step)
      for (const int row : {range.start + step, range.start - step}) {
        if (row < range.low || row > range.high) continue;
        if (const int now = cost(node, row); now < least) least = now, best = row;
      }
    node.row = best, placed[n] = 1;
  }

  // What stands on a node, and on that, by lines that leave upward; empty when it is more than a few or holds a fixed row.
  std::vector<int> stack_on(int n) const {
    constexpr std::size_t few = 12;
    std::vector<int> stack{n};
    for (std::size_t i = 0; i < stack.size(); ++i) {
      const Node& node = plan.nodes[stack[i]];
      if (stack.size() > few || seed(node) || node.row + 1 > range(node).high) return {};
      for (const int t : node.taps) {
        if (pin_of(plan, plan.taps[t]).side != Side::above || int(by_net[plan.taps[t].net].size()) > wide_net) continue;
        for (const int o : by_net[plan.taps[t].net]) {
          const Tap& other = plan.taps[o];
          const bool over = plan.nodes[other.node].block == node.block && pin_of(plan, other).side == Side::below && plan.nodes[other.node].row <= node.row + 1;
          if (over && std::find(stack.begin(), stack.end(), other.node) == stack.end()) stack.push_back(other.node);
        }
      }
    }
    return stack;
  }

  // A node and what stands on it go up a row together where that shortens the lines: alone none of them would.
  void raise(int n) {
    const std::vector<int> stack = stack_on(n);
    const auto total = [&] {
      int sum = 0;
      for (const int m : stack) sum += cost(plan.nodes[m], plan.nodes[m].row);
      return sum;
    };
    const int before = total();
    for (const int m : stack) ++plan.nodes[m].row;
    if (total() < before) return;
    for (const int m : stack) --plan.nodes[m].row;
  }

  bool seed(const Node& node) const {
    const Item& item = *node.item;
    if (node.kind == Node::Kind::entry || node.kind == Node::Kind::tail || item.in_trough || goes_on(item)) return true;
    if (node.block == 0) return item.family == "pump" || item.prime_mover || item.family == "relief" || has_hint(item, "beside-pump");
    return node.primary || item.tier == Tier::actuator;
  }

  void place(const Block& block) {
    std::vector<int> queue;
    for (const int n : block.nodes)
      if (!plan.nodes[n].placed_apart && seed(plan.nodes[n])) put(n, queue);
    std::size_t next = 0;
    for (std::size_t i = 0; i <= block.nodes.size(); ++i) {
      for (; next < queue.size(); ++next) follow(queue[next], queue);
      if (i < block.nodes.size() && !placed[block.nodes[i]] && !plan.nodes[block.nodes[i]].placed_apart) put(block.nodes[i], queue);
    }
    for (int pass = 0; pass < 3; ++pass) {
      for (const int n : queue)
        if (!seed(plan.nodes[n])) settle(n);
      for (const int n : queue) raise(n);
    }
  }

  void put(int n, std::vector<int>& queue) {
    if (seed(plan.nodes[n])) plan.nodes[n].row = range(plan.nodes[n]).start, placed[n] = 1;
    else settle(n);
    queue.push_back(n);
  }

  void follow(int n, std::vector<int>& queue) {
    for (const int t : plan.nodes[n].taps) {
      const int net = plan.taps[t].net;
      if (int(by_net[net].size()) > wide_net) continue;
      for (const int o : by_net[net]) {
        const int other = plan.taps[o].node;
        if (!placed[other] && plan.nodes[other].block == plan.nodes[n].block && !plan.nodes[other].placed_apart) put(other, queue);
      }
    }
  }
};

// Rows that anything stands in, numbered from the bottom without gaps.
void close_up(Plan& plan) {
  std::map<int, int> supply, branches;
  for (const Node& node : plan.nodes)
    if (!node.placed_apart) (node.block == 0 ? supply : branches)[node.row];
  supply.erase(0);
  int next = 1;
  for (auto& [row, number] : supply) number = next++;
  plan.supply_rows = next - 1;
  for (auto& [row, number] : branches) number = next++;
  plan.rows = next;
  for (Node& node : plan.nodes)
    if (!node.placed_apart && !(node.block == 0 && node.row == 0)) node.row = (node.block == 0 ? supply : branches)[node.row];
}

}  // namespace

void assign_rows(Plan& plan) {
  NetTaps by_net(plan.problem->nets.size());
  for (std::size_t t = 0; t < plan.taps.size(); ++t)
    if (plan.taps[t].way != Way::hang) by_net[plan.taps[t].net].push_back(int(t));
  find_primary(plan, by_net);
  const Levels levels = levels_of(plan, by_net);
  const Turner turner{plan, levels, by_net};
  for (Node& node : plan.nodes) turner.turn(node);
  settle_tiers(plan, over_valves(plan, by_net));
  Rows rows{plan, by_net, std::vector<char>(plan.nodes.size(), 0)};
  for (const Block& block : plan.blocks) rows.place(block);
  obey_rows(plan);
  close_up(plan);
}

}  // namespace ferrule::layout
