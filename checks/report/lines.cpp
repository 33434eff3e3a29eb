// One finding, one line, for the error lists of editors.
#include <fmt/format.h>

#include "checks/report/letters.hpp"
#include "checks/report/report.hpp"

namespace ferrule {
namespace {

std::string line_of(const Checked& checked, const Message& m) {
  std::string at = safe(checked.file) + ":1:1";
  if (!m.places.empty()) {
    const Source& source = (*checked.sources)[m.places.front().span.file];
    const Position position = position_of(source, m.places.front().span.begin);
    at = fmt::format("{}:{}:{}", safe(source.path), position.line, position.column);
  }
  const std::string subject = m.subject.empty() ? "" : " " + safe(m.subject);
  return fmt::format("{}: {}: {} {}{}: {}\n", at, word_of(m.severity), m.code, m.rule, subject, safe(m.sentence));
}

}  // namespace

std::string as_lines(const std::vector<Checked>& all, std::size_t most) {
  std::string out;
  std::array<std::size_t, 3> shown{};
  for (const Checked& checked : all)
    for (const Message& m : checked.messages) {
      const bool open = m.masked_by.empty() && m.accepted.empty();
      if (!open || (most && shown[static_cast<std::size_t>(m.severity)]++ >= most)) continue;
      out += line_of(checked, m);
    }
  return without_log_commands(out);
}

}  // namespace ferrule
