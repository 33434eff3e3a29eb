// Worked examples of handbooks and textbooks, each a circuit in published/*.fer. A remark there says which result answers
// which row of tests/reference/worked_examples.csv, and the numbers stand only in that table:
//
//   # row PAS-05 S2: 1A1.travel x 2A1.speed / 1A1.speed     results of the last step
//   # row PMP-06 dP: 0P1.power@fixed - 0P2.power@varied     results of named steps
//   # row VEL-03 D: 1 x sqrt([20 ft/s] / L1.velocity)       a value with its unit
//   # row ACC-06 V_at_max: 0Z2.volume:V_1                   a line of its working
//   # row FRI-20 dp: L1.drop within 0.4 % because ...       where the book rounds what we do not
//
// Rows that no circuit answers stand in tests/reference/not_computed.csv with the reason.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <regex>
#include <set>

#include "compiler/figures/expression.hpp"
#include "figures/book_of.hpp"
#include "support/table.hpp"

using namespace ferrule;
using tests::Open, tests::Row;

namespace {

// A trace of friction and of linear loss makes every state solvable (compiler/hydraulics/body.cpp, resistance.hpp); the rest is rounding.
constexpr double as_exact = 2e-4;

struct Answer {
  std::string row, formula;
  double within = 0;  // 0: as the table says
};

std::vector<Answer> answers_in(const std::string& text) {
  static const std::regex shape("# row (\\S+ \\S+): (.*?)( within ([0-9.]+) % because .*)?");
  std::vector<Answer> out;
  for (const std::string& line : tests::lines_of(text))
    if (std::smatch match; std::regex_match(line, match, shape))
      out.push_back({match[1], match[2], match[4].matched ? std::stod(match[4]) / 100 : 0});
  return out;
}

double value_with_unit(const std::string& text) {
  const std::size_t blank = text.find(' ');
  return std::stod(text) * unit_named(text.substr(blank + 1)).value().factor;
}

double result_of(const Open& open, const std::string& address, const std::string& symbol, const std::string& step) {
  const auto worked = open.result(address, step);
  for (const auto& value : worked.values)
    if (value.symbol == symbol) return value.si.value();
  if (!worked.result().si) throw std::runtime_error(address + ": " + worked.result().why_none);
  return *worked.result().si;
}

// The formula with results and values put in as names, and computed.
double computed(const Open& open, std::string formula, const std::string& last_step) {
  static const std::regex address("((?:[0-9A-Za-z_-]+\\.)+[a-z-]+)(?::([A-Za-z_0-9]+))?(?:@([a-z0-9-]+))?"), literal("\\[([^\\]]+)\\]");
  std::map<std::string, double> values;
  const auto put = [&](const std::smatch& match, double value) {
    const std::string name = "n" + std::to_string(values.size());
    values[name] = value;
    formula = match.prefix().str() + name + match.suffix().str();
  };
  for (std::smatch match; std::regex_search(formula, match, literal);) put(match, value_with_unit(match[1]));
  for (std::smatch match; std::regex_search(formula, match, address);)
    put(match, result_of(open, match[1], match[2], match[3].matched ? match[3].str() : last_step));
  return working::value_of(formula, [&](std::string_view name) { return values.at(std::string(name)); });
}

// What one of the table's SI units is in ours: turns and radians.
double in_radians(const std::string& unit) { return unit == "rev/s" ? 2 * std::numbers::pi : unit == "m3/rev" ? 1 / (2 * std::numbers::pi) : 1; }

void compare(const Row& row, double ours, double within) {
  const double exact = tests::number(row, "exact_value_si") * in_radians(row.at("si_unit"));
  CHECK(ours == Approx(exact).epsilon(within > 0 ? within : as_exact));
  if (row.at("use_as_check") != "yes") return;
  const double published = exact * tests::number(row, "published_value") / tests::number(row, "exact_value");
  CHECK(ours == Approx(published).epsilon(std::max(within, tests::number(row, "suggested_rel_tol") + as_exact)));
}

}  // namespace

TEST_CASE("worked examples come out as published, each as a circuit") {
  std::map<std::string, Row> rows;
  for (const Row& row : tests::table("worked_examples")) rows[row.at("id") + " " + row.at("quantity")] = row;
  REQUIRE(rows.size() == 215);

  std::set<std::string> seen;
  for (const Row& row : tests::table("not_computed"))
    if (row.at("table") == "worked_examples") {
      INFO(row.at("row"));
      CHECK(rows.contains(row.at("row")));
      CHECK(row.at("reason").size() > 20);
      CHECK(seen.insert(row.at("row")).second);
    }
  const std::size_t listed = seen.size();

  for (const std::string& path : tests::files_below("tests/figures/published", ".fer")) {
    INFO(path);
    const std::string text = tests::project_text(path);
    const auto answers = answers_in(text);
    CHECK_FALSE(answers.empty());
    const Open open(text);
    for (const Message& message : open.compilation->messages) {
      INFO(message.sentence);
      CHECK(message.severity != Severity::error);
    }
    REQUIRE(open.compilation->circuit.work.steps.size() > 0);
    const std::string last = open.states.states[open.book->told().back()].name;
    for (const Answer& answer : answers) {
      INFO(answer.row << ": " << answer.formula);
      REQUIRE(rows.contains(answer.row));
      CHECK(seen.insert(answer.row).second);
      double ours = NAN;
      CHECK_NOTHROW(ours = computed(open, answer.formula, last));
      compare(rows.at(answer.row), ours, answer.within);
    }
  }
  for (const auto& [name, row] : rows) {
    INFO(name << " is answered by no circuit of tests/figures/published and not listed in tests/reference/not_computed.csv");
    CHECK(seen.contains(name));
  }
  CHECK(seen.size() - listed >= 170);
}
