// Eight whole machines: what feeds each port in each step, against an independent program (reach_of_machines.txt).
#include <catch2/catch.hpp>

#include "compiler/built.hpp"

using built::Built;
using namespace ferrule;

namespace {

std::string listed(const Built& machine, const std::vector<PartId>& parts, bool sorted = false) {
  std::vector<std::string> tags;
  for (PartId part : parts) tags.push_back(machine.circuit.parts[part].tag);
  if (sorted) std::sort(tags.begin(), tags.end());
  std::string text;
  for (const std::string& tag : tags) text += (text.empty() ? "" : ",") + tag;
  return text.empty() ? "-" : text;
}

std::string way(Reach::ToTank to_tank) {
  return to_tank == Reach::ToTank::open ? "open" : to_tank == Reach::ToTank::none ? "none" : "pressure";
}

const State& step_state(const Built& machine, std::uint32_t step) {
  for (const State& state : machine.states.states)
    if (state.step.index == step && state.state_class != StateClass::late) return state;
  throw std::runtime_error("no such step");
}

std::string row_of(const Built& machine, const std::string& name, std::uint32_t step, const Reach& reach, bool pump) {
  const std::string place = name + " " + std::to_string(step) + " " + machine.circuit.name_of(reach.port) + " ";
  if (pump)
    return place + "reliefs " + listed(machine, reach.reliefs_seen, true) + (reach.to_tank == Reach::ToTank::open ? " open" : " shut");
  return place + listed(machine, reach.fed_by) + " " + listed(machine, reach.fed_through_pressure_control) + " " + way(reach.to_tank);
}

std::vector<std::string> rows_of(const std::string& name) {
  std::vector<std::string> rows;
  std::istringstream table(tests::project_text("tests/compiler/reach_of_machines.txt"));
  for (std::string line; std::getline(table, line);)
    if (line.rfind(name + " ", 0) == 0) rows.push_back(line);
  return rows;
}

}  // namespace

TEST_CASE("ways of whole machines agree with an independent program") {
  const std::string name = GENERATE(as<std::string>{}, "bearing-press", "card-baler", "crate-pusher", "lens-mould-clamp",
                                    "loading-bay-scissor", "mortar-mixer", "picking-platform", "veneer-clamp-press");
  const Built machine(tests::project_text("tests/briefs/" + name + ".fer"));
  INFO(name);
  INFO(machine.messages());
  std::vector<std::string> found;
  for (std::uint32_t step = 0; step < machine.circuit.work.steps.size(); ++step) {
    const StatePaths paths = paths_in(machine.circuit, machine.graph, step_state(machine, step));
    for (const Reach& reach : paths.ports) {
      const Definition* definition = machine.circuit.parts[machine.circuit.ports[reach.port].part].definition;
      found.push_back(row_of(machine, name, step, reach, definition->role("feeds")));
    }
  }
  std::vector<std::string> expected = rows_of(name);
  std::sort(found.begin(), found.end());
  std::sort(expected.begin(), expected.end());
  CHECK(found == expected);
}
