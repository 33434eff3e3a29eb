// Seeded circuits of any size for property tests: supply variants, branches of a dozen kinds, and odd problems.
#pragma once

#include <cstdint>

#include "layout/kit.hpp"

namespace generator {

// The same numbers on every machine (xorshift64*, public domain).
struct Dice {
  std::uint64_t state;
  explicit Dice(std::uint64_t seed) : state(seed * 2685821657736338717ULL + 88172645463325252ULL) {}
  int roll(int below) {
    state ^= state >> 12, state ^= state << 25, state ^= state >> 27;
    return int((state * 2685821657736338717ULL >> 33) % std::uint64_t(below));
  }
};

// `branches` actuators; `numbered`: items know their branch. `tanks`: returns of branches go straight to the reservoir.
ferrule::layout::Problem circuit(std::uint64_t seed, int branches, bool numbered = true);

// Problems no draughtsman would bring: any shapes joined at random.
ferrule::layout::Problem nonsense(std::uint64_t seed, int items, int nets);

}  // namespace generator
