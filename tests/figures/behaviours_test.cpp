// What teaching says of circuits, each a circuit in the language: behaviours/*.fer state the numbers as `require`, with the working and the
// source above them. "# says: WORDS" are words that the printed results must hold. bad/*.fer are texts and machines that cannot work, with
// the exit code ("# code: 1") and the words of the message.
#include <catch2/catch.hpp>

#include "compiler/driver/verb.hpp"
#include "figures/book_of.hpp"

using namespace ferrule;

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> circuits_in(const std::string& folder) {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(std::string(FERRULE_SOURCE_DIR) + "/tests/figures/" + folder))
    if (entry.path().extension() == ".fer") out.push_back(entry.path());
  std::sort(out.begin(), out.end());
  return out;
}

// What stands behind a word in the comments of a circuit: {"void"} for "# says: void".
std::vector<std::string> told_behind(const std::string& word, const std::string& text) {
  std::vector<std::string> out;
  std::istringstream lines(text);
  const std::string start = "# " + word + ": ";
  for (std::string line; std::getline(lines, line);)
    if (line.rfind(start, 0) == 0) out.push_back(line.substr(start.size()));
  return out;
}

struct Answer {
  int code;
  std::string all;
};
Answer solved(const fs::path& path) {
  Talk talk{[] { return std::string(); }, "2026-01-01", 100, 0, false, {}, {}, {}};
  const int code = run({"solve", path.string()}, talk);
  return {code, talk.out + talk.err};
}

double power(const std::string& centre) {
  const tests::Open open(tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/tests/figures/behaviours/" + centre + "-centre-idles.fer"));
  return open.si("0P1.power", "waiting");
}

}  // namespace

TEST_CASE("circuits behave as teaching says") {
  const auto paths = circuits_in("behaviours");
  CHECK(paths.size() >= 20);
  for (const fs::path& path : paths) {
    const std::string text = tests::contents_of(path);
    const Answer answer = solved(path);
    INFO(path.filename() << "\n" << answer.all);
    CHECK(answer.code == 0);
    CHECK(answer.all.find("error") == std::string::npos);
    const auto words = told_behind("says", text);
    CHECK((!words.empty() || answer.all.find("  met  ") != std::string::npos));
    for (const std::string& said : words) CHECK(answer.all.find(said) != std::string::npos);
  }
}

// Common practice, and the reason why centres are taught: 160 bar over the relief valve, 3 bar through the valve.
TEST_CASE("a closed centre idles dearly, an open and a tandem centre cheaply") {
  CHECK(power("closed") == Approx(160e5 * 20e-3 / 60).epsilon(1e-4));
  CHECK(power("open") == Approx(3e5 * 20e-3 / 60).epsilon(1e-4));
  CHECK(power("tandem") == Approx(power("open")).epsilon(1e-4));
}

TEST_CASE("what cannot work is told so, and gives no number") {
  const auto paths = circuits_in("bad");
  CHECK(paths.size() >= 10);
  for (const fs::path& path : paths) {
    const std::string text = tests::contents_of(path);
    const Answer answer = solved(path);
    INFO(path.filename() << "\n" << answer.all);
    REQUIRE(told_behind("code", text).size() == 1);
    CHECK(std::to_string(answer.code) == told_behind("code", text)[0]);
    const auto words = told_behind("says", text);
    CHECK_FALSE(words.empty());
    for (const std::string& said : words) CHECK(answer.all.find(said) != std::string::npos);
    for (const char* never : {"nan", "inf ", "1e+3"}) CHECK(answer.all.find(never) == std::string::npos);
  }
}
