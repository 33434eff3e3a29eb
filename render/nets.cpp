#include "render/nets.hpp"

#include <algorithm>
#include <map>
#include <numeric>

namespace ferrule {
namespace {

// What a run joins: component ports (first), line ends (two per line), line ends in reservoirs (as they come).
struct Terminals {
  const Circuit& circuit;
  CircuitNets& made;
  std::vector<std::uint32_t> above;              // union by path halving; joins without pipes
  std::vector<LineFunction> said;
  std::vector<std::uint32_t> met;                // terminals in the order of the text
  std::vector<bool> seen;

  std::uint32_t line_end(LineId line, int end) const { return static_cast<std::uint32_t>(circuit.ports.size() + 2 * line.index + end); }
  std::uint32_t first_connection() const { return static_cast<std::uint32_t>(circuit.ports.size() + 2 * circuit.lines.size()); }

  std::uint32_t root(std::uint32_t t) {
    while (above[t] != t) t = above[t] = above[above[t]];
    return t;
  }
  void join(std::uint32_t a, std::uint32_t b) {
    a = root(a);
    b = root(b);
    above[std::max(a, b)] = std::min(a, b);
  }
  void meet(std::uint32_t t, LineFunction function) {
    if (t >= above.size()) {
      above.push_back(t);
      said.push_back(function);
      seen.push_back(false);
    }
    if (seen[t]) return;
    seen[t] = true;
    said[t] = function;
    met.push_back(t);
  }
};

bool is_reservoir(const Circuit& circuit, PartId part) {
  const Definition* definition = circuit.parts[part].definition;
  return definition != nullptr && definition->ports_as_named;
}

// Entry and exit of one step of a run, as terminals, with their nodes.
struct Passed {
  std::uint32_t entry, exit;
  NodeId entry_node, exit_node;
  PartId part;
  bool pipe = false;
};

PortId pipe_port(const Circuit& circuit, LineId line, std::uint32_t end) { return {circuit.parts[circuit.lines[line].part].first_port + end}; }

Passed passed(Terminals& in, const RunStep& step) {
  if (step.line) {
    const PortId one = pipe_port(in.circuit, step.line, 0), two = pipe_port(in.circuit, step.line, 1);
    return {in.line_end(step.line, 0), in.line_end(step.line, 1), in.circuit.ports[one].node, in.circuit.ports[two].node, in.circuit.lines[step.line].part, true};
  }
  const Port& port = in.circuit.ports[step.port];
  std::uint32_t terminal = step.port.index;
  if (is_reservoir(in.circuit, port.part)) {
    terminal = in.first_connection() + static_cast<std::uint32_t>(in.made.connections.size());
    in.made.connections.push_back({step.port});
  }
  return {terminal, terminal, port.node, port.node, port.part, false};
}

void read_run(Terminals& in, const Run& run) {
  Passed last{};
  bool joins = false;  // to the last step
  for (const RunStep& step : run.steps) {
    if (!step.line && !step.port) {
      joins = false;
      continue;
    }
    const Passed here = passed(in, step);
    in.meet(here.entry, run.function);
    if (here.exit != here.entry) in.meet(here.exit, run.function);
    // Two ports of one part in a row are its way through, not a joint.
    const bool through = !here.pipe && !last.pipe && last.part == here.part;
    if (joins && !through && last.exit_node == here.entry_node) in.join(last.exit, here.entry);
    last = here;
    joins = true;
  }
}

// A run may name a port that another run joined to the same point; reservoirs stay apart.
void join_by_nodes(Terminals& in) {
  std::vector<bool> of_reservoir(in.circuit.nodes.size(), false);
  for (const Port& port : in.circuit.ports)
    if (is_reservoir(in.circuit, port.part)) of_reservoir[port.node.index] = true;
  std::vector<std::int64_t> first(in.circuit.nodes.size(), -1);
  const auto add = [&](std::uint32_t terminal, NodeId node) {
    if (!in.seen[terminal] || of_reservoir[node.index]) return;
    if (first[node.index] >= 0) in.join(static_cast<std::uint32_t>(first[node.index]), terminal);
    first[node.index] = terminal;
  };
  for (std::uint32_t i = 0; i < in.circuit.ports.size(); ++i) add(i, in.circuit.ports.rows[i].node);
  for (std::uint32_t i = 0; i < in.circuit.lines.size(); ++i)
    for (const int end : {0, 1})
      add(in.line_end({i}, end), in.circuit.ports[pipe_port(in.circuit, {i}, static_cast<std::uint32_t>(end))].node);
}

// Main lines come before pilots and drains when a net is both.
int weight(LineFunction function) {
  switch (function) {
    case LineFunction::pressure: return 0;
    case LineFunction::working: return 1;
    case LineFunction::return_: return 2;
    case LineFunction::suction: return 3;
    case LineFunction::pilot: return 4;
    case LineFunction::drain: return 5;
    case LineFunction::mechanical: return 6;
  }
  return 7;
}

// One net under construction: its pipeless knots and the pipes between them.
struct Knots {
  std::map<std::uint32_t, std::vector<std::size_t>> ends;                          // knot: indices of ends
  std::map<std::uint32_t, std::vector<std::pair<std::uint32_t, std::size_t>>> pipes;  // knot: other knot, index of line
};

// Ends on the near side of a pipe; none when a way around it exists.
std::vector<std::size_t> parted_by(const Knots& knots, std::uint32_t from, std::uint32_t other, std::size_t line) {
  std::vector<std::uint32_t> front{from};
  std::map<std::uint32_t, bool> reached{{from, true}};
  std::vector<std::size_t> near;
  for (std::size_t i = 0; i < front.size(); ++i) {
    if (front[i] == other) return {};
    if (const auto ends = knots.ends.find(front[i]); ends != knots.ends.end()) near.insert(near.end(), ends->second.begin(), ends->second.end());
    const auto pipes = knots.pipes.find(front[i]);
    if (pipes == knots.pipes.end()) continue;
    for (const auto& [to, index] : pipes->second)
      if (index != line && !reached[to]) {
        reached[to] = true;
        front.push_back(to);
      }
  }
  std::sort(near.begin(), near.end());
  return near;
}

void part_by_lines(Terminals& in, CircuitNet& net, const Knots& knots) {
  for (std::size_t i = 0; i < net.lines.size(); ++i) {
    const std::uint32_t from = in.root(in.line_end(net.lines[i].line, 0)), to = in.root(in.line_end(net.lines[i].line, 1));
    if (from == to) continue;
    auto near = parted_by(knots, from, to, i);
    if (!near.empty() && near.size() < net.ends.size()) net.lines[i].near = std::move(near);
  }
}

void collect(Terminals& in) {
  std::vector<std::uint32_t> whole(in.above.size());  // union with the pipes
  std::iota(whole.begin(), whole.end(), 0u);
  const auto top = [&](std::uint32_t t) {
    t = in.root(t);
    while (whole[t] != t) t = whole[t] = whole[whole[t]];
    return t;
  };
  for (std::uint32_t i = 0; i < in.circuit.lines.size(); ++i) {
    const auto a = top(in.line_end({i}, 0)), b = top(in.line_end({i}, 1));
    whole[std::max(a, b)] = std::min(a, b);
  }
  std::map<std::uint32_t, std::size_t> index;
  std::vector<Knots> knots;
  for (const std::uint32_t t : in.met) {
    const auto [at, fresh] = index.try_emplace(top(t), in.made.nets.size());
    if (fresh) {
      in.made.nets.push_back({in.said[t], {}, {}});
      knots.emplace_back();
    }
    CircuitNet& net = in.made.nets[at->second];
    if (weight(in.said[t]) < weight(net.function)) net.function = in.said[t];
    const bool pipe_end = t >= in.circuit.ports.size() && t < in.first_connection();
    if (!pipe_end) {
      knots[at->second].ends[in.root(t)].push_back(net.ends.size());
      const bool component = t < in.circuit.ports.size();
      net.ends.push_back({component ? PortId{t} : PortId{}, component ? -1 : static_cast<int>(t - in.first_connection()), in.said[t]});
    } else if ((t - in.circuit.ports.size()) % 2 == 0) {
      const LineId line{static_cast<std::uint32_t>((t - in.circuit.ports.size()) / 2)};
      const auto a = in.root(t), b = in.root(in.line_end(line, 1));
      knots[at->second].pipes[a].push_back({b, net.lines.size()});
      knots[at->second].pipes[b].push_back({a, net.lines.size()});
      net.lines.push_back({line, {}});
    }
  }
  for (std::size_t i = 0; i < in.made.nets.size(); ++i) part_by_lines(in, in.made.nets[i], knots[i]);
}

}  // namespace

CircuitNets nets_of(const Circuit& circuit) {
  CircuitNets made;
  Terminals in{circuit, made, {}, {}, {}, {}};
  const std::size_t known = circuit.ports.size() + 2 * circuit.lines.size();
  in.above.resize(known);
  std::iota(in.above.begin(), in.above.end(), 0u);
  in.said.resize(known, LineFunction::working);
  in.seen.resize(known, false);
  for (const Run& run : circuit.runs) read_run(in, run);
  join_by_nodes(in);
  collect(in);
  return made;
}

PortId port_of(const CircuitNets& nets, const NetEnd& end) {
  return end.connection < 0 ? end.port : nets.connections[static_cast<std::size_t>(end.connection)].port;
}

}  // namespace ferrule
