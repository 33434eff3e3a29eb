// The examples of LANGUAGE.md are texts of the language, laid out the usual way. What they mean is tested in tests/checks.
#include <catch2/catch.hpp>

#include "grammar/format.hpp"
#include "grammar/reading.hpp"
#include "support/files.hpp"

using namespace ferrule;

TEST_CASE("every right example of the reference is laid out the usual way") {
  const std::string page = tests::project_text("grammar/LANGUAGE.md");
  int examples = 0;
  for (std::size_t at = page.find("```fer"); at != std::string::npos; at = page.find("```fer", at + 1)) {
    const std::size_t begin = page.find('\n', at) + 1;
    if (page.compare(at, 12, "```fer wrong") == 0) continue;
    const std::string example = page.substr(begin, page.find("```", begin) - begin);
    INFO(example);
    const ReadText read(example);
    CHECK(faults(read) == "");
    CHECK(formatted(read.source(), read.parsed.tree) == example);
    ++examples;
  }
  CHECK(examples > 20);
}
