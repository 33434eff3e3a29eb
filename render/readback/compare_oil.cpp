#include <fmt/format.h>

#include <set>

#include "render/readback/compare.hpp"
#include "render/readback/contacts.hpp"

namespace ferrule::readback {
namespace {

bool is_reservoir(const Part& part) { return part.definition != nullptr && part.definition->ports_as_named; }
bool is_pipe(const Part& part) { return part.definition == nullptr || part.definition->role("line") != nullptr; }

// The net of every node: what a pipe joins is one net of the drawing.
std::vector<std::size_t> nets_of_nodes(const Circuit& circuit) {
  Joined joined(circuit.nodes.size());
  for (const Line& line : circuit.lines) {
    const Part& pipe = circuit.parts[line.part];
    for (std::uint32_t p = 1; p < pipe.port_count; ++p)
      joined.join(circuit.ports.rows[pipe.first_port].node.index, circuit.ports.rows[pipe.first_port + p].node.index);
  }
  std::vector<std::size_t> nets;
  for (std::size_t node = 0; node < circuit.nodes.size(); ++node) nets.push_back(joined.root(node));
  return nets;
}

// The circuit's ports as the drawing joins them.
struct OnPaper {
  const Circuit& circuit;
  Joined joined;                               // by port
  std::vector<std::optional<Spot>> spots;      // by port
  std::vector<Fault> faults;
};

// Which port of the circuit a terminal is; of a reservoir any will do.
PortId port_of(const Circuit& circuit, const Terminal& terminal) {
  const PartId part = circuit.part_named(terminal.component);
  if (!part) return {};
  const Part& owner = circuit.parts[part];
  if (is_reservoir(owner)) return owner.port_count > 0 ? PortId{owner.first_port} : PortId{};
  return circuit.port_of(part, terminal.port);
}

// A breather or a load is called by its part alone: the text has no port for it.
bool only_accompanies(const Terminal& terminal) { return terminal.port.empty(); }

void put(OnPaper& paper, const Terminal& end, PortId port) {
  if (paper.spots[port.index] && !is_reservoir(paper.circuit.parts[paper.circuit.ports.rows[port.index].part]))
    paper.faults.push_back({end.spot, fmt::format("{}.{} is drawn a second time here", end.component, end.port)});
  paper.spots[port.index] = end.spot;
}

void read_ends(OnPaper& paper, const Netlist& read) {
  for (const ReadNet& net : read.oil) {
    PortId first;
    for (const Terminal& end : net.ends) {
      const PortId port = port_of(paper.circuit, end);
      if (port) {
        put(paper, end, port);
        if (!first) first = port;
        paper.joined.join(first.index, port.index);
      } else if (net.ends.size() > 1 && !only_accompanies(end)) {
        paper.faults.push_back({end.spot, fmt::format("{}.{} is joined to something here; the text has no such port", end.component, end.port)});
      }
    }
  }
}

// Ports of a part that are joined with the reservoir `oil` without a line, and stand where it stands.
void immerse(OnPaper& paper, const Part& part, std::uint32_t oil, bool drawn_too) {
  for (std::uint32_t p = part.first_port; p < part.first_port + part.port_count; ++p) {
    if (paper.spots[p] && !drawn_too) continue;
    paper.joined.join(oil, p);
    if (!paper.spots[p]) paper.spots[p] = paper.spots[oil];
  }
}

void fill_reservoirs(OnPaper& paper, const Geometry& geometry) {
  const Circuit& circuit = paper.circuit;
  for (const Part& part : circuit.parts)
    if (is_reservoir(part) && part.port_count > 0) immerse(paper, part, part.first_port, true);
  for (const Sheet& sheet : geometry.sheets)
    for (const Symbol& symbol : sheet.symbols)
      for (const std::string& inside : symbol.parts) {
        const PartId host = circuit.part_named(symbol.id), part = circuit.part_named(inside);
        if (host && part && circuit.parts[host].port_count > 0) immerse(paper, circuit.parts[part], circuit.parts[host].first_port, false);
      }
}

std::vector<std::vector<Spot>> meetings_of(OnPaper& paper, const Netlist& read) {
  std::vector<std::vector<Spot>> meetings(paper.circuit.ports.size());
  for (const ReadNet& net : read.oil)
    for (const Terminal& end : net.ends)
      if (const PortId port = port_of(paper.circuit, end); port && !net.meetings.empty()) meetings[paper.joined.root(port.index)] = net.meetings;
  return meetings;
}

}  // namespace

Compared compared_oil(const Circuit& circuit, const Geometry& geometry, const Netlist& read) {
  OnPaper paper{circuit, Joined(circuit.ports.size()), std::vector<std::optional<Spot>>(circuit.ports.size()), {}};
  read_ends(paper, read);
  fill_reservoirs(paper, geometry);
  const std::vector<std::size_t> nets = nets_of_nodes(circuit);
  std::vector<Member> members;
  for (std::uint32_t p = 0; p < circuit.ports.size(); ++p)
    if (const ferrule::Port& port = circuit.ports.rows[p]; !is_pipe(circuit.parts[port.part]))
      members.push_back({circuit.name_of(PortId{p}), nets[port.node.index], paper.joined.root(p), paper.spots[p]});
  Compared compared{members.size(), 0, std::move(paper.faults)};
  std::set<std::size_t> met, shared;
  for (const Member& member : members)
    if (!met.insert(member.told).second) shared.insert(member.told);
  compared.nets = shared.size();
  const auto faults = disagreements(members, meetings_of(paper, read));
  compared.faults.insert(compared.faults.end(), faults.begin(), faults.end());
  return compared;
}

}  // namespace ferrule::readback
