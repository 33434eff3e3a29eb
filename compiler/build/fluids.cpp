// Two fluids in one circuit must not meet.
#include <fmt/format.h>

#include <map>

#include "compiler/build/building.hpp"
#include "compiler/build/groups.hpp"

namespace ferrule {

Groups nodes_of_one_oil(const Circuit& circuit) {
  Groups oils(circuit.nodes.size());
  for (const Element& element : circuit.elements) {
    if (element.kind == ElementKind::piston) continue;
    for (const NodeId end : element.ends)
      if (end && element.ends.front()) oils.join(element.ends.front().index, end.index);
  }
  return oils;
}

void report_joined_fluids(Building& building) {
  const Circuit& circuit = building.circuit;
  if (circuit.fluids.size() < 2) return;
  Groups oils = nodes_of_one_oil(circuit);
  std::map<std::uint32_t, const Part*> first;  // by oil: the reservoir that named it first
  for (const Part& part : circuit.parts) {
    const FactValue* fluid = part.fact("fluid");
    if (!fluid || part.port_count == 0 || !part.definition->role("tank")) continue;
    const auto [known, fresh] = first.try_emplace(oils.root(circuit.ports.rows[part.first_port].node.index), &part);
    if (fresh || known->second->fact("fluid")->word == fluid->word) continue;
    Message& message = building.reading.report(
        fault::fluids_joined, part.span,
        fmt::format("`{}` holds {} and `{}` {}, and lines join them", known->second->tag, known->second->fact("fluid")->word, part.tag, fluid->word),
        "part the two, or name one fluid for both");
    message.subject = part.tag;
    message.places.push_back({known->second->span, "the other fluid"});
  }
}

}  // namespace ferrule
