#include <algorithm>

#include "checks/machinery/accepts.hpp"
#include "checks/machinery/masks.hpp"
#include "checks/machinery/rule.hpp"

namespace ferrule {

Solved solved(const Circuit& circuit) {
  States states = states_of(circuit);
  Points points(circuit, states.states);  // looks at the states themselves, which stay where they are when moved
  return {circuit, passages_of(circuit), std::move(states), std::move(points)};
}

Findings check(const Circuit& circuit, std::string_view today) {
  const Solved facts = solved(circuit);
  Findings findings;
  for (const Rule* rule : rules()) rule->check(facts, findings);
  for (Message& m : findings.messages) m.masked_by = mask_of(m, findings.messages);
  settle_accepts(circuit, today, findings);
  return findings;
}

}  // namespace ferrule
