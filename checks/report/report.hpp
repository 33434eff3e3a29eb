// One finding, many faces: the same messages as text for people, lines for editors, JSON for scripts, SARIF for services.
//
// The writers add no facts and drop none without saying so. Same findings, same bytes.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "checks/machinery/rule.hpp"
#include "grammar/source.hpp"

namespace ferrule {

// One circuit and all that was found in it, messages of every step.
struct Checked {
  const Sources* sources = nullptr;
  std::string file;                   // path of the circuit, relative to the project root
  std::string circuit;                // its title
  Messages messages;
  std::vector<Verdict> verdicts;
  std::vector<std::string> cautions;  // cautions_for(circuit)
};

// File, position, code; never severity.
void put_in_order(Messages& messages);

struct Totals {
  std::array<std::size_t, 3> open{};  // by severity, neither accepted nor masked
  std::size_t accepted = 0, masked = 0;
  std::array<std::size_t, 4> verdicts{};  // by outcome
};
Totals totals_of(const std::vector<Checked>& all);
// "press.fer: 3 errors, 0 warnings, 4 advice; accepted 1; not proved 3, not checked 9"
std::string footer(const std::vector<Checked>& all);

std::string_view word_of(Severity severity);  // "error"
std::string_view word_of(Outcome outcome);    // "not checked"

// Opaque and stable: survives moving lines, renaming files, other numbers; 32 hexadecimal digits (diagnostic identity v1).
// `ordinal` counts equals in canonical order.
std::string identity_of(const Message& message, const std::string& circuit, std::size_t ordinal);
std::vector<std::string> identities_of(const Checked& checked);

struct TextLook {
  std::size_t width = 100;
  bool colour = false;
  std::size_t most = 100;      // per severity; 0 shows all
  bool show_accepted = false;
};
std::string as_text(const std::vector<Checked>& all, const TextLook& look);
std::string as_lines(const std::vector<Checked>& all, std::size_t most);
std::string as_json(const std::vector<Checked>& all, std::string_view version);
std::string as_sarif(const std::vector<Checked>& all, std::string_view version, std::string_view project);

}  // namespace ferrule
