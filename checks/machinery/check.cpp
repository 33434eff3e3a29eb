#include <algorithm>

#include "checks/machinery/accepts.hpp"
#include "checks/machinery/masks.hpp"
#include "checks/machinery/rule.hpp"

namespace ferrule {

Solved solved(const Circuit& circuit) {
  Solved out{circuit, passages_of(circuit), states_of(circuit), {}};
  out.points.reserve(out.states.states.size());
  for (const State& state : out.states.states) out.points.push_back(solve(circuit, state));
  return out;
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
