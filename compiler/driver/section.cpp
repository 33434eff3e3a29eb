// ferrule section: how a spool valve of the circuit looks inside, in each of its positions.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "checks/report/letters.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/language/rows.hpp"
#include "render/draw.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule section press.fer 1V1 --output 1V1.pdf", "the valve cut open in every position, with its oil as the steps of the cycle show it"},
};
constexpr Option options[] = {{"--output", "PATH", "where to; ends with .pdf, .svg or .png"}};
constexpr std::string_view endings[] = {".pdf", ".svg", ".png"};

// Positive where the valve's elements take oil from the port's node.
int flow_at(const working::Moment& moment, const Circuit& circuit, PartId valve, NodeId node) {
  double given = 0;
  for (std::uint32_t e = 0; e < circuit.elements.size(); ++e) {
    const Element& element = circuit.elements[{e}];
    if (element.part != valve) continue;
    for (std::size_t end = 0; end < std::min<std::size_t>(3, element.ends.size()); ++end)
      if (element.ends[end] == node && moment.given[e][end] == moment.given[e][end]) given += moment.given[e][end];
  }
  return given > 1e-9 ? -1 : given < -1e-9 ? 1 : 0;
}

sections::Now now_in(const Computed& known, const Circuit& circuit, const PassageGraph& graph, PartId valve, std::size_t index) {
  const State& state = known.states.states[index];
  const StatePaths paths = paths_in(circuit, graph, state);
  sections::Now now{{}, state.energised};
  const Part& part = circuit.parts[valve];
  for (std::uint32_t i = 0; i < part.port_count; ++i) {
    const Port& port = circuit.ports[{part.first_port + i}];
    const bool settled = known.book->point(index).settled;
    now.ports.push_back({port.name, sections::oil_of(paths.nodes[port.node.index]), settled ? flow_at(known.book->moment(index), circuit, valve, port.node) : 0});
  }
  return now;
}

std::string paths_of(const PositionRow& row) {
  std::string text;
  for (const RowPath& path : row.paths) text += (text.empty() ? "" : "  ") + name_of(path);
  return text.empty() ? "all ports shut" : text;
}

sections::SectionPage page_of(const Circuit& circuit, PartId valve, const sections::PositionTable& table) {
  const Computed known = computed(circuit);
  const PassageGraph graph = passages_of(circuit);
  const Part& part = circuit.parts[valve];
  sections::SectionPage page{fmt::format("{}  {}", part.tag, part.definition->term), fmt::format("{}: inside, in every position", circuit.title.empty() ? "circuit" : circuit.title), {}};
  const std::vector<std::size_t> told = known.book->told();
  for (std::size_t p = 0; p < part.positions.size(); ++p) {
    sections::PositionShown shown{fmt::format("{}{}   {}", part.positions[p].name, static_cast<int>(p) == part.rest ? " (rest)" : "", paths_of(part.positions[p])),
                                  "oil as with supply at P", sections::assumed(table, p)};
    // A step of the cycle says more than the moment before it begins.
    auto found = std::find_if(told.begin(), told.end(), [&](std::size_t s) { return known.states.states[s].step && known.states.states[s].position[valve.index] == static_cast<int>(p); });
    if (found == told.end()) found = std::find_if(told.begin(), told.end(), [&](std::size_t s) { return known.states.states[s].position[valve.index] == static_cast<int>(p); });
    if (found != told.end()) {
      shown.now = now_in(known, circuit, graph, valve, *found);
      const State& state = known.states.states[*found];
      shown.where = state.step ? "oil as in step " + state.name : state.state_class == StateClass::rest ? "oil as at rest" : "oil as with " + state.name;
    }
    page.positions.push_back(std::move(shown));
  }
  return page;
}

std::vector<std::string> valves_of(const Circuit& circuit) {
  std::vector<std::string> tags;
  for (const Part& part : circuit.parts)
    if (!part.positions.empty()) tags.push_back(part.tag);
  return tags;
}

int write_section(const Circuit& circuit, const std::string& tag, const std::string& output, Talk& talk) {
  const PartId valve = circuit.part_named(tag);
  if (!valve) return say(talk, fmt::format("nothing is called {}{}", tag, did_you_mean(tag, valves_of(circuit))), exit_code::called_wrongly);
  const Part& part = circuit.parts[valve];
  if (part.positions.empty()) return say(talk, fmt::format("{} has no positions; valves with positions are: {}", tag, fmt::join(valves_of(circuit), ", ")), exit_code::called_wrongly);
  if (part.has("seat")) return say(talk, fmt::format("{} is a seat valve: it has no spool to show", tag), exit_code::called_wrongly);
  const sections::PositionTable table = sections::table_of(part);
  std::string why;
  const auto spool = sections::spool_for(table, why);
  if (!spool) return say(talk, fmt::format("{} cannot be shown: {}", tag, why), exit_code::called_wrongly);
  const DrawnFile drawn = section_file(*spool, part, page_of(circuit, valve, table), std::filesystem::path(output).extension().string(), talk.source_date_epoch);
  if (!drawn.error.empty()) return say(talk, drawn.error, exit_code::not_written);
  return put_file(output, drawn.bytes, talk);
}

int run_section(const Call& call, Talk& talk) {
  const std::string output = call.value("--output"), ending = std::filesystem::path(output).extension().string();
  if (call.files.size() != 2 || output.empty()) return say(talk, fmt::format("section needs a file, a valve and --output, for example: {}", examples[0].line), exit_code::called_wrongly);
  if (std::find(std::begin(endings), std::end(endings), ending) == std::end(endings))
    return say(talk, fmt::format("{} does not end with .pdf, .svg or .png", output), exit_code::called_wrongly);
  const Compiled one = compiled(call.files.front(), talk);
  if (!one.compilation || one.compilation->unreadable) return exit_code::unreadable;
  if (has_faults(one, talk)) return exit_code::found;
  return write_section(one.compilation->circuit, call.files[1], output, talk);
}

}  // namespace

extern const Verb section_verb;
const Verb section_verb{"section", "FILE VALVE", "show a spool valve cut open in each of its positions", examples, options, run_section};

}  // namespace ferrule
