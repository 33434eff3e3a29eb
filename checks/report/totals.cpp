#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "checks/report/letters.hpp"
#include "checks/report/report.hpp"

namespace ferrule {
namespace {

constexpr std::string_view severities[] = {"error", "warning", "advice"};
constexpr std::string_view outcomes[] = {"passed", "passed on assumption", "not proved", "not checked"};

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string files_in_words(const std::vector<Checked>& all) {
  std::set<std::string> names;
  for (const Checked& checked : all) names.insert(checked.file);
  if (names.empty()) return "no file";
  const std::string first = safe(all.front().file);
  if (names.size() == 1) return first;
  return fmt::format("{} and {}", first, counted(names.size() - 1, "more file", "more files"));
}

}  // namespace

std::string_view word_of(Severity severity) { return severities[static_cast<std::size_t>(severity)]; }
std::string_view word_of(Outcome outcome) { return outcomes[static_cast<std::size_t>(outcome)]; }

void put_in_order(Messages& messages) {
  const auto key = [](const Message& m) {
    const Span at = m.places.empty() ? Span{} : m.places.front().span;
    return std::make_tuple(at.file, at.begin, std::string_view(m.code));
  };
  std::stable_sort(messages.begin(), messages.end(), [&](const Message& a, const Message& b) { return key(a) < key(b); });
}

Totals totals_of(const std::vector<Checked>& all) {
  Totals totals;
  for (const Checked& checked : all) {
    for (const Message& m : checked.messages) {
      if (!m.masked_by.empty()) ++totals.masked;
      else if (!m.accepted.empty()) ++totals.accepted;
      else ++totals.open[static_cast<std::size_t>(m.severity)];
    }
    for (const Verdict& v : checked.verdicts) ++totals.verdicts[static_cast<std::size_t>(v.outcome)];
  }
  return totals;
}

std::string footer(const std::vector<Checked>& all) {
  const Totals t = totals_of(all);
  std::string out = fmt::format("{}: {}, {}, {} advice", files_in_words(all), counted(t.open[0], "error", "errors"),
                                counted(t.open[1], "warning", "warnings"), t.open[2]);
  if (t.accepted) out += fmt::format("; accepted {}", t.accepted);
  std::string open;
  for (std::size_t outcome = 1; outcome < t.verdicts.size(); ++outcome)
    if (t.verdicts[outcome]) open += fmt::format("{}{} {}", open.empty() ? "; " : ", ", outcomes[outcome], t.verdicts[outcome]);
  return out + open;
}

}  // namespace ferrule
