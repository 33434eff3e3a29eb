// Numbers that look random and are the same everywhere.
#pragma once

#include <cstdint>

namespace ferrule::tests {

// The minimal standard generator of Park and Miller (Communications of the ACM 31, 1988): same numbers everywhere.
class Dice {
 public:
  explicit Dice(std::uint32_t seed) : state_(seed % 2147483647u + 1) {}
  int below(int limit) {
    state_ = static_cast<std::uint32_t>(state_ * std::uint64_t{48271} % 2147483647u);
    return static_cast<int>(state_ % static_cast<std::uint32_t>(limit));
  }

 private:
  std::uint32_t state_;
};

}  // namespace ferrule::tests
