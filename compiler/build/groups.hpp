// What hangs together: numbers joined to groups, each told by its least member.
#pragma once

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <vector>

#include "compiler/model/circuit.hpp"

namespace ferrule {

class Groups {
 public:
  explicit Groups(std::size_t members) : of_(members) { std::iota(of_.begin(), of_.end(), 0u); }
  std::uint32_t root(std::uint32_t member) {
    while (of_[member] != member) member = of_[member] = of_[of_[member]];
    return member;
  }
  void join(std::uint32_t a, std::uint32_t b) {
    a = root(a), b = root(b);
    of_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::uint32_t> of_;
};

// Nodes that one oil fills: it passes every element but a piston, which parts what stands on its sides.
Groups nodes_of_one_oil(const Circuit& circuit);

}  // namespace ferrule
