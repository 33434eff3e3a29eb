#include "compiler/hydraulics/settle.hpp"

#include <algorithm>
#include <numeric>

#include "compiler/hydraulics/descent.hpp"
#include "compiler/hydraulics/merging.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr std::uint32_t none = Descent::not_a_row;

// A line into a dead end: no flow, the pressure of its mouth (less its height).
struct DeadEnd {
  std::uint32_t branch, mouth, end;
};

bool is_two_way(const Branch& branch) { return std::holds_alternative<Loss>(*branch.law) || std::holds_alternative<Pipe>(*branch.law); }

class Division {
 public:
  explicit Division(const Network& network) : net_(network), touching_(network.points(), 0), taken_(network.branches.size(), false) {}
  const Network& network() const { return net_; }
  void cut_dead_ends();
  void merge_losses() { merging_.merge(net_, taken_, touching_); }
  std::vector<Block> blocks() const;
  // What was merged and cut off, from the solution of the rest.
  void fill_in(Solution& solution) const {
    merging_.tell_apart(net_, solution);
    fill_dead_ends(solution);
  }

 private:
  bool is_still(const Block& block) const;
  // Pressures along the lines that were cut off, from the mouth outward.
  void fill_dead_ends(Solution& solution) const;
  std::uint32_t terminal(const Branch& branch, std::uint32_t t) const { return net_.terminals[branch.first_terminal + t]; }

  Network net_;  // grows by the merged branches
  Merging merging_;
  std::vector<std::uint32_t> touching_;  // by point: terminals of branches not cut off
  std::vector<bool> taken_;              // by branch: cut off as a dead end
  std::vector<DeadEnd> dead_ends_;
};

// For each point one of its two-way branches at a time, found by the exclusive-or of those left.
void Division::cut_dead_ends() {
  std::vector<std::uint32_t> left(net_.points(), 0);
  for (std::uint32_t index = 0; index < net_.branches.size(); ++index)
    for (std::uint32_t t = 0; t < net_.branches[index].terminals; ++t) {
      ++touching_[terminal(net_.branches[index], t)];
      left[terminal(net_.branches[index], t)] ^= index;
    }
  std::vector<std::uint32_t> ends;
  auto consider = [&](std::uint32_t point) {
    if (touching_[point] == 1 && !net_.is_fixed(point)) ends.push_back(point);
  };
  for (std::uint32_t point = 0; point < net_.points(); ++point) consider(point);
  while (!ends.empty()) {
    const std::uint32_t end = ends.back();
    ends.pop_back();
    if (touching_[end] != 1) continue;
    const std::uint32_t index = left[end];
    const Branch& branch = net_.branches[index];
    if (!is_two_way(branch)) continue;
    const std::uint32_t mouth = terminal(branch, 0) == end ? terminal(branch, 1) : terminal(branch, 0);
    taken_[index] = true;
    dead_ends_.push_back({index, mouth, end});
    for (std::uint32_t point : {mouth, end}) {
      --touching_[point];
      left[point] ^= index;
    }
    consider(mouth);
  }
}

void Division::fill_dead_ends(Solution& solution) const {
  for (auto cut = dead_ends_.rbegin(); cut != dead_ends_.rend(); ++cut) {
    const Branch& branch = net_.branches[cut->branch];
    const auto* pipe = std::get_if<Pipe>(branch.law);
    const double lift = pipe ? pipe->lift : 0;
    const bool outward = terminal(branch, 1) == cut->end;
    solution.pressure[cut->end] = solution.pressure[cut->mouth] + (outward ? -lift : lift);
  }
}

// Nothing drives it: tank pressure everywhere and no flow is its solution.
bool Division::is_still(const Block& block) const {
  for (std::uint32_t index : block.branches) {
    const Branch& branch = net_.branches[index];
    const auto* pipe = std::get_if<Pipe>(branch.law);
    const auto* body = std::get_if<Body>(branch.law);
    const bool shut = std::holds_alternative<OneWay>(*branch.law) || std::holds_alternative<PressurePath>(*branch.law);
    if (body ? body->load_out > body->friction || body->load_in < -body->friction : pipe ? pipe->lift != 0 : !is_two_way(branch) && !shut)
      return false;
    if (const auto* path = std::get_if<PressurePath>(branch.law); path && path->cracking <= 0) return false;
    for (std::uint32_t t = 0; t < branch.terminals; ++t)
      if (net_.is_fixed(terminal(branch, t)) && net_.fixed[terminal(branch, t)] != 0) return false;
  }
  return true;
}

std::vector<Block> Division::blocks() const {
  std::vector<std::uint32_t> parent(net_.points());
  std::iota(parent.begin(), parent.end(), 0u);
  auto root = [&](std::uint32_t i) {
    while (parent[i] != i) i = parent[i] = parent[parent[i]];
    return i;
  };
  auto first_free = [&](const Branch& branch) {
    for (std::uint32_t t = 0; t < branch.terminals; ++t)
      if (!net_.is_fixed(terminal(branch, t))) return terminal(branch, t);
    return none;
  };
  for (std::uint32_t index = 0; index < net_.branches.size(); ++index) {
    const Branch& branch = net_.branches[index];
    for (std::uint32_t t = 0; !taken_[index] && t < branch.terminals; ++t)
      if (!net_.is_fixed(terminal(branch, t))) parent[root(terminal(branch, t))] = root(first_free(branch));
  }
  std::vector<Block> blocks;
  std::vector<std::uint32_t> block_of(net_.points(), none);
  auto block_at = [&](std::uint32_t point) -> Block& {
    std::uint32_t& block = block_of[root(point)];
    if (block == none) {
      block = static_cast<std::uint32_t>(blocks.size());
      blocks.emplace_back();
    }
    return blocks[block];
  };
  for (std::uint32_t point = 0; point < net_.points(); ++point)
    if (!net_.is_fixed(point) && touching_[point] > 0) block_at(point).points.push_back(point);
  for (std::uint32_t index = 0; index < net_.branches.size(); ++index) {
    if (taken_[index]) continue;
    const std::uint32_t point = first_free(net_.branches[index]);
    if (point != none) block_at(point).branches.push_back(index);
    else blocks.push_back({{index}, {}});  // between two fixed pressures
  }
  std::erase_if(blocks, [&](const Block& block) { return is_still(block); });
  return blocks;
}

void solve_block(const Network& network, const Block& block, Memory& memory, std::vector<std::uint32_t>& row_of_point, Solution& solution) {
  auto key = memory.key_of(network, block, row_of_point);
  if (key && memory.recall(*key, network, block, solution)) return;
  const std::size_t unsettled_before = solution.worst.size();
  Descent(network, block, row_of_point).run(solution);
  if (key && solution.worst.size() == unsettled_before) memory.keep(std::move(*key), network, block, solution);
}

}  // namespace

Solution settle(const Network& network, Memory& memory) {
  Division division(network);
  division.cut_dead_ends();
  division.merge_losses();
  const Network& reduced = division.network();
  Solution solution;
  solution.settled = true;
  solution.pressure = reduced.fixed;
  for (double& pressure : solution.pressure)
    if (pressure != pressure) pressure = 0;
  solution.local.assign(reduced.locals, 0);
  solution.made_up.assign(reduced.points(), 0);
  std::vector<std::uint32_t> row_of_point(reduced.points(), none);
  for (const Block& block : division.blocks()) solve_block(reduced, block, memory, row_of_point, solution);
  division.fill_in(solution);
  std::erase_if(solution.worst, [&](std::uint32_t branch) { return branch >= network.branches.size(); });
  solution.local.resize(network.locals);
  return solution;
}

}  // namespace ferrule::hydraulics
