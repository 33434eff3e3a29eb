// The examples of LANGUAGE.md are texts of the language, laid out the usual way.
#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

#include "grammar/format.hpp"
#include "grammar/reading.hpp"

using namespace ferrule;

TEST_CASE("every example of the reference is read without a message") {
  std::ifstream file(FERRULE_SOURCE_DIR "/grammar/LANGUAGE.md");
  std::stringstream whole;
  whole << file.rdbuf();
  const std::string page = whole.str();
  int examples = 0;
  for (std::size_t at = page.find("```fer\n"); at != std::string::npos; at = page.find("```fer\n", at + 1)) {
    const std::size_t begin = at + 7;
    const std::string example = page.substr(begin, page.find("```", begin) - begin);
    INFO(example);
    const ReadText read(example);
    CHECK(faults(read) == "");
    CHECK(formatted(read.source(), read.parsed.tree) == example);
    ++examples;
  }
  CHECK(examples > 20);
}
