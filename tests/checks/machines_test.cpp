// Eight whole machines: what is wrong with them is found, what is right is not accused (tests/reference/machine_findings.csv).
#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <sstream>

#include "checks/annotated.hpp"
#include "checks/machinery/rule.hpp"
#include "support/files.hpp"
#include "compiler/language/faults.hpp"

using namespace ferrule;

namespace {

constexpr std::string_view later = "later ";

struct Row {
  std::string machine, verdict, rule, where, why;
  bool is_later() const { return rule.starts_with(later); }
  std::string name() const { return is_later() ? rule.substr(later.size()) : rule; }
  bool names(const std::string& tag) const { return (" " + where + " ").find(" " + tag + " ") != std::string::npos; }
};

std::vector<Row> rows() {
  std::vector<Row> all;
  std::istringstream table(tests::project_text("tests/reference/machine_findings.csv"));
  for (std::string line; std::getline(table, line);) {
    if (line.starts_with("#") || line.starts_with("machine;")) continue;
    Row row;
    std::istringstream cells(line);
    for (std::string* cell : {&row.machine, &row.verdict, &row.rule, &row.where, &row.why}) std::getline(cells, *cell, ';');
    all.push_back(row);
  }
  return all;
}

const Messages& findings_of(const std::string& machine) {
  static std::map<std::string, Messages> known;
  const auto [place, fresh] = known.try_emplace(machine);
  const std::string path = "tests/briefs/" + machine + ".fer";
  if (fresh) place->second = test::found_in(path, tests::project_text(path)).messages;
  return place->second;
}

bool is_built(const std::string& rule) {
  const auto named = [&](const auto* one) { return one->name == rule; };
  const auto called = [&](const auto* one) { return one->rule == rule; };
  const auto faults = text_faults();
  return std::any_of(rules().begin(), rules().end(), named) || std::any_of(faults.begin(), faults.end(), called);
}

bool is_found(const Row& row) {
  const Messages& found = findings_of(row.machine);
  return std::any_of(found.begin(), found.end(), [&](const Message& m) { return m.rule == row.name() && row.names(m.subject); });
}

}  // namespace

TEST_CASE("a finding that waits for its rule waits no longer than the rule") {
  for (const Row& row : rows()) {
    INFO(row.machine << ": " << row.rule << " on " << row.where);
    CHECK(is_built(row.name()) != row.is_later());
  }
}

TEST_CASE("whole machines: faults are found, and nothing that is right is accused") {
  std::size_t expected = 0, forbidden = 0;
  for (const Row& row : rows()) {
    if (row.is_later() || row.verdict == "tolerated") continue;
    INFO(row.machine << ": " << row.rule << " on " << row.where << " is " << row.verdict << ", for " << row.why);
    CHECK(is_found(row) == (row.verdict == "expected"));
    ++(row.verdict == "expected" ? expected : forbidden);
  }
  CHECK(expected >= 2);
  CHECK(forbidden >= 14);
}

TEST_CASE("machines are silent at error and warning level but for what is really wrong") {
  const std::vector<Row> table = rows();
  for (const Row& machine : table)
    for (const Message& m : findings_of(machine.machine)) {
      if (m.severity == Severity::advice || !m.masked_by.empty()) continue;
      INFO(machine.machine << ": " << m.rule << " " << m.subject << ": " << m.sentence);
      CHECK(std::any_of(table.begin(), table.end(), [&](const Row& row) {
        return row.machine == machine.machine && row.verdict != "forbidden" && row.name() == m.rule && row.names(m.subject);
      }));
    }
}
