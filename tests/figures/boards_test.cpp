// Every result of every circuit has its working: a number that its formula gives, or a reason why there is none.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "compiler/figures/board.hpp"
#include "compiler/figures/expression.hpp"
#include "compiler/language/results.hpp"
#include "figures/book_of.hpp"

using namespace ferrule;
using tests::Open;

namespace {

double of(const char* formula) {
  return working::value_of(formula, [](std::string_view name) { return name == "a" ? 2.0 : name == "b_1" ? 3.0 : std::nan(""); });
}

double per_turn(Dimension dimension) { return std::pow(2 * std::numbers::pi, -dimension.angle); }

// The formula of a line from the lines before it, by the rule that angles count in turns.
double recomputed(const working::Worked& worked, const working::Value& value) {
  const double in_turns = working::value_of(value.formula, [&](std::string_view name) {
    for (const working::Value& line : worked.values)
      if (line.symbol == name) return line.si.value_or(std::nan("")) * per_turn(line.dimension);
    return std::nan("");
  });
  return in_turns / per_turn(value.dimension);
}

}  // namespace

TEST_CASE("formulas are read as they are written") {
  CHECK(of("a + b_1 x a") == 8);
  CHECK(of("- a x b_1") == -6);
  CHECK(of("(a + b_1)^2 / 5") == 5);
  CHECK(of("pi / 4 x a^2") == Approx(std::numbers::pi));
  CHECK(of("abs(- a) + sqrt(9) + min(a, b_1) + max(a, b_1)") == 10);
  CHECK(std::isnan(of("a + c")));
  CHECK(std::isnan(of("a +")));
  CHECK(std::isnan(of("(a")));
  CHECK(working::names_in("F = eta x (p_A x A_A - p_B x A_B) - F + min(eta, pi)") == std::vector<std::string>{"F", "eta", "p_A", "A_A", "p_B", "A_B"});
}

TEST_CASE("every result of every circuit has a working") {
  int numbers = 0, reasons = 0;
  std::map<std::pair<working::Kind, std::string_view>, bool> computed;  // every kind of result: has any circuit a number for it
  for (const auto& path : tests::all_circuits()) {
    const Open open(tests::contents_of(path));
    std::vector<working::Subject> subjects = open.book->subjects();
    for (const char* where : {"cycle", "oil", "pressure", "return", "suction", "working"})
      if (const auto one = open.book->subject(where)) subjects.push_back(*one);
    for (const Step& step : open.compilation->circuit.work.steps) subjects.push_back(*open.book->subject(step.name));
    for (std::size_t state : open.book->told())
      for (const working::Subject& subject : subjects)
        for (std::string_view what : open.book->words_for(subject.kind)) {
          const working::Worked worked = open.book->result(subject, what, state);
          computed[{subject.kind, what}] |= worked.values.back().si.has_value();
          INFO(path.filename() << " " << worked.address << " in " << worked.state);
          REQUIRE(!worked.values.empty());
          const working::Value& result = worked.result();
          CHECK(result.si.has_value() == result.why_none.empty());
          if (!result.si) {
            ++reasons;
            continue;
          }
          ++numbers;
          CHECK(std::isfinite(*result.si));
          CHECK((!result.formula.empty() || !result.origin.empty()));
          for (const working::Value& line : worked.values)
            if (!line.formula.empty() && line.si) CHECK(recomputed(worked, line) == Approx(*line.si).epsilon(1e-12).margin(1e-15));
          CHECK(working::on_a_board(worked).find(worked.address) == 0);
        }
  }
  CHECK(numbers > 3000);
  CHECK(reasons > 100);
  for (const auto& [kind_of_result, has_number] : computed) {
    INFO("kind " << static_cast<int>(kind_of_result.first) << ", " << kind_of_result.second);
    CHECK(has_number);
  }
  for (const ResultWord& word : result_words()) {
    INFO(word.word);
    CHECK(std::any_of(computed.begin(), computed.end(), [&](const auto& one) { return one.first.second == word.word; }));
  }
}

TEST_CASE("the balance along the way adds up") {
  int ways = 0;
  for (const auto& path : tests::all_circuits()) {
    const Open open(tests::contents_of(path));
    for (std::size_t state : open.book->told())
      for (const working::Subject& subject : open.book->subjects())
        for (const working::Way& way : open.book->result(subject, "drop", state).ways) {
          double sum = way.from;
          for (const working::Loss& loss : way.losses) sum -= loss.pascal;
          INFO(path.filename() << " " << subject.where);
          CHECK(sum == Approx(way.to).margin(1e-3));
          CHECK_FALSE(way.begins.empty());
          CHECK_FALSE(way.ends.empty());
          ++ways;
        }
  }
  CHECK(ways > 100);
}

TEST_CASE("a board reads as a teacher writes it") {
  const Open open(tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/samples/bale-squeezer.fer"));
  const std::string board = working::on_a_board(open.result("1A1.force", "press"));
  for (const char* line : {"1A1.force during press", "= p_A x A_A - p_B x A_B - F_f", "= pi / 4 x (63 mm)^2", "= 159 bar x 31.17 cm2 - 0 bar x 20.99 cm2 - 500 N",
                           "1A1.force = 49.06 kN"})
    CHECK(board.find(line) != std::string::npos);
  const std::string speed = working::on_a_board(open.result("1A1.speed", "squeeze"));
  for (const char* line : {"0P1.P", "L2 (tube 16 x 2 mm)", "1V1 P>A", "L3 (hose DN 12)", "0Z1"}) CHECK(speed.find(line) != std::string::npos);
}
