#include "compiler/driver/findings_on_sheet.hpp"

#include <algorithm>

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

FindingMark mark_of(const Message& message, const Circuit& circuit) {
  FindingMark mark{1, message.code, std::string(word_of(message.severity)), message.sentence, {}, message.trail};
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
  std::vector<FindingMark> marks;
  for (const Message* message : open) {
    marks.push_back(mark_of(*message, circuit));
    marks.back().number = static_cast<int>(marks.size());
  }
  return marks;
}

}  // namespace ferrule
