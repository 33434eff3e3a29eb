// ferrule size: sizes for the task that the text states, each with its working, and the lines to paste.
#include <fmt/format.h>

#include "checks/report/cautions.hpp"
#include "checks/report/letters.hpp"
#include "checks/sizing/sizing.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/figures/board.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule size press.fer", "bores, pumps, drives, lines, reservoir, cooler for its loads and times"},
    {"ferrule size press.fer --output sized.fer", "and the whole text with everything pasted"},
};
constexpr Option options[] = {
    {"--output", "PATH", "write the text with all lines pasted; - for standard output in place of the workings"},
};

std::string as_text(const sizing::Proposal& one) {
  std::string text = one.working.address + "\n\n" + working::lines_on_a_board(one.working);
  if (!one.working.values.empty()) text += "\n";
  if (!one.why_none.empty()) return text + "  nothing proposed: " + one.why_none + "\n";
  text += fmt::format("  chosen: {}   [{}]\n", one.chosen, one.source);
  if (one.now == one.chosen) text += "  as the text has it\n";
  else if (!one.now.empty()) text += fmt::format("  in the text: {}\n", one.now);
  for (const std::string& note : one.working.notes) text += "  note: " + note + "\n";
  return text;
}

std::string as_text(const sizing::Sized& sized) {
  std::string text;
  for (const sizing::Proposal& one : sized.proposals) text += as_text(one) + "\n";
  if (sized.lines.empty()) text += "nothing to paste: the text has these sizes\n";
  else text += "lines to paste\n";
  for (const sizing::ChangedLine& line : sized.lines) text += fmt::format("  {:>9} {}\n", line.is_new ? fmt::format("after {}:", line.number) : fmt::format("{}:", line.number), line.text);
  text += sized.lines.empty() ? "\nas it is\n" : "\nwith them\n";
  for (const std::string& line : sized.outcome) text += "  " + line + "\n";
  return text;
}

const std::string& text_of(const Compilation& compilation, const std::string& path) {
  std::uint32_t file = 0;
  while (file + 1 < compilation.sources.size() && compilation.sources[file].path != path) ++file;
  return compilation.sources[file].text;
}

int run_size(const Call& call, Talk& talk) {
  const std::string path = call.value("--output");
  if (call.files.size() != 1) return say(talk, "size works on one file; give one", exit_code::called_wrongly);
  const Compiled one = compiled(call.files.front(), talk);
  if (!one.compilation || one.compilation->unreadable) return exit_code::unreadable;
  if (has_faults(one, talk)) return exit_code::found;
  const Compilation& compilation = *one.compilation;
  if (const std::string limit = too_many_results(compilation.circuit, states_of(compilation.circuit).states.size(), cut_it_up); !limit.empty())
    return say(talk, limit, exit_code::called_wrongly);
  const sizing::Sized sized = sizing::sized(*one.disk, one.file, text_of(compilation, one.file));
  if (path != "-") {
    std::string out = fmt::format("{}{}\n\n", one.file, compilation.circuit.title.empty() ? "" : ": " + compilation.circuit.title) + as_text(sized);
    for (const std::string& caution : cautions_for(compilation.circuit)) out += "\ncare: " + caution;
    talk.out += without_log_commands(safe_lines(out + "\n"));
  }
  if (path.empty()) return exit_code::done;
  return put_file(path, sized.text, talk);
}

}  // namespace

extern const Verb size_verb;
const Verb size_verb{"size", "FILE", "propose sizes for its loads and times, with the lines to paste", examples, options, run_size};

}  // namespace ferrule
