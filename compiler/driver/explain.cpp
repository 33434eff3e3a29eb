// ferrule explain: why a rule exists.
#include <fmt/format.h>

#include "checks/machinery/accepts.hpp"
#include "checks/machinery/rule.hpp"
#include "checks/report/letters.hpp"
#include "compiler/driver/verb.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/language/faults.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule explain pump-outlet-unprotected", "by name"},
    {"ferrule explain P-01", "by code, as findings print it"},
};

template <class Fault>
std::string page_about(const Fault& fault, std::string_view word) {
  if (fault.code != word && fault.rule != word) return {};
  return fmt::format("# {} ({})\n\n{}\n", fault.rule, fault.code, fault.why);
}

std::string page_of_fault(std::string_view word) {
  std::string page;
  for (const TextFault* fault : text_faults()) page += page_about(*fault, word);
  for (const Keeping& fault : keeping_faults()) page += page_about(fault, word);
  return page;
}

std::vector<std::string> all_names() {
  std::vector<std::string> names;
  for (const Rule* rule : rules()) names.emplace_back(rule->name);
  for (const TextFault* fault : text_faults()) names.emplace_back(fault->rule);
  return names;
}

int run_explain(const Call& call, Talk& talk) {
  for (const std::string& word : call.files) {
    std::string page(page_of(word));
    if (page.empty()) page = page_of_fault(word);
    if (page.empty()) {
      talk.err += fmt::format("ferrule: there is no rule {}{}; ferrule list rules names them\n", safe(word), did_you_mean(word, all_names()));
      return exit_code::called_wrongly;
    }
    talk.out += page;
  }
  return exit_code::done;
}

}  // namespace

extern const Verb explain_verb;
const Verb explain_verb{"explain", "RULE", "say why a rule exists, its limit and source, a bad and a good circuit", examples, {}, run_explain};

}  // namespace ferrule
