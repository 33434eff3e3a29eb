#include "checks/machinery/accepts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace ferrule {
namespace {

constexpr Keeping all[] = {
    {"K-01", "waiver-stale", Severity::warning, "An accept that no finding needs hides the next one; delete it when the circuit is mended."},
    {"K-02", "waiver-without-reason", Severity::error,
     "An exception is argued: `because`, and for an error on the safety of people also `by` and `date`, so that a reviewer knows whom to ask."},
    {"K-03", "waiver-expired", Severity::error, "The day of `until` is past: mend the circuit, or argue again."},
    {"K-04", "waiver-of-no-rule", Severity::error,
     "The accept names a rule that does not exist, so it accepts nothing, and its reader believes that it does."},
    {"K-05", "waiver-of-unnamed-line", Severity::error,
     "A line without a tag is numbered by its place in the text: after the next edit the accept would stand for another line."},
};
constexpr const Keeping &stale = all[0], &without_reason = all[1], &expired = all[2], &of_no_rule = all[3],
                         &of_unnamed_line = all[4];

Message message_of(const Keeping& kind, const Accept& accept, std::string sentence, std::string fix) {
  Message m;
  m.code = kind.code, m.rule = kind.rule, m.severity = kind.severity;
  m.sentence = std::move(sentence), m.fix = std::move(fix);
  m.places.push_back({accept.span, ""});
  m.subject = accept.subject;
  return m;
}

const Rule* rule_named(std::string_view word) {
  for (const Rule* rule : rules())
    if (rule->name == word || rule->code == word) return rule;
  return nullptr;
}

bool is_about(const Message& m, const Rule& rule, const Accept& accept) {
  return m.code == rule.code && (m.subject == accept.subject || (m.subject.empty() && accept.subject == "circuit"));
}

// Errors of protection, stored energy and safety functions want a person and a day behind them.
bool wants_a_name(const Message& m) {
  return m.severity == Severity::error && std::string_view("PES").find(m.code.front()) != std::string_view::npos;
}

bool could_not_judge(const Findings& findings, const Rule& rule, const Accept& accept) {
  return std::any_of(findings.verdicts.begin(), findings.verdicts.end(), [&](const Verdict& v) {
    return v.code == rule.code && (v.subject == accept.subject || v.subject.empty()) && v.outcome != Outcome::pass &&
           v.outcome != Outcome::pass_on_assumption;
  });
}

std::string fault_of(const Accept& accept, const Message& m) {
  if (accept.reason.empty()) return "without `because` and a reason";
  if (!wants_a_name(m)) return {};
  if (accept.by.empty()) return "without `by`: it accepts an error on the safety of people";
  return accept.date.empty() ? "without `date`: it accepts an error on the safety of people" : "";
}

void settle(const Accept& accept, const Rule& rule, std::string_view today, Findings& findings) {
  const std::string what = fmt::format("`accept {} on {}`", accept.rule, accept.subject);
  if (!accept.until.empty() && accept.until < today) {
    findings.messages.push_back(message_of(expired, accept, fmt::format("{} ended on {}", what, accept.until),
                                           "mend the circuit, or argue again and give a later day"));
    return;
  }
  bool used = false;
  std::string fault = accept.reason.empty() ? fault_of(accept, {}) : "";
  for (Message& m : findings.messages) {
    if (!is_about(m, rule, accept)) continue;
    used = true;
    if (fault.empty()) fault = fault_of(accept, m);
    if (fault.empty()) m.accepted = accept.reason;
  }
  if (!fault.empty())
    findings.messages.push_back(message_of(without_reason, accept, fmt::format("{} stands {}", what, fault),
                                           "because \"...\" { by \"who argues it\", date 2026-03-01 }"));
  else if (!used && !could_not_judge(findings, rule, accept))
    findings.messages.push_back(message_of(stale, accept, fmt::format("{} is no longer needed: there is no such finding", what), "delete the statement"));
}

bool is_unnamed_line(const Circuit& circuit, const std::string& tag) {
  return std::any_of(circuit.lines.begin(), circuit.lines.end(), [&](const Line& line) { return !line.named && circuit.parts[line.part].tag == tag; });
}

}  // namespace

std::span<const Keeping> keeping_faults() { return all; }

void settle_accepts(const Circuit& circuit, std::string_view today, Findings& findings) {
  for (const Accept& accept : circuit.accepts) {
    if (is_unnamed_line(circuit, accept.subject))
      findings.messages.push_back(message_of(of_unnamed_line, accept, fmt::format("`{}` is a line without a tag of its own, so nothing is accepted", accept.subject),
                                             fmt::format("give the line a tag where it stands, `{{hose {} ...}}`, and accept that", accept.subject)));
    else if (const Rule* rule = rule_named(accept.rule)) settle(accept, *rule, today, findings);
    else
      findings.messages.push_back(message_of(of_no_rule, accept, fmt::format("`{}` is no rule of this release, so nothing is accepted", accept.rule),
                                             "`ferrule list rules` names the rules"));
  }
}

}  // namespace ferrule
