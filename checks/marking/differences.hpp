// What a student's circuit does otherwise than asked, state by state, in words that say no more than that.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "checks/marking/pairing.hpp"

namespace ferrule::marking {

enum class Aspect : std::uint8_t { function, hold, idle, number, finding };
inline constexpr std::size_t aspects = 5;
std::string_view word_of(Aspect aspect);

struct Difference {
  Aspect aspect = Aspect::function;
  std::string state;      // as people say it: "in step press"; empty for what belongs to no state
  std::string sentence;   // what the circuit does, then what was asked
  bool unsafe = false;    // a load that should be held moves without power, or nothing protects from pressure
};

// What was compared in one state of the model and how much of it agreed.
struct Compared {
  std::string state;
  std::array<std::size_t, aspects> asked{}, lost{};
};

struct Comparison {
  std::vector<Difference> differences;
  std::vector<Compared> states;         // by state of the model
};

// One side of a comparison.
struct Marked {
  const Circuit& circuit;
  const Record& record;
};

// `tolerance` is the share by which pressures, speeds and forces may differ. What follows from another motion is lost
// with it, without a sentence of its own.
Comparison compared(const Marked& model, const Marked& student, const Pairing& pairing, double tolerance);

}  // namespace ferrule::marking
