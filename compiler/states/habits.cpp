#include "compiler/states/habits.hpp"

#include "compiler/states/actuation.hpp"

namespace ferrule {

Habits::Habits(const Circuit& circuit) : pilots(pilots_of(circuit)) {
  at_rest.reserve(circuit.parts.size());
  for (const Part& part : circuit.parts) {
    const PartId id = circuit.parts.id_of(part);
    at_rest.push_back(left_alone(part, -1));
    if (stays_put(part)) staying.push_back(id);
    const bool feeds = part.definition && part.definition->role("feeds");
    if (!feeds && !(part.definition && part.definition->role("prime-mover"))) continue;
    const PartId drive = drive_of(circuit, id);
    if (drive == id) drives.push_back(id);
    if (feeds) pumps.emplace_back(id, drive);
  }
  if (!pilots.empty()) graph = passages_of(circuit);
}

}  // namespace ferrule
