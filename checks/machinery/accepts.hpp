// `accept RULE on SUBJECT because "..."`: an accepted finding stays a finding, marked.
#pragma once

#include "checks/machinery/rule.hpp"

namespace ferrule {

// A fault of the accepts themselves: code, rule name, and why it matters (for `ferrule explain`).
struct Keeping {
  std::string_view code, rule;
  Severity severity;
  std::string_view why;
};
std::span<const Keeping> keeping_faults();

// Marks what the circuit accepts, and reports accepts that are stale, past their date, without reason or of no rule.
// `today` and dates are YYYY-MM-DD, which compare as texts.
void settle_accepts(const Circuit& circuit, std::string_view today, Findings& findings);

}  // namespace ferrule
