// Which valves matter to each other: those whose ports meet between pump line and reservoir.
#pragma once

#include "compiler/paths/paths.hpp"

namespace ferrule {

// Two valves are coupled when they meet at one actuator port, one pilot net, or in series on one path: some net joins
// them that is neither a pump line nor a way to the reservoir (valves side by side on one pump line are not coupled).
class Coupling {
 public:
  explicit Coupling(const Circuit& circuit);
  bool is_coupled(PartId one, PartId other) const;

 private:
  std::vector<std::vector<std::uint32_t>> nets_;  // by part: nets its ports touch, sorted
};

}  // namespace ferrule
