// Solutions of small blocks, kept from state to state: what hangs on a check valve in one state hangs there in the next.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "compiler/hydraulics/descent.hpp"

namespace ferrule::hydraulics {

class Memory {
 public:
  // Everything the block's solution depends on; none for blocks that are too large or stand on laws of one state only.
  std::optional<std::vector<std::uint64_t>> key_of(const Network& network, const Block& block, std::vector<std::uint32_t>& row_of_point) const;
  // Writes the known solution into `whole`; false when there is none.
  bool recall(const std::vector<std::uint64_t>& key, const Network& network, const Block& block, Solution& whole) const;
  void keep(std::vector<std::uint64_t> key, const Network& network, const Block& block, const Solution& whole);

 private:
  struct Known {
    std::vector<double> pressure, made_up, local;
  };
  std::map<std::vector<std::uint64_t>, Known> known_;
};

}  // namespace ferrule::hydraulics
