#include "checks/machinery/registry.hpp"

#include <algorithm>

namespace ferrule {

std::span<const Rule* const> rules() {
  // Sorted once: the folders come in the order of their names, reports list by code.
  static const std::vector<const Rule*> sorted = [] {
    std::vector<const Rule*> all(registered_rules().begin(), registered_rules().end());
    std::sort(all.begin(), all.end(), [](const Rule* a, const Rule* b) { return a->code < b->code; });
    return all;
  }();
  return sorted;
}

std::string_view page_of(std::string_view code_or_name) {
  std::string_view name = code_or_name;
  for (const Rule* rule : rules())
    if (rule->code == code_or_name) name = rule->name;
  for (const RulePage& page : registered_pages())
    if (page.rule == name) return page.text;
  return {};
}

}  // namespace ferrule
