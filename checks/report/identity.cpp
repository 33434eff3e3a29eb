#include <map>

#include "checks/report/report.hpp"
#include "checks/report/sha256.hpp"

namespace ferrule {
namespace {

// With its length in front, so that no two lists of fields run together to the same bytes.
void add_field(std::string& to, std::string_view field) {
  to += std::to_string(field.size());
  to += ':';
  to += field;
}

}  // namespace

// No path, line, column, number, wording or neighbour enters it.
std::string identity_of(const Message& message, const std::string& circuit, std::size_t ordinal) {
  const std::string_view subject = message.subject;
  const std::size_t dot = subject.rfind('.');
  std::string fields;
  add_field(fields, message.code);
  add_field(fields, circuit);
  add_field(fields, dot == std::string::npos ? "" : subject.substr(0, dot));
  add_field(fields, !message.known_by.empty() ? message.known_by : dot == std::string::npos ? subject : subject.substr(dot + 1));
  add_field(fields, message.cause);
  add_field(fields, message.state_class);
  add_field(fields, std::to_string(ordinal));
  return sha256(fields).substr(0, 32);
}

std::vector<std::string> identities_of(const Checked& checked) {
  std::map<std::string, std::size_t> seen;
  std::vector<std::string> out;
  for (const Message& m : checked.messages)
    out.push_back(identity_of(m, checked.circuit, seen[identity_of(m, checked.circuit, 0)]++));
  return out;
}

}  // namespace ferrule
