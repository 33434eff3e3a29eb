// `accept RULE on SUBJECT because "..."`: an accepted finding stays a finding, marked.
#pragma once

#include "checks/machinery/rule.hpp"

namespace ferrule {

// Marks what the circuit accepts, and reports accepts that are stale, past their date, without reason or of no rule.
// `today` and dates are YYYY-MM-DD, which compare as texts.
void settle_accepts(const Circuit& circuit, std::string_view today, Findings& findings);

}  // namespace ferrule
