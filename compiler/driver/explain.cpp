// ferrule explain: why a rule exists.
#include <fmt/format.h>

#include "checks/report/letters.hpp"
#include "compiler/driver/pages.hpp"
#include "compiler/driver/verb.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule explain pump-outlet-unprotected", "by name"},
    {"ferrule explain P-01", "by code, as findings print it"},
    {"ferrule explain T-05", "what a slip in the text is, and what to write"},
};

int run_explain(const Call& call, Talk& talk) {
  const std::vector<Explained> all = all_explained();
  for (const std::string& word : call.files) {
    const Explained* one = explained(all, word);
    if (!one) {
      talk.err += fmt::format("ferrule: there is no rule {}{}; ferrule list rules names them\n", safe(word), nearest_explained(all, word));
      return exit_code::called_wrongly;
    }
    talk.out += one->page;
  }
  return exit_code::done;
}

}  // namespace

extern const Verb explain_verb;
const Verb explain_verb{"explain", "RULE", "say why a rule exists, its limit and source, a bad and a good circuit", examples, {}, run_explain};

}  // namespace ferrule
