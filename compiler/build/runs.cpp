#include <algorithm>

#include <fmt/format.h>

#include "compiler/build/building.hpp"
#include "compiler/build/resolve.hpp"
#include "grammar/nearest.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

struct Joining {
  Building& building;
  const ScopedRun& run;
  Run made;
  std::map<std::uint32_t, Span> passed;  // ports met so far
  std::int64_t last = -1;        // port that the next step is joined to; -1 after a gap
  Span last_span;
  bool behind_pipe = false;      // the last step was a pipe
};

const RunStepText& first_step(const Joining& in) { return in.run.text.steps.front(); }

// Marks the port as joined; a port that the run met before is reported.
void meet(Joining& in, std::uint32_t port, Span span) {
  Port& draft = in.building.ports[port];
  if (draft.end == Port::End::unjoined) {
    draft.end = Port::End::joined;
    draft.span = span;
  }
  const bool reservoir = in.building.circuit.parts[draft.part].definition->ports_as_named;
  const auto [before, fresh] = in.passed.try_emplace(port, span);
  if (fresh || reservoir) return;
  const Part& part = in.building.circuit.parts[draft.part];
  const bool line_to_itself = in.behind_pipe;
  const std::string name = part.tag + "." + draft.name;
  Message& message = in.building.reading.report(
      line_to_itself ? fault::double_connection : fault::port_twice_in_run, span,
      line_to_itself ? fmt::format("the line joins `{}` to itself", name) : fmt::format("`{}` stands twice in this run", name),
      "one of the two is meant to be another port; the ports of " + part.tag + " are " + port_names(in.building, draft.part), "again here");
  message.places.push_back({before->second, "first here"});
  message.subject = part.tag;
}

void pass(Joining& in, std::uint32_t entry, std::uint32_t exit, Span span) {
  meet(in, entry, span);
  if (exit != entry) meet(in, exit, span);
  if (in.last >= 0) join(in.building, static_cast<std::uint32_t>(in.last), entry);
  in.last = exit;
  in.last_span = span;
  in.made.steps.push_back({PortId{entry}, {}});
  if (exit != entry) in.made.steps.push_back({PortId{exit}, {}});
}

void pass_line(Joining& in, PartId part, bool named, Span span) {
  const Building& building = in.building;
  const std::vector<std::uint32_t> ports = building.texts[part.index].ports;
  if (ports.size() < 2) return (void)(in.last = -1);
  const LineId line = in.building.circuit.lines.add({part, in.run.text.function, named});
  for (const std::size_t end : {0u, 1u}) {
    Port& port = in.building.ports[ports[end]];
    port.end = Port::End::joined;
    port.span = span;
  }
  if (in.last >= 0) join(in.building, static_cast<std::uint32_t>(in.last), ports[0]);
  in.last = ports[1];
  in.last_span = span;
  in.made.steps.push_back({{}, line});
}

void pass_pipe(Joining& in, const RunStepText& step) {
  auto text = read_pipe(in.building.reading, *in.run.text.tree, *step.pipe, in.building.library);
  if (!text || !text->definition) return (void)(in.last = -1);
  const bool named = !text->tag.empty();
  if (!named) text->tag_span = text->kind_span;
  if (named && tag_taken(in.building, in.run.prefix + text->tag, text->tag_span)) text->tag.clear();
  const PartId part = add_part(in.building, std::move(*text), named ? in.run.prefix : std::string{});
  for (const PortSpec& spec : in.building.circuit.parts[part].definition->ports) port_draft(in.building, part, spec.name);
  if (!named) in.building.unnamed.push_back(part);
  pass_line(in, part, named, step.span);
}

void report_not_in_line(Joining& in, const RunStepText& step, PartId id) {
  const Part& part = in.building.circuit.parts[id];
  const std::string inlet = part.tag + "." + inlet_of(in.building, id);
  if (part.definition->unclear) return;
  const bool at_end = &step == &first_step(in) || &step == &in.run.text.steps.back();
  Message& message = in.building.reading.report(
      fault::not_in_line, step.span,
      at_end ? fmt::format("the run ends at `{}` without saying at which port", part.tag)
                        : fmt::format("`{}` does not stand in a line: {} is not passed from end to end", part.tag, part.definition->name),
      at_end ? "name the port: " + port_names(in.building, id) : fmt::format("join its inlet, `{}`; its ports are {}", inlet, port_names(in.building, id)));
  message.subject = part.tag;
  in.building.text(id).silent = true;
}

void pass_bare(Joining& in, const RunStepText& step, PartId id) {
  Building& building = in.building;
  const Definition& definition = *building.circuit.parts[id].definition;
  if (definition.ports_as_named) {
    const std::uint32_t port = port_draft(building, id, new_connection(building, id));
    return pass(in, port, port, step.span);
  }
  if (&definition == &unknown_definition()) return (void)(in.last = -1);
  const bool at_end = &step == &first_step(in) || &step == &in.run.text.steps.back();
  if (definition.is_pipe && !at_end) return pass_line(in, id, true, step.span);
  const std::vector<std::uint32_t> ports = building.text(id).ports;
  if (ports.size() == 1) return pass(in, ports[0], ports[0], step.span);
  if (!definition.through.empty() && !at_end) {
    const Through& through = definition.through.front();
    return pass(in, port_draft(building, id, through.from), port_draft(building, id, through.to), step.span);
  }
  report_not_in_line(in, step, id);
  if (ports.empty()) return (void)(in.last = -1);
  // Joined to the port that is most likely meant, so that nothing else is reported.
  const std::uint32_t meant = port_draft(building, id, inlet_of(building, id));
  pass(in, meant, meant, step.span);
}

void pass_way(Joining& in, const RunStepText& step, std::uint32_t from) {
  Building& building = in.building;
  const PartId id = building.ports[from].part;
  const std::int64_t to = port_named(building, id, step.to, step.span);
  if (to < 0) return (void)(in.last = -1);
  if (!building.text(id).rows_unclear && !has_way(building, id, building.ports[from].name, step.to)) {
    const Part& part = building.circuit.parts[id];
    building.reading.report(fault::wrong_way, step.span, fmt::format("`{}` has no way from {} to {}", part.tag, building.ports[from].name, step.to),
                            "its ports are " + all_ports(*part.definition)).subject = part.tag;
  }
  pass(in, from, static_cast<std::uint32_t>(to), step.span);
}

void pass_step(Joining& in, const RunStepText& step) {
  if (step.pipe) pass_pipe(in, step);
  else if (step.word.empty()) in.last = -1;
  else {
    const Found found = resolve(in.building, in.run.prefix, step.word, step.span);
    if (!found.part) in.last = -1;
    else if (found.port < 0 && found.bare) pass_bare(in, step, found.part);
    else if (found.port < 0) in.last = -1;
    else if (!step.to.empty()) pass_way(in, step, static_cast<std::uint32_t>(found.port));
    else pass(in, static_cast<std::uint32_t>(found.port), static_cast<std::uint32_t>(found.port), step.span);
  }
  in.behind_pipe = step.pipe != nullptr;
  in.building.lost_ends = in.building.lost_ends || in.last < 0;
}

bool has_role(const Joining& in, PortId port, std::string_view role, bool at_port) {
  if (!port) return false;
  const Port& draft = in.building.ports[port.index];
  const Role* found = in.building.circuit.parts[draft.part].definition->role(role);
  return found && (!at_port || std::find(found->ports.begin(), found->ports.end(), draft.name) != found->ports.end());
}

// A run that is written backwards has its filters backwards too.
void check_sense(Joining& in) {
  if (in.made.steps.size() < 2 || in.run.text.broken) return;
  const PortId first = in.made.steps.front().port, last = in.made.steps.back().port;
  const LineFunction function = in.run.text.function;
  const bool homeward = function == LineFunction::return_ || function == LineFunction::drain;
  std::string_view why;
  Span at = in.run.text.steps.back().span;
  if (homeward && has_role(in, first, "tank", false) && !has_role(in, last, "tank", false)) {
    why = "begins at the reservoir, where its oil ends";
    at = in.run.text.steps.front().span;
  } else if (function == LineFunction::suction && has_role(in, last, "tank", false)) {
    why = "ends at the reservoir, where its oil comes from";
  } else if (function == LineFunction::pressure && has_role(in, last, "feeds", true) && !has_role(in, first, "feeds", true)) {
    why = "ends at a pump outlet, where its oil comes from";
  }
  if (!why.empty())
    in.building.reading.report(fault::run_backwards, at, fmt::format("a {} run {}", word_of(function), why),
                               "write the run the other way round, the way the oil goes");
}

void join_run(Building& building, const ScopedRun& run) {
  Joining in{building, run, {}, {}, -1, {}, false};
  in.made.function = run.text.function;
  in.made.span = run.text.span;
  const std::size_t messages = building.reading.messages.size(), tags = building.reading.unknown_tags.size();
  for (const RunStepText& step : run.text.steps) pass_step(in, step);
  check_sense(in);
  // A run that could not be read whole still joins what it names, but has its message already.
  if (run.text.broken) {
    building.reading.messages.resize(messages);
    building.reading.unknown_tags.resize(tags);
  }
  building.circuit.runs.push_back(std::move(in.made));
}

// Lines that the text does not name get the next free tag, so that results of each have an address.
void name_lines(Building& building) {
  std::uint32_t number = 0;
  for (const PartId id : building.unnamed) {
    std::string tag;
    do tag = fmt::format("L{}", ++number);
    while (building.circuit.by_tag.contains(tag));
    building.circuit.parts[id].tag = tag;
    building.circuit.by_tag.emplace(tag, id);
  }
}

}  // namespace

void join_runs(Building& building) {
  for (const ScopedRun& run : building.runs) join_run(building, run);
  name_lines(building);
}

void close_port(Building& building, const Statement& statement) {
  Cursor cursor(*statement.tree, *statement.item);
  const bool plugged = cursor.take().text == "plugged";
  do {
    const Span at = cursor.here();
    const auto word = want_word(building.reading, cursor, plugged ? "`plugged`" : "`open`", "a port", plugged ? "plugged 1V1.B" : "open 1V1.B because \"...\"");
    if (!word) return;
    const Found found = resolve(building, {}, *word, at);
    if (found.bare)
      building.reading.report(fault::unknown_port, at, fmt::format("`{}` names no port", *word), "name one of " + port_names(building, found.part));
    if (found.port < 0) continue;
    Port& port = building.ports[static_cast<std::size_t>(found.port)];
    if (port.end == Port::End::joined) {
      Message& message = building.reading.report(fault::port_closed_and_joined, at, fmt::format("`{}` is {}, but a run joins it", *word, plugged ? "plugged" : "open"),
                                                 "leave one of the two out", plugged ? "plugged here" : "open here");
      message.places.push_back({port.span, "joined here"});
      continue;
    }
    port.end = plugged ? Port::End::plugged : Port::End::left_open;
    port.span = at;
  } while (cursor.take_word("and"));
  if (!plugged && cursor.take_word("because")) take_text(cursor);
  used_up(building.reading, cursor, plugged ? "the plugged port" : "the open port");
}

}  // namespace ferrule
