// Two valves of one family that lie between the same two lines, one under the other (cross reliefs of a motor), turn their
// long ends, which are the springs, outward: the upper one up, the lower one down.
#include <algorithm>
#include <map>
#include <optional>
#include <tuple>

#include "render/layout/guess.hpp"

namespace ferrule::layout {

namespace {

// The two lines that it lies between, if it does.
std::optional<std::pair<int, int>> lines_beside(const Plan& plan, const Node& node) {
  std::vector<int> nets;
  for (const int t : node.taps) {
    const Pin& pin = pin_of(plan, plan.taps[t]);
    if (pin.use != PortUse::main) continue;
    if (pin.side != Side::left && pin.side != Side::right) return {};
    nets.push_back(plan.taps[t].net);
  }
  if (nets.size() != 2 || nets[0] == nets[1]) return {};
  return std::minmax(nets[0], nets[1]);
}

int rise(const Pose& pose) { return (pose.centre.y - pose.box.top) - (pose.box.bottom - pose.centre.y); }

// The pose with every line on the side where it is, and the long end as far up (or down) as there is one.
void turn(const Plan& plan, Node& node, bool up) {
  const auto sides_stay = [&](const Pose& pose) {
    return std::all_of(node.taps.begin(), node.taps.end(), [&](int t) { return pose.pins[plan.taps[t].pin].side == pin_of(plan, plan.taps[t]).side; });
  };
  const int centre = node.guess + node.stand().centre.x;
  int best = node.pose;
  for (std::size_t p = 0; p < node.item->poses.size(); ++p) {
    const int more = rise(node.item->poses[p]) - rise(node.item->poses[best]);
    if ((up ? more : -more) > 0 && sides_stay(node.item->poses[p])) best = int(p);
  }
  node.pose = best;
  node.guess = centre - node.stand().centre.x;
}

}  // namespace

void turn_pairs_outward(Plan& plan) {
  std::map<std::tuple<int, std::string, std::pair<int, int>>, std::vector<int>> alike;
  for (std::size_t n = 0; n < plan.nodes.size(); ++n) {
    const Node& node = plan.nodes[n];
    if (node.kind != Node::Kind::symbol || node.block == 0) continue;
    if (const auto nets = lines_beside(plan, node)) alike[{node.block, node.item->family, *nets}].push_back(int(n));
  }
  for (auto& [key, pair] : alike) {
    if (pair.size() != 2) continue;
    Node *upper = &plan.nodes[pair[0]], *lower = &plan.nodes[pair[1]];
    if (upper->row == lower->row) continue;
    if (upper->row < lower->row) std::swap(upper, lower);
    turn(plan, *upper, true), turn(plan, *lower, false);
  }
}

}  // namespace ferrule::layout
