#include "compiler/hydraulics/merging.hpp"

#include <algorithm>
#include <cmath>

namespace ferrule::hydraulics {
namespace {

constexpr std::uint32_t none = 0xffffffff;

const Resistance& resistance_of(const Network& network, std::uint32_t branch) {
  return std::get<Loss>(*network.branches[branch].law).resistance;
}

std::uint32_t terminal(const Network& network, std::uint32_t branch, std::uint32_t t) {
  return network.terminals[network.branches[branch].first_terminal + t];
}

bool is_square(const Resistance& r) { return r.square > 0 && r.linear <= 100 * least_linear; }

// Slopes at rest add as the drops do, so the seam of the sum follows from them.
Resistance in_series(const Resistance& a, const Resistance& b) {
  const double square = a.square + b.square;
  const double at_rest = a.square * a.seam + b.square * b.seam;
  return {square, a.linear + b.linear, square > 0 ? at_rest / square : 0};
}

double root_conductance(const Resistance& r) { return 1 / std::sqrt(r.square); }

Resistance side_by_side(const Resistance& a, const Resistance& b) {
  const double root = root_conductance(a) + root_conductance(b), square = 1 / (root * root);
  const double rest_a = a.square * a.seam + a.linear, rest_b = b.square * b.seam + b.linear;
  const double linear = a.linear * b.linear / (a.linear + b.linear);
  return {square, linear, std::max(rest_a * rest_b / (rest_a + rest_b) - linear, 0.0) / square};
}

}  // namespace

std::uint32_t Merging::add(Network& network, std::uint32_t from, std::uint32_t to, const Resistance& resistance) {
  laws_.push_back(Loss{resistance});
  const std::uint32_t points[] = {from, to};
  constexpr double gives[] = {-1, 1};
  return network.add(&laws_.back(), points, 1, gives);
}

std::vector<Merging::Edge> Merging::edges_of(const Network& network, const std::vector<bool>& taken) const {
  std::vector<Edge> edges;
  for (std::uint32_t index = 0; index < network.branches.size(); ++index) {
    if (taken[index] || !std::holds_alternative<Loss>(*network.branches[index].law)) continue;
    const std::uint32_t a = terminal(network, index, 0), b = terminal(network, index, 1);
    if (a != b) edges.push_back({std::min(a, b), std::max(a, b), index});
  }
  return edges;
}

bool Merging::merge_parallel(Network& network, std::vector<bool>& taken, std::vector<std::uint32_t>& touching) {
  std::vector<Edge> edges = edges_of(network, taken);
  std::erase_if(edges, [&](const Edge& edge) { return !is_square(resistance_of(network, edge.branch)); });
  std::sort(edges.begin(), edges.end(), [](const Edge& a, const Edge& b) {
    return a.low != b.low ? a.low < b.low : a.high != b.high ? a.high < b.high : a.branch < b.branch;
  });
  bool any = false;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    Edge &one = edges[i], &two = edges[i + 1];
    if (one.low != two.low || one.high != two.high) continue;
    const Resistance sum = side_by_side(resistance_of(network, one.branch), resistance_of(network, two.branch));
    const std::uint32_t merged = add(network, one.low, one.high, sum);
    pairs_.push_back({merged, one.branch, two.branch, terminal(network, one.branch, 0) != one.low,
                      terminal(network, two.branch, 0) != one.low, none});
    taken[one.branch] = taken[two.branch] = true;
    taken.push_back(false);
    --touching[one.low];
    --touching[one.high];
    two.branch = merged;
    any = true;
  }
  return any;
}

bool Merging::merge_series(Network& network, std::vector<bool>& taken, std::vector<std::uint32_t>& touching) {
  std::vector<std::uint32_t> first(network.points(), none), second(network.points(), none);
  for (const Edge& edge : edges_of(network, taken))
    for (std::uint32_t point : {edge.low, edge.high}) {
      second[point] = first[point];
      first[point] = edge.branch;
    }
  bool any = false;
  for (std::uint32_t point = 0; point < network.points(); ++point) {
    const std::uint32_t one = first[point], two = second[point];
    if (touching[point] != 2 || network.is_fixed(point) || one == none || two == none || taken[one] || taken[two]) continue;
    const bool turn_one = terminal(network, one, 0) == point, turn_two = terminal(network, two, 1) == point;
    const std::uint32_t from = terminal(network, one, turn_one ? 1 : 0), to = terminal(network, two, turn_two ? 0 : 1);
    if (from == to) continue;
    const std::uint32_t merged = add(network, from, to, in_series(resistance_of(network, one), resistance_of(network, two)));
    pairs_.push_back({merged, one, two, turn_one, turn_two, point});
    taken[one] = taken[two] = true;
    taken.push_back(false);
    touching[point] = 0;
    any = true;
  }
  return any;
}

void Merging::merge(Network& network, std::vector<bool>& taken, std::vector<std::uint32_t>& touching) {
  bool more = true;
  while (more) {
    const bool parallel = merge_parallel(network, taken, touching);
    const bool series = merge_series(network, taken, touching);
    more = parallel || series;
  }
}

void Merging::tell_apart(const Network& network, Solution& solution) const {
  for (auto pair = pairs_.rbegin(); pair != pairs_.rend(); ++pair) {
    const double flow = solution.local[network.branches[pair->merged].first_local];
    const Resistance &one = resistance_of(network, pair->one), &two = resistance_of(network, pair->two);
    double first = flow, second = flow;
    if (pair->between == none) {
      first = flow * root_conductance(one) / (root_conductance(one) + root_conductance(two));
      second = flow - first;
    } else {
      solution.pressure[pair->between] = solution.pressure[terminal(network, pair->merged, 0)] - one.drop(flow, 0);
    }
    solution.local[network.branches[pair->one].first_local] = pair->turn_one ? -first : first;
    solution.local[network.branches[pair->two].first_local] = pair->turn_two ? -second : second;
  }
}

}  // namespace ferrule::hydraulics
