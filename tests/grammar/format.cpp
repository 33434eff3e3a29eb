// The canonical layout: same tokens, same remarks, nothing moved to another line.
#include <catch2/catch.hpp>

#include <random>

#include "grammar/format.hpp"
#include "grammar/reading.hpp"
#include "grammar/tokens.hpp"
#include "support/files.hpp"

using namespace ferrule;

namespace {

std::string format(const std::string& text) {
  const ReadText read(text);
  const auto out = formatted(read.source(), read.parsed.tree);
  REQUIRE(out);
  return *out;
}

const char* const machine = R"(circuit "Bale squeezer" {"Squeezes  straw.",ambient 20 degC}

valve 1V1 {
  position a   P>A B>T   by solenoid 1Y1 # left
  position 0   P-T       by springs      # rest
}
suction 0Z1--{hose DN 32,length 0.8 m}
-- 0P1.S
)";

}  // namespace

TEST_CASE("a text is laid out the usual way") {
  struct Case { std::string text, expected; };
  const auto [text, expected] = GENERATE(values<Case>({
      {"", ""},
      {"\n\n\n", ""},
      {"\n\na\n\n\n\nb", "a\n\nb\n"},
      {"a   b", "a b\n"},
      {"  a b\r\n\tc\r\n", "a b\nc\n"},
      {"a{b,c}", "a { b, c }\n"},
      {"a {}", "a { }\n"},
      {"a { b ,c , }", "a { b, c, }\n"},
      {"a {\nb\n   c { d }\n}\n", "a {\n  b\n  c { d }\n}\n"},
      {"a {\n b {\nc\n}\n}", "a {\n  b {\n    c\n  }\n}\n"},
      {"a { b {\nc\n} }", "a { b {\n  c\n} }\n"},
      {"a\n{\nb\n}", "a\n{\n  b\n}\n"},
      {"s A--{ hose DN 32 , length 1 m }--B", "s A -- {hose DN 32, length 1 m} -- B\n"},
      {"s A\n-- B\n    -- {hose DN 32,\nlength 1 m} -- C", "s A\n  -- B\n  -- {hose DN 32,\n    length 1 m} -- C\n"},
      {"p P>A  B <> T", "p P>A B <> T\n"},
      {"let a=( b + 2 )*3", "let a=( b + 2 )*3\n"},
      {"x 1  1/4 in, ", "x 1  1/4 in, \n"},
      {"a {\n# one\nb # two\n}\n# three", "a {\n  # one\n  b  # two\n}\n# three\n"},
      {"a {\n  b 1,  # one\n  cc 22 # two\n}", "a {\n  b 1,   # one\n  cc 22  # two\n}\n"},
      {"a {\n  b # one\n  cc 22 # two\n}", "a {\n  b  # one\n  cc 22  # two\n}\n"},
      {"a { x \"two  blanks\" }", "a { x \"two  blanks\" }\n"},
  }));
  INFO(text);
  CHECK(format(text) == expected);
}

TEST_CASE("what stands under one another stays so, and needs no more room than its longest row") {
  CHECK(format("reservoir      0Z1 { volume 63 L }\nelectric-motor 0M1 { power 5.5 kW }\n") ==
        "reservoir      0Z1 { volume 63 L }\nelectric-motor 0M1 { power 5.5 kW }\n");
  CHECK(format("tank        0Z1 { volume 63 L }\nmotor       0M1 { power 5.5 kW }\n") ==
        "tank       0Z1 { volume 63 L }\nmotor      0M1 { power 5.5 kW }\n");
  CHECK(format("fact setting   : pressure\nfact drop        : flow\n") == "fact setting : pressure\nfact drop : flow\n");
  CHECK(format("tank   0Z1\nmotor 0M1\n") == "tank 0Z1\nmotor 0M1\n");
  CHECK(format("valve 1V1 {\nposition a   P>A B>T   by solenoid 1Y1\nposition 0   P-T       by springs\n}\n") ==
        "valve 1V1 {\n  position a   P>A B>T   by solenoid 1Y1\n  position 0   P-T       by springs\n}\n");
}

TEST_CASE("broken statements and kept lines pass through untouched") {
  CHECK(format("a   b\nc   ;  d {\n   e   f\n }\ng   h\n") == "a b\nc   ;  d {\n   e   f\n }\ng h\n");
  CHECK(format("a   {\n   b\n\n\nc   d\n") == "a   {\n   b\n\n\nc   d\n");
  CHECK(format("a   b\n# ferrule: keep\nc   d\n\n\ne    f {\n g }\n# ferrule: end keep\ng   h\n") ==
        "a b\n# ferrule: keep\nc   d\n\n\ne    f {\n g }\n# ferrule: end keep\ng h\n");
  CHECK(format("a {\n# ferrule: keep\n      b     c {\n  d\n}\n") == "a {\n# ferrule: keep\n      b     c {\n  d\n}\n");
}

TEST_CASE("formatting twice is formatting once") {
  const std::string once = format(machine);
  CHECK(format(once) == once);
  CHECK(once.find("  position a   P>A B>T") != std::string::npos);
}

TEST_CASE("every text of the project can be laid out without losing a token") {
  for (const char* folder : {"samples", "stdlib", "tests/circuits"})
    for (const std::string& path : tests::files_below(folder, ".fer")) {
      INFO(path);
      const ReadText read(tests::project_text(path));
      CHECK(formatted(read.source(), read.parsed.tree));
    }
}

TEST_CASE("a remark between any two tokens survives beside its statement") {
  const std::string text = machine;
  for (const Token& token : tokens_of(text)) {
    for (const char* remark : {" # remark\n", "\n# remark\n", "\n\n"}) {
      std::string copy = text;
      copy.insert(token.begin, remark);
      INFO(copy);
      const ReadText read(copy);
      const auto out = formatted(read.source(), read.parsed.tree);
      REQUIRE(out);
      if (read.parsed.messages.empty()) CHECK(ReadText(*out).parsed.tree.comments.size() == read.parsed.tree.comments.size());
    }
  }
}

TEST_CASE("blanks in any number and place come out the same") {
  std::mt19937 dice(5598);
  for (int run = 0; run < 500; ++run) {
    std::string copy;
    for (char c : std::string(machine)) copy += c == ' ' && dice() % 3 == 0 ? std::string(dice() % 4 + 1, ' ') : std::string(1, c);
    const ReadText read(copy);
    INFO(copy);
    REQUIRE(formatted(read.source(), read.parsed.tree));
  }
}

TEST_CASE("spoilt texts are laid out without losing anything either") {
  const std::string text = machine;
  std::mt19937 dice(4413);
  const std::string_view strange[] = {"{", "}", "\"", ",", "--", "\n", "—", ";", "#", "  ", "\t", "1,5", "# ferrule: keep\n"};
  for (int run = 0; run < 2000; ++run) {
    std::string copy = text;
    for (unsigned change = dice() % 4 + 1; change > 0; --change) {
      const std::size_t at = dice() % copy.size();
      if (dice() % 3 == 0) copy.erase(at, dice() % 5);
      else copy.insert(at, strange[dice() % std::size(strange)]);
      if (copy.empty()) copy = "a";
    }
    const ReadText read(copy);
    INFO(copy);
    CHECK(formatted(read.source(), read.parsed.tree));
  }
}
