// Whom a word of a step or rule means: a part, a solenoid, actuators that are tied.
#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/words.hpp"
#include "compiler/language/work_reading.hpp"

namespace ferrule {
namespace {

bool is_signalled(const Actuation& by) { return !by.tag.empty() && by.means != "pilot"; }

std::vector<std::string> known_names(const WorkReading& work) {
  std::vector<std::string> names;
  for (const Part& part : work.circuit.parts) names.push_back(part.tag);
  for (const auto& solenoid : work.solenoids) names.push_back(solenoid.tag);
  names.insert(names.end(), work.circuit.tie_names.begin(), work.circuit.tie_names.end());
  return names;
}

void tell_unknown(WorkReading& work, const std::string& name, Span span) {
  if (work.reading.names_missing || work.reading.solenoids_missing || !work.told.insert(name).second) return;
  work.reading.report(fault::unknown_tag, span, fmt::format("no part, solenoid or tie has the tag `{}`", name),
                      write_instead(name, known_names(work), "use a tag that is declared, or declare it"));
}

// Elements stand in the order of their parts.
bool has_element(const Circuit& circuit, PartId part, ElementKind kind) {
  const auto& rows = circuit.elements.rows;
  auto element = std::lower_bound(rows.begin(), rows.end(), part, [](const Element& e, PartId id) { return e.part.index < id.index; });
  for (; element != rows.end() && element->part == part; ++element)
    if (element->kind == kind) return true;
  return false;
}

}  // namespace

WorkReading work_reading(Reading& reading, Circuit& circuit) {
  WorkReading work{reading, circuit};
  for (std::uint32_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& rows = circuit.parts[PartId{index}].positions;
    for (std::size_t row = 0; row < rows.size(); ++row)
      for (const Actuation& by : rows[row].by)
        if (is_signalled(by)) {
          work.solenoid_named.emplace(by.tag, work.solenoids.size());
          work.solenoids.push_back({by.tag, {index}, static_cast<int>(row)});
        }
  }
  return work;
}

Subject subject_named(WorkReading& work, std::string_view name, Span span) {
  Subject subject;
  subject.name = name;
  subject.span = span;
  const auto part = work.circuit.by_tag.find(name);
  if (part != work.circuit.by_tag.end()) {
    subject.kind = Subject::Kind::part;
    subject.part = part->second;
    return subject;
  }
  if (const auto found = work.solenoid_named.find(name); found != work.solenoid_named.end()) {
    const WorkReading::Solenoid& solenoid = work.solenoids[found->second];
    subject.kind = Subject::Kind::solenoid;
    subject.part = solenoid.valve;
    subject.position = solenoid.position;
    return subject;
  }
  const auto& ties = work.circuit.tie_names;
  const auto tie = std::find(ties.begin(), ties.end(), name);
  if (tie != ties.end()) {
    subject.kind = Subject::Kind::tie;
    subject.tie = static_cast<int>(tie - ties.begin());
    const auto& tied = work.circuit.ties[subject.tie];
    if (!tied.empty()) subject.part = tied.front();
    return subject;
  }
  tell_unknown(work, subject.name, span);
  return subject;
}

Subject take_subject(WorkReading& work, Cursor& cursor, std::string_view after) {
  const Span span = cursor.here();
  const auto name = want_word(work.reading, cursor, after, "a tag", "1Y1 on");
  return name ? subject_named(work, *name, span) : Subject{};
}

bool is_unknown_kind(const WorkReading& work, const Subject& subject) {
  if (!subject.part) return false;
  const Definition* definition = work.part(subject).definition;
  // No text defines it, or two parts have its tag.
  return !definition || !definition->tree || work.reading.doubtful.contains(work.part(subject).tag);
}

bool is_drive(const Part& part) { return part.definition && part.definition->role("prime-mover"); }

bool turns(const Circuit& circuit, PartId part) {
  return part && has_element(circuit, part, ElementKind::displacement) && !has_element(circuit, part, ElementKind::piston);
}

bool is_actuator(const Circuit& circuit, PartId part) {
  if (!part) return false;
  const Definition* definition = circuit.parts[part].definition;
  if (definition && (definition->role("actuator") || definition->role("single-acting"))) return true;
  if (definition && definition->role("feeds")) return false;
  return has_element(circuit, part, ElementKind::piston) || turns(circuit, part);
}

std::vector<std::string> step_names(const Circuit& circuit) {
  std::vector<std::string> names;
  for (const Step& step : circuit.work.steps) names.push_back(step.name);
  return names;
}

bool is_step(const Circuit& circuit, std::string_view name) {
  const auto& steps = circuit.work.steps;
  return std::any_of(steps.begin(), steps.end(), [&](const Step& step) { return step.name == name; });
}

bool steps_are_lost(const WorkReading& work) {
  const auto is_error = [](const Message& message) { return message.severity == Severity::error; };
  return work.circuit.work.steps.size() == 0 && std::any_of(work.reading.messages.begin(), work.reading.messages.end(), is_error);
}

}  // namespace ferrule
