// The generated list of rules and pages; rule.hpp has what callers use.
#pragma once

#include "checks/machinery/rule.hpp"

namespace ferrule {

struct RulePage {
  std::string_view rule, text;
};
std::span<const Rule* const> registered_rules();
std::span<const RulePage> registered_pages();

}  // namespace ferrule
