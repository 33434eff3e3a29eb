#include "render/readback/compare.hpp"
#include "render/readback/contacts.hpp"

namespace ferrule::readback {
namespace {

constexpr std::string_view drive_fact = "driven-by";

// What turns or is pushed: every part, and after the parts the load of every part.
struct Turning {
  const Circuit& circuit;
  Joined told, read;
  std::vector<std::optional<Spot>> spots;

  explicit Turning(const Circuit& of) : circuit(of), told(2 * of.parts.size()), read(2 * of.parts.size()), spots(2 * of.parts.size()) {}
};

std::optional<std::size_t> index_of(const Circuit& circuit, const Terminal& end) {
  const PartId part = circuit.part_named(end.component);
  if (!part) return {};
  return end.shaft && end.port.empty() ? circuit.parts.size() + part.index : part.index;
}

void read_told(Turning& turning) {
  const Circuit& circuit = turning.circuit;
  for (std::uint32_t p = 0; p < circuit.parts.size(); ++p) {
    turning.told.join(p, circuit.parts.size() + p);
    if (const FactValue* drive = circuit.parts.rows[p].fact(drive_fact))
      if (const PartId motor = circuit.part_named(drive->word)) turning.told.join(p, motor.index);
  }
}

void read_paper(Turning& turning, const Netlist& read) {
  for (const std::vector<ReadNet>* nets : {&read.oil, &read.shafts})
    for (const ReadNet& net : *nets) {
      std::optional<std::size_t> first;
      for (const Terminal& end : net.ends) {
        const auto index = index_of(turning.circuit, end);
        if (!index) continue;
        if (!turning.spots[*index]) turning.spots[*index] = end.spot;
        if (!first) first = index;
        if (nets == &read.shafts) turning.read.join(*first, *index);
      }
    }
}

}  // namespace

std::vector<Fault> compared_shafts(const Circuit& circuit, const Netlist& read) {
  Turning turning(circuit);
  read_told(turning);
  read_paper(turning, read);
  std::vector<Member> members;
  for (std::size_t i = 0; i < turning.spots.size(); ++i) {
    if (!turning.spots[i]) continue;
    const std::string& tag = circuit.parts.rows[i % circuit.parts.size()].tag;
    members.push_back({(i < circuit.parts.size() ? "the shaft of " : "the load of ") + tag, turning.told.root(i), turning.read.root(i), turning.spots[i]});
  }
  return disagreements(members, {});
}

}  // namespace ferrule::readback
