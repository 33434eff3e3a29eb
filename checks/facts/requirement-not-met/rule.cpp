// F-17: every `require` statement is met by the computed value, in the states it names or in all that are considered.
#include <fmt/format.h>

#include "checks/machinery/evidence.hpp"
#include "compiler/figures/requirement.hpp"

namespace ferrule {

extern const Rule requirement_not_met;

namespace {

using working::Judged;

Message finding_of(const Judged& judged, const std::string& subject) {
  Message m;
  m.code = requirement_not_met.code, m.rule = requirement_not_met.name, m.severity = requirement_not_met.severity;
  m.subject = subject;
  m.sentence = judged.sentence();
  m.places.push_back({judged.requirement->span, "required here"});
  if (!judged.state.empty()) m.states = {judged.state};
  m.state_class = "work";
  m.values.push_back({judged.address, working::shown(judged.value), judged.wanted, "derived"});
  m.limit_source = "`require` of this circuit";
  m.fix = fmt::format("see how it comes about: ferrule explain FILE {}", judged.addresses.front());
  return m;
}

void check(const Solved& solved, Findings& findings) {
  if (solved.circuit.requirements.empty()) return;
  const working::Book book(solved.circuit, solved.states.states, solved.points);
  for (const Judged& judged : working::judged_requirements(book)) {
    const std::string subject = judged.requirement->address.front();
    if (judged.outcome == Judged::Outcome::failed) {
      findings.messages.push_back(finding_of(judged, subject));
      continue;
    }
    const bool met = judged.outcome == Judged::Outcome::met;
    findings.verdicts.push_back({std::string(requirement_not_met.code), std::string(requirement_not_met.name), subject,
                                 met ? Outcome::pass : Outcome::not_proved, judged.sentence()});
  }
}

}  // namespace

const Rule requirement_not_met{"F-17", "requirement-not-met", Severity::error, check};

}  // namespace ferrule
