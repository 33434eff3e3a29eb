// Circuits of a class against their model: equal in behaviour though different in text, and subtly otherwise.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include "compiler/driver/verb.hpp"
#include "support/files.hpp"

using namespace ferrule;
using namespace ferrule::tests;

namespace {

struct Answer {
  int code;
  std::string out, err;
};
Answer ask(const std::vector<std::string>& words) {
  Talk talk{[] { return std::string(); }, "2026-01-01", 100, 0, false, {}, {}, {}};
  const int code = run(words, talk);
  return {code, talk.out, talk.err};
}

std::string path(const std::string& circuit) { return in_project("tests/marking/" + circuit).string(); }
std::string model_of(const std::string& circuit) { return path(circuit.substr(0, circuit.find('/')) + "/model.fer"); }
bool has(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

std::vector<std::string> parted(const std::string& text, char sign) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find(sign, at), text.size());
    const std::size_t first = text.find_first_not_of(' ', at), last = text.find_last_not_of(' ', end ? end - 1 : 0);
    out.push_back(first < end && last != text.npos ? text.substr(first, last - first + 1) : "");
    at = end + 1;
  }
  return out;
}

int marks_on(const std::string& page) {
  const std::size_t end = page.find(" of 100");
  REQUIRE(end != page.npos);
  return std::stoi(page.substr(page.rfind(' ', end - 1) + 1));
}

int marks(const std::string& circuit) { return marks_on(ask({"mark", model_of(circuit), path(circuit)}).out); }

}  // namespace

TEST_CASE("circuits are marked by what they do, with the reason") {
  std::size_t rows = 0;
  for (const std::string& line : lines_of(project_text("tests/marking/expected.txt"))) {
    if (line.empty() || line.front() == '#') continue;
    const std::vector<std::string> row = parted(line, '|');
    REQUIRE(row.size() == 5);
    const Answer answer = ask({"mark", model_of(row[0]), path(row[0])});
    INFO(row[0] << "\n" << answer.out << answer.err);
    const int got = marks_on(answer.out);
    CHECK(got >= std::stoi(row[1]));
    CHECK(got <= std::stoi(row[2]));
    CHECK(answer.code == (got == 100 ? 0 : 1));
    for (const std::string& words : parted(row[3], ';')) CHECK(has(answer.out, words));
    for (const std::string& words : parted(row[4], ';')) CHECK((words.empty() || !has(answer.out, words)));
    ++rows;
  }
  // Every circuit of the folders is judged.
  CHECK(rows == files_below("tests/marking", ".fer").size() - 2);
}

TEST_CASE("a circuit agrees with itself") {
  for (const std::string& circuit : files_below("samples", ".fer")) {
    if (has(circuit, "pairs")) continue;
    const std::string file = in_project(circuit).string();
    INFO(circuit);
    CHECK(marks_on(ask({"mark", file, file}).out) == 100);
  }
}

TEST_CASE("marks do not rise when a slip is added") {
  const int both = marks("stamp/two-slips.fer");
  CHECK(both <= marks("stamp/closed-centre.fer"));
  CHECK(both <= marks("stamp/relief-low.fer"));
}

TEST_CASE("the page tells no tag and no text of the model") {
  const Answer answer = ask({"mark", path("stamp/hoses-swapped.fer"), path("stamp/other-names.fer")});
  INFO(answer.out);
  for (const char* tag : {"1V1", "1A1", "1Y1", "0V1"}) CHECK_FALSE(has(answer.out, tag));
}

TEST_CASE("the class has a table, one line a student") {
  const Answer answer = ask({"mark", path("stamp/model.fer"), path("stamp/other-names.fer"), path("stamp/closed-centre.fer"), "--table", "-"});
  const std::vector<std::string> lines = lines_of(answer.out.substr(answer.out.find("student,marks")));
  INFO(answer.out);
  REQUIRE(lines.size() >= 3);
  CHECK(has(lines[0], "\"in step \"\"press\"\"\""));
  CHECK(has(lines[1], "other-names.fer\",100,yes"));
  CHECK(has(lines[2], "closed-centre.fer\",9"));
  CHECK(has(lines[2], ",no"));
}

TEST_CASE("a call of mark that cannot be meant is said") {
  CHECK(ask({"mark", path("stamp/model.fer")}).code == 2);
  CHECK(has(ask({"mark", path("stamp/model.fer")}).err, "at least one circuit"));
  CHECK(ask({"mark", path("stamp/model.fer"), path("stamp/model.fer"), "--tolerance", "many"}).code == 2);
  CHECK(ask({"mark", path("stamp/model.fer"), path("stamp/nobody.fer")}).code == 3);
  const Answer unwritable = ask({"mark", path("stamp/model.fer"), path("stamp/mirrored.fer"), "--table", "/nowhere/class.csv"});
  CHECK(unwritable.code == 4);
}
