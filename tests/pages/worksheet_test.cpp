// Worksheets and their keys: blanks that are blank and large enough, answers that another computation agrees with.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "checks/marking/record.hpp"
#include "compiler/driver/variants.hpp"
#include "compiler/figures/board.hpp"
#include "figures/book_of.hpp"
#include "render/worksheet/mistakes.hpp"
#include "render/worksheet/question.hpp"
#include "support/files.hpp"

using namespace ferrule;
using tests::Open;

namespace {

// A lesson on a text, with all that it points to.
struct Class {
  Open open;
  Phrases say;
  pages::Paper paper = *pages::paper_named("a4");
  handout::Lesson lesson;
  std::vector<std::string> notes;
  explicit Class(const std::string& text, const std::string& language = "en")
      : open(text), say(language), lesson{*open.compilation, *open.book, say, paper, "class", {}, "2026-01-01"} {}
  worksheet::Questions questions(std::uint32_t seed = 0) { return worksheet::questions_on(lesson, seed, notes); }
};

std::vector<std::string> lessons() {
  std::vector<std::string> files = tests::files_below("samples/lessons", ".fer");
  REQUIRE(files.size() == 3);
  for (const char* more : {"samples/bale-squeezer.fer", "samples/boat-winch.fer", "samples/vice-clamp.fer"}) files.push_back(more);
  return files;
}

const pages::Table* table_in(const std::vector<pages::Block>& blocks) {
  for (const pages::Block& block : blocks)
    if (const auto* table = std::get_if<pages::Table>(&block)) return table;
  return nullptr;
}

std::string as_text(const std::vector<pages::Block>& blocks) {
  std::string text;
  for (const pages::Block& block : blocks) {
    if (const auto* paragraph = std::get_if<pages::Paragraph>(&block)) text += paragraph->text + "\n";
    if (const auto* table = std::get_if<pages::Table>(&block))
      for (const auto& row : table->rows)
        for (const pages::Cell& cell : row) text += cell.text + "\n";
  }
  return text;
}

const worksheet::Question& question_with(const worksheet::Questions& all, const std::string& words) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const worksheet::Question& q) { return q.text.find(words) != q.text.npos; });
  if (found == all.end()) throw std::runtime_error("no question says " + words);
  return *found;
}

}  // namespace

TEST_CASE("blanks are empty, at least 8 mm high and 25 mm wide, and every question has marks and a key") {
  for (const std::string& file : lessons())
    for (std::uint32_t seed = 0; seed < 5; ++seed) {
      Class one(tests::project_text(file));
      const worksheet::Questions questions = one.questions(seed);
      CHECK(questions.size() >= 6);
      for (const worksheet::Question& question : questions) {
        INFO(file << " seed " << seed << ": " << question.text);
        CHECK(question.marks > 0);
        CHECK_FALSE(question.asked.empty());
        CHECK_FALSE(question.solved.empty());
        const pages::Table *asked = table_in(question.asked), *solved = table_in(question.solved);
        if (!asked || !solved || asked->columns.size() != solved->columns.size()) continue;
        for (std::size_t r = 0; r < asked->rows.size(); ++r)
          for (std::size_t c = 0; c < asked->columns.size(); ++c) {
            if (asked->rows[r][c].text == solved->rows[r][c].text) continue;
            CHECK(asked->rows[r][c].text.empty());
            CHECK(asked->columns[c].least >= 25);
            CHECK(asked->least_row >= 8);
          }
      }
    }
}

TEST_CASE("the worksheet tells no result that the key computes") {
  for (const std::string& file : lessons()) {
    Class one(tests::project_text(file));
    const worksheet::Questions questions = one.questions(3);
    for (const worksheet::Question& question : questions) {
      if (question.text.rfind("Compute", 0) != 0) continue;
      INFO(file << ": " << question.text);
      const auto& working = std::get<pages::Table>(question.solved.back());
      const std::string result = working.rows.back().back().text;
      CHECK_FALSE(result.empty());
      CHECK(as_text(question.asked).find(result + "\n") == std::string::npos);
    }
  }
}

TEST_CASE("the same seed asks the same, another seed something else") {
  Class a(tests::project_text("samples/lessons/02-clamp-and-punch.fer")), b(tests::project_text("samples/lessons/02-clamp-and-punch.fer"));
  const auto pdf = [](Class& one, std::uint32_t seed) {
    const pages::Document document = worksheet::worksheet(one.lesson, one.questions(seed), one.notes);
    return pages::pdf_of(document, pages::pages_of(document, one.paper), 0).bytes;
  };
  CHECK(pdf(a, 7) == pdf(b, 7));
  std::set<std::string> texts;
  for (std::uint32_t seed = 0; seed < 10; ++seed) {
    std::string text;
    for (const worksheet::Question& question : a.questions(seed)) text += question.text + as_text(question.asked);
    texts.insert(text);
  }
  CHECK(texts.size() >= 8);
}

// Marking compares circuits by records of its own; the key's motions must be the same.
TEST_CASE("what moves by the key is what moves by the record that marking makes") {
  for (const std::string& file : lessons()) {
    Class one(tests::project_text(file));
    const worksheet::Questions questions = one.questions();
    const pages::Table& table = *table_in(question_with(questions, "What does each actuator do").solved);
    const marking::Record record = marking::record_of(one.lesson.circuit());
    const std::map<marking::Moves, std::string> words{{marking::Moves::out, "out"},           {marking::Moves::in, "in"},
                                                      {marking::Moves::turns_ab, "turns forward"}, {marking::Moves::turns_ba, "turns backward"},
                                                      {marking::Moves::stands, "stands"},     {marking::Moves::free, "stands"}};
    std::size_t compared = 0;
    for (const auto& row : table.rows)
      for (const marking::StateRecord& state : record.states) {
        const auto index = one.open.book->state_named(state.name);
        if (!state.settled || !index || handout::name_of(one.lesson, one.open.book->states[*index]) != row.front().text || state.state_class == StateClass::late) continue;
        for (std::size_t a = 0; a < record.actuators.size(); ++a) {
          const std::string& tag = one.lesson.circuit().parts[record.actuators[a]].tag;
          const auto column = std::find_if(table.columns.begin(), table.columns.end(), [&](const pages::Column& c) { return c.head == tag; });
          if (column == table.columns.end()) continue;
          INFO(file << " " << state.name << " " << tag);
          CHECK(row[static_cast<std::size_t>(column - table.columns.begin())].text == words.at(state.actuators[a].moves));
          ++compared;
        }
      }
    INFO(file);
    CHECK(compared >= 2);
  }
}

// By the position rows of the text: step `clamp` works 1Y1, so P goes to A and B to T. Line conditions as common practice names them.
TEST_CASE("letters beside the lines are those that one finds with a pencil") {
  Class one(tests::project_text("samples/lessons/02-clamp-and-punch.fer"));
  std::uint32_t seed = 0;
  worksheet::Questions questions = one.questions(seed);
  while (question_with(questions, "Write beside each line").text.rfind("Step 1", 0) != 0) questions = one.questions(++seed);
  const pages::Table& table = *table_in(question_with(questions, "Write beside each line").solved);
  std::map<std::string, std::string> letters;
  for (const auto& row : table.rows) letters[row[1].text.substr(0, row[1].text.find(' '))] = row[2].text;
  CHECK(letters.at("0P1.P") == "P");
  CHECK(letters.at("1V1.A") == "P");
  CHECK(letters.at("1V1.B") == "R");
  CHECK(letters.at("1V1.T") == "R");
  CHECK(letters.at("0Z1.1") == "S");
}

// Arithmetic: 63/36 mm at 160 bar pulls 33.6 kN, and 49.9 kN when the ring area is forgotten; 80 cm3/rev at 100 bar give
// 127 N m, and 800 N m when 2 pi is left out (F = p A; T = dp V / 2 pi, ISO 4391).
TEST_CASE("usual mistakes lead to the numbers that the trade knows") {
  using working::Value;
  working::Worked pull;
  pull.values = {Value{"p_B", "", dimension::pressure, 160e5, "", "", "given", ""}, Value{"d", "", dimension::length, 0.063, "", "", "given", ""},
                 Value{"d_r", "", dimension::length, 0.036, "", "", "given", ""}, Value{"A_B", "", dimension::area, 2.0994e-3, "", "pi / 4 x (d^2 - d_r^2)", "", ""},
                 Value{"F", "", dimension::force, 33590.0, "", "p_B x A_B", "", ""}};
  const auto of_pull = worksheet::mistakes_in(pull, 0.05);
  REQUIRE(of_pull.size() == 1);
  CHECK(of_pull[0].phrase == "wrong.ring-area");
  CHECK(*of_pull[0].answer.si == Approx(49.9e3).epsilon(2e-3));

  working::Worked turn;
  turn.values = {Value{"p_A", "", dimension::pressure, 100e5, "", "", "given", ""}, Value{"p_B", "", dimension::pressure, 0.0, "", "", "given", ""},
                 Value{"D", "", dimension::displacement, 80e-6 / (2 * std::numbers::pi), "", "", "given", ""}, Value{"eta_hm", "", dimension::none, 1.0, "", "", "given", ""},
                 Value{"T", "", dimension::torque, 127.3, "", "(p_A - p_B) x D x eta_hm / (2 x pi)", "", ""}};
  CHECK(*working::by_formula(turn, turn.result()) == Approx(127.3).epsilon(1e-3));
  const auto of_turn = worksheet::mistakes_in(turn, 0.05);
  REQUIRE(of_turn.size() == 1);
  CHECK(of_turn[0].phrase == "wrong.two-pi");
  CHECK(*of_turn[0].answer.si == Approx(800).epsilon(1e-3));
}

TEST_CASE("questions that the text asks get their key, and what has none is noted") {
  Class one(tests::project_text("samples/lessons/01-platform.fer") + R"(
ask "How fast does the platform come down?" { result 1A1.speed during lower, tolerance 10 %, marks 3 }
ask "How much goes over the relief valve?" { result 0V1.flow during raise }
ask "What holds the load?" { answer "The seat of 1V1 and the check valve 0V2." }
ask "Which number is this?" { result 1A1.torque during lower }
)");
  const worksheet::Questions questions = one.questions();
  const worksheet::Question& speed = question_with(questions, "How fast does the platform");
  CHECK(speed.marks == 3);
  CHECK(as_text(speed.solved).find(working::shown(one.open.result("1A1.speed", "lower").result())) != std::string::npos);
  CHECK(as_text(speed.working).find("10 %") != std::string::npos);
  CHECK(as_text(question_with(questions, "over the relief").solved).find(working::shown(one.open.result("0V1.flow", "raise").result())) != std::string::npos);
  CHECK(as_text(question_with(questions, "What holds").solved).find("seat of 1V1") != std::string::npos);
  REQUIRE(one.notes.size() == 1);
  CHECK(one.notes[0].find("Which number is this?") != std::string::npos);
}

TEST_CASE("a German worksheet is German") {
  Class one(tests::project_text("samples/lessons/03-mixer.fer"), "de");
  for (const worksheet::Question& question : one.questions()) {
    INFO(question.text);
    for (const char* english : {"Name the", "Write ", "Compute", "Draw", "Count"}) CHECK(question.text.find(english) == std::string::npos);
  }
}

TEST_CASE("variants do the same with other values, the same seed gives the same, and a key fits its variant") {
  Talk talk{[] { return std::string(); }, "2026-01-01", 100, 0, false, {}, {}, {}};
  for (const char* file : {"samples/lessons/01-platform.fer", "samples/lessons/02-clamp-and-punch.fer", "samples/lessons/03-mixer.fer"}) {
    const Compiled model = compiled(tests::in_project(file).string(), talk);
    std::string why;
    const std::vector<Variant> variants = variants_of(model, 12, 7, "2026-01-01", why), again = variants_of(model, 12, 7, "2026-01-01", why);
    INFO(file << " " << why);
    REQUIRE(variants.size() == 12);
    REQUIRE(again.size() == 12);
    for (std::size_t i = 0; i < variants.size(); ++i) {
      CHECK(judged(variants[i].compiled, "2026-01-01").messages.size() <= judged(model, "2026-01-01").messages.size());
      bool differs = i == 0;
      for (std::size_t k = 0; k < variants[i].values.size(); ++k) {
        const double now = variants[i].values[k].second.si;
        CHECK(now == again[i].values[k].second.si);
        const Variation& variation = model.compilation->circuit.variations[k];
        CHECK(now >= variation.least.si * (1 - 1e-12));
        CHECK(now <= variation.most.si * (1 + 1e-12));
        const double steps = (now - variation.least.si) / variation.step.si;
        CHECK(steps == Approx(std::round(steps)).margin(1e-6));
        if (i > 0) differs = differs || std::fabs(now - variants[i - 1].values[k].second.si) > 0.05 * std::fabs(variants[i - 1].values[k].second.si);
      }
      CHECK(differs);
      const Computed known = computed(variants[i].compiled.compilation->circuit);
      for (const std::size_t state : known.book->told()) CHECK(known.book->point(state).settled);
    }
  }
}

// By hand: F / A carries the load, so the pressure under the plunger follows the weight of the variant (friction 0.2 kN left aside at rest).
TEST_CASE("the load of a variant is the load that its key computes with") {
  Talk talk{[] { return std::string(); }, "2026-01-01", 100, 0, false, {}, {}, {}};
  const Compiled model = compiled(tests::in_project("samples/lessons/01-platform.fer").string(), talk);
  std::string why;
  for (const Variant& variant : variants_of(model, 4, 3, "2026-01-01", why)) {
    const Computed known = computed(variant.compiled.compilation->circuit);
    const auto hold = known.book->state_named("hold");
    const double pressure = *known.book->result(*known.book->subject("1A1.A", "pressure"), "pressure", *hold).result().si;
    CHECK(pressure == Approx(variant.values[0].second.si / (std::numbers::pi / 4 * 0.05 * 0.05)).epsilon(1e-3));
  }
}

TEST_CASE("what cannot be varied is told with what to write") {
  Talk talk{[] { return std::string(); }, "2026-01-01", 100, 0, false, {}, {}, {}};
  const Compiled model = compiled(tests::in_project("samples/bale-squeezer.fer").string(), talk);
  std::string why;
  CHECK(variants_of(model, 3, 0, "2026-01-01", why).empty());
  CHECK(why.find("vary load from") != std::string::npos);
}
