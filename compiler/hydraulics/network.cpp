#include "compiler/hydraulics/network.hpp"

namespace ferrule::hydraulics {

std::uint32_t Network::add(const AnyLaw* law, std::span<const std::uint32_t> points, std::uint32_t own,
                           std::span<const double> shares) {
  const Branch branch{law, static_cast<std::uint32_t>(terminals.size()), static_cast<std::uint32_t>(points.size()),
                locals, own, static_cast<std::uint32_t>(gives.size()), false};
  terminals.insert(terminals.end(), points.begin(), points.end());
  gives.insert(gives.end(), shares.begin(), shares.end());
  locals += own;
  branches.push_back(branch);
  return static_cast<std::uint32_t>(branches.size() - 1);
}

double Network::given(const Branch& branch, std::uint32_t terminal, std::span<const double> unknowns) const {
  double sum = 0;
  for (std::uint32_t own = 0; own < branch.locals; ++own)
    sum += gives[branch.first_gives + terminal * branch.locals + own] * unknowns[branch.first_local + own];
  return sum;
}

}  // namespace ferrule::hydraulics
