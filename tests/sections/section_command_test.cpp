// `ferrule section` from the command line: a page of real circuits, refusals that say what to do.
#include <catch2/catch.hpp>

#include <unistd.h>

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
const std::string squeezer = in_project("samples/bale-squeezer.fer").string();
std::string temporary(const std::string& ending) {
  return (std::filesystem::temp_directory_path() / ("ferrule-section-" + std::to_string(getpid()) + ending)).string();
}
bool has(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("a section names positions, paths and the steps its oil comes from, and repeats its bytes") {
  const std::string path = temporary(".svg");
  REQUIRE(ask({"section", squeezer, "1V1", "--output", path}).code == 0);
  const std::string first = text_of(path);
  for (const char* words : {"P&gt;A  B&gt;T", "0 (rest)", "oil as in step squeeze", "oil as in step open", "1Y1 on", "1Y2 off", "ISO 4413"}) {
    INFO(words);
    CHECK(has(first, words));
  }
  REQUIRE(ask({"section", squeezer, "1V1", "--output", path}).code == 0);
  CHECK(text_of(path) == first);
  std::filesystem::remove(path);
}

TEST_CASE("what has no section is said, and nothing is written") {
  const std::string path = temporary(".pdf");
  const Answer pump = ask({"section", squeezer, "0P1", "--output", path});
  CHECK(pump.code == 2);
  CHECK(has(pump.err, "0P1 has no positions; valves with positions are: 1V1"));
  CHECK(has(ask({"section", squeezer, "1V2", "--output", path}).err, "did you mean 1V1"));
  CHECK(ask({"section", squeezer, "1V1"}).code == 2);
  CHECK(ask({"section", squeezer, "1V1", "--output", "valve.txt"}).code == 2);
  CHECK(ask({"section", "nowhere.fer", "1V1", "--output", path}).code == 3);
  CHECK_FALSE(std::filesystem::exists(path));
  CHECK(ask({"section", squeezer, "1V1", "--output", "/nowhere/valve.pdf"}).code == 4);
}
