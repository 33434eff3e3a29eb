#include "compiler/driver/findings_on_sheet.hpp"

#include <algorithm>

#include "render/nets.hpp"

namespace ferrule {
namespace {

// The part whose tag or statement a place of the text names.
PartId part_at(const Circuit& circuit, const Span& span) {
  for (std::uint32_t p = 0; p < circuit.parts.size(); ++p) {
    const Span& statement = circuit.parts.rows[p].statement;
    if (statement.file == span.file && statement.begin <= span.begin && span.end <= statement.end) return {p};
  }
  return {};
}

void add(std::vector<std::string>& tags, const std::string& tag) {
  if (std::find(tags.begin(), tags.end(), tag) == tags.end()) tags.push_back(tag);
}

// The ports at the ends of a pipe's line, when nothing else meets that line.
std::vector<std::string> joined_by(const Circuit& circuit, const CircuitNets& nets, const std::string& pipe) {
  for (const CircuitNet& net : nets.nets) {
    const bool its = std::any_of(net.lines.begin(), net.lines.end(), [&](const NetLine& line) { return circuit.parts[circuit.lines[line.line].part].tag == pipe; });
    if (!its || net.ends.size() != 2) continue;
    std::vector<std::string> words;
    for (const NetEnd& end : net.ends) {
      const Port& port = circuit.ports[end.connection < 0 ? end.port : nets.connections[static_cast<std::size_t>(end.connection)].port];
      words.push_back(circuit.parts[port.part].tag + "." + port.name);
    }
    return words;
  }
  return {};
}

FindingMark mark_of(const Message& message, const Circuit& circuit, const CircuitNets& nets) {
  FindingMark mark{1, message.code, std::string(word_of(message.severity)), message.sentence, {}, message.trail, joined_by(circuit, nets, message.subject)};
  if (circuit.part_named(message.subject)) mark.parts.push_back(message.subject);
  for (const Place& place : message.places)
    if (const PartId part = part_at(circuit, place.span)) add(mark.parts, circuit.parts[part].tag);
  return mark;
}

}  // namespace

std::vector<FindingMark> findings_for_sheet(const Checked& checked, const Circuit& circuit) {
  std::vector<const Message*> open;
  for (const Message& message : checked.messages)
    if (message.accepted.empty() && message.masked_by.empty()) open.push_back(&message);
  std::stable_sort(open.begin(), open.end(), [](const Message* a, const Message* b) { return a->severity < b->severity; });
  const CircuitNets nets = nets_of(circuit);
  std::vector<FindingMark> marks;
  for (const Message* message : open) {
    marks.push_back(mark_of(*message, circuit, nets));
    marks.back().number = static_cast<int>(marks.size());
  }
  return marks;
}

}  // namespace ferrule
