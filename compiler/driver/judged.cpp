#include "compiler/driver/judged.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "checks/report/cautions.hpp"
#include "checks/report/letters.hpp"

namespace ferrule {
namespace {

// Text, names and dimensions: after such a fault the circuit is not the one that was meant, and rules would only restate it.
bool spoils_the_circuit(const Message& m) {
  return m.severity == Severity::error && !m.code.empty() && std::string_view("TNDM").find(m.code.front()) != std::string_view::npos;
}

}  // namespace

Compiled compiled(const std::string& path, Talk& talk) {
  Input input = path == "-" ? from_standard_input(talk.standard_input()) : opened(path);
  if (!input.error.empty()) {
    say(talk, fmt::format("cannot read {}: {}", path == "-" ? "standard input" : path, input.error), exit_code::unreadable);
    return {};
  }
  Compiled out{std::make_unique<Disk>(input.root), nullptr, input.path, input.root};
  out.compilation = compile(*out.disk, input.path, std::move(input.text));
  return out;
}

bool has_faults(const Compiled& one, Talk& talk) {
  const Compilation& c = *one.compilation;
  const bool faulty = std::any_of(c.messages.begin(), c.messages.end(), [](const Message& m) { return m.severity == Severity::error; });
  if (!faulty) return false;
  Checked checked{&c.sources, one.file, c.circuit.title, c.messages, {}, {}};
  put_in_order(checked.messages);
  talk.err += as_text({checked}, TextLook{talk.columns, false, 100, false});
  return true;
}

Checked judged(const Compiled& compiled, const std::string& today) {
  const Compilation& c = *compiled.compilation;
  Checked checked{&c.sources, compiled.file, c.circuit.title, c.messages, {}, cautions_for(c.circuit)};
  const auto first = std::find_if(checked.messages.begin(), checked.messages.end(), spoils_the_circuit);
  if (first != checked.messages.end()) {
    if (first->hides.empty()) first->hides = fmt::format("{} rules: they need a text that compiles", rules().size());
  } else if (c.circuit.parts.size() != 0) {
    Findings findings = check(c.circuit, today);
    for (Message& m : findings.messages) checked.messages.push_back(std::move(m));
    checked.verdicts = std::move(findings.verdicts);
  }
  put_in_order(checked.messages);
  return checked;
}

}  // namespace ferrule
