#include "compiler/hydraulics/memory.hpp"

#include <algorithm>
#include <bit>

namespace ferrule::hydraulics {
namespace {

constexpr std::size_t most_branches = 16, most_known = 100000;
using Key = std::vector<std::uint64_t>;

void put(Key& key, double value) { key.push_back(std::bit_cast<std::uint64_t>(value)); }

// Losses and bodies by what they say; the laws of other elements last as long as the memory and are known by their place.
bool put_law(Key& key, const Network& network, const Branch& branch) {
  key.push_back(branch.law->index());
  if (const auto* loss = std::get_if<Loss>(branch.law)) {
    for (double value : {loss->resistance.square, loss->resistance.linear, loss->resistance.seam}) put(key, value);
    return true;
  }
  if (const auto* body = std::get_if<Body>(branch.law)) {
    for (double value : {body->load_out, body->load_in, body->friction, body->efficiency}) put(key, value);
    for (double value : body->area) put(key, value);
    for (std::uint32_t i = 0; i < branch.terminals * branch.locals; ++i) put(key, network.gives[branch.first_gives + i]);
    return true;
  }
  key.push_back(reinterpret_cast<std::uintptr_t>(branch.law));
  return branch.lasting;
}

}  // namespace

std::optional<Key> Memory::key_of(const Network& network, const Block& block, std::vector<std::uint32_t>& row_of_point) const {
  if (block.branches.size() > most_branches || known_.size() >= most_known) return std::nullopt;
  for (std::uint32_t row = 0; row < block.points.size(); ++row) row_of_point[block.points[row]] = row;
  Key key;
  bool lasting = true;
  for (std::uint32_t index : block.branches) {
    const Branch& branch = network.branches[index];
    lasting = put_law(key, network, branch) && lasting;
    for (std::uint32_t t = 0; t < branch.terminals; ++t) {
      const std::uint32_t point = network.terminals[branch.first_terminal + t];
      key.push_back(row_of_point[point]);
      if (network.is_fixed(point)) put(key, network.fixed[point]);
    }
  }
  for (std::uint32_t point : block.points) row_of_point[point] = Descent::not_a_row;
  return lasting ? std::optional(std::move(key)) : std::nullopt;
}

bool Memory::recall(const Key& key, const Network& network, const Block& block, Solution& whole) const {
  const auto found = known_.find(key);
  if (found == known_.end()) return false;
  for (std::size_t row = 0; row < block.points.size(); ++row) {
    whole.pressure[block.points[row]] = found->second.pressure[row];
    whole.made_up[block.points[row]] = found->second.made_up[row];
  }
  auto local = found->second.local.begin();
  for (std::uint32_t index : block.branches) {
    const Branch& branch = network.branches[index];
    std::copy_n(local, branch.locals, whole.local.begin() + branch.first_local);
    local += branch.locals;
  }
  return true;
}

void Memory::keep(Key key, const Network& network, const Block& block, const Solution& whole) {
  Known known;
  for (std::uint32_t point : block.points) {
    known.pressure.push_back(whole.pressure[point]);
    known.made_up.push_back(whole.made_up[point]);
  }
  for (std::uint32_t index : block.branches) {
    const Branch& branch = network.branches[index];
    known.local.insert(known.local.end(), whole.local.begin() + branch.first_local, whole.local.begin() + branch.first_local + branch.locals);
  }
  known_.emplace(std::move(key), std::move(known));
}

}  // namespace ferrule::hydraulics
