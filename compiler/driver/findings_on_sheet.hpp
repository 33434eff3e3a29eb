// What a rule found, as plain data for a drawing.
#pragma once

#include <vector>

#include "checks/report/report.hpp"
#include "render/findings/findings.hpp"

namespace ferrule {

// Findings that are open: neither accepted nor only restating another. Numbered from 1, the gravest first, then in the order of
// the report.
std::vector<FindingMark> findings_for_sheet(const Checked& checked, const Circuit& circuit);

}  // namespace ferrule
