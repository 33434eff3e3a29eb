// ferrule list: what a text can use.
#include <fmt/format.h>

#include <algorithm>

#include "checks/machinery/rule.hpp"
#include "checks/report/letters.hpp"
#include "compiler/driver/verb.hpp"
#include "compiler/driver/disk.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/language/faults.hpp"
#include "compiler/library/library.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule list", "kinds of components, one line each"},
    {"ferrule list relief-valve", "ports and facts of one kind"},
    {"ferrule list rules", "codes and names of all rules"},
};

struct Shelves {
  Sources sources;
  Messages messages;
  Disk disk{"."};
  Library library{sources, messages, disk.library()};
};

std::string kinds(Shelves& shelves) {
  std::string out;
  for (const std::string& name : shelves.library.definition_names())
    if (const Definition* kind = shelves.library.definition(name)) out += fmt::format("{:<34} {}\n", name, kind->term);
  return out;
}

std::string in_words(const FactSpec& fact) {
  constexpr std::string_view plain[] = {"", "", "", "switch", "choice", "text", "tag", "list of "};
  const auto kind = static_cast<std::size_t>(fact.kind);
  const std::string dimension = name_of(fact.dimension);
  switch (fact.kind) {
    case FactKind::quantity: return dimension;
    case FactKind::quantity_at: return fmt::format("{} at {}", dimension, name_of(fact.at));
    case FactKind::range: return "range of " + dimension;
    case FactKind::list: return "list of " + dimension;
    case FactKind::choice: return fmt::format("one of {}", fmt::join(fact.choices, ", "));
    default: return std::string(plain[kind]);
  }
}

std::string kind_in_words(const Definition& kind) {
  std::string out = fmt::format("{}: {}\n", kind.name, kind.term);
  if (!kind.says.empty()) out += fmt::format("  {}\n", kind.says);
  for (const PortSpec& port : kind.ports) out += fmt::format("  port {:<10} {}\n", port.name, port.text);
  for (const Through& way : kind.through) out += fmt::format("  through {} {} {}\n", way.from, way.both_ways ? "-" : ">", way.to);
  for (const FactSpec& fact : kind.facts) {
    out += fmt::format("  fact {:<18} {:<22} {}", fact.name, in_words(fact), fact.text);
    out += fact.source.empty() ? "\n" : fmt::format(" (default: {})\n", fact.source);
  }
  for (const auto& set : kind.enough) out += fmt::format("  enough {}\n", fmt::join(set, " and "));
  return out;
}

std::string all_rules() {
  std::string out;
  for (const Rule* rule : rules()) out += fmt::format("{:<6} {:<34} {}\n", rule->code, rule->name, rule->severity == Severity::error ? "error" : rule->severity == Severity::warning ? "warning" : "advice");
  for (const TextFault* fault : text_faults()) out += fmt::format("{:<6} {:<34} {}\n", fault->code, fault->rule, fault->why);
  return out;
}

int run_list(const Call& call, Talk& talk) {
  Shelves shelves;
  if (call.files.empty()) talk.out += kinds(shelves);
  for (const std::string& word : call.files) {
    const Definition* kind = word == "rules" ? nullptr : shelves.library.definition(word);
    if (word == "rules") talk.out += all_rules();
    else if (kind) talk.out += kind_in_words(*kind);
    else {
      talk.err += fmt::format("ferrule: the library has no kind {}{}\n", safe(word), did_you_mean(word, shelves.library.definition_names()));
      return exit_code::called_wrongly;
    }
  }
  return exit_code::done;
}

}  // namespace

extern const Verb list_verb;
const Verb list_verb{"list", "[KIND]", "name kinds of components, their ports and facts; `list rules` the rules", examples, {}, run_list};

}  // namespace ferrule
