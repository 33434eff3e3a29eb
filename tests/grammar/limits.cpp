// Hostile and broken files: one message, bounded memory, no crash (diagnostics: limits of the reader).
#include <catch2/catch.hpp>

#include <random>

#include "grammar/reading.hpp"

using namespace ferrule;

namespace {

const char* const machine = R"(# Bale squeezer, an invented machine
circuit "Bale squeezer" { "Squeezes loose straw.", ambient 20 degC }
reservoir 0Z1 { volume 63 L, wetted-area 1.1 m2 }
valve 1V1 {
  position a   P>A B>T   by solenoid 1Y1
  position 0   P-T       by springs     # others blocked
  drop 5 bar at 40 L/min
}
suction 0Z1 -- {hose DN 32, length 0.8 m}
  -- 0P1.S
cycle {
  step squeeze { 1Y1 on, 1A1 extends 380 mm against 25 kN }
  step waiting { 1A1 stands retracted, for 20 s }
}
require squeeze.time at most 6 s
accept tank-too-small on 0Z1 because "runs four hours a day" { date 2026-03-01 }
)";

bool is_whole(const Tree& tree) {
  for (const Item& item : tree.items)
    if (item.count == 0 || item.first + item.count > tree.terms.size()) return false;
  for (const Block& block : tree.blocks)
    if (block.first + block.count > tree.items.size()) return false;
  return true;
}

std::string repeated(std::string_view part, std::size_t times) {
  std::string text;
  for (std::size_t i = 0; i < times; ++i) text += part;
  return text;
}

}  // namespace

TEST_CASE("a file that is no text gets one message and an empty tree") {
  struct Case { std::string text, expected; };
  const auto [text, expected] = GENERATE(values<Case>({
      {std::string("a\nb\0c\xFF", 6), "2:2 not-text\n"},
      {std::string("\xFF\xFE" "a\0b\0", 6), "1:4 not-text\n"},
      {"a\nb \xB0 C\n", "2:3 not-utf-8\n"},
      {"a \xC0\xAF", "1:3 not-utf-8\n"},
      {"a \xED\xA0\x80", "1:3 not-utf-8\n"},
      {"a \xE2\x82", "1:3 not-utf-8\n"},
  }));
  const ReadText read(text);
  CHECK(faults(read) == expected);
  CHECK(read.parsed.refused);
  CHECK(shape(read.parsed.tree) == "");
}

TEST_CASE("4 MiB are read, one byte more is not") {
  const std::size_t most = 4u << 20;
  std::string text = repeated("gauge 0Z4 { range 0 to 250 bar }\n", most / 33);
  text.resize(most, '\n');
  CHECK_FALSE(ReadText(text).parsed.refused);
  const ReadText more(text + "\n");
  CHECK(more.parsed.messages.size() == 1);
  CHECK(more.parsed.messages[0].rule == "file-too-big");
}

TEST_CASE("128 levels are read, 129 and a million are refused at the brace that is too much") {
  CHECK(faults(ReadText(repeated("a{", 128) + repeated("}", 128))) == "");
  CHECK(faults(ReadText(repeated("a{", 129) + repeated("}", 129))) == "1:258 nested-too-deep\n");
  CHECK(faults(ReadText(repeated("{", 1'000'000))) == "1:129 nested-too-deep\n");
  CHECK(ReadText(repeated("}", 1'000'000)).parsed.messages.size() == 1);
  CHECK(ReadText(repeated("{}", 200'000) + "}").parsed.messages.size() == 1);
  CHECK(ReadText(repeated("(", 200'000)).parsed.messages.empty());
}

TEST_CASE("a file of nothing but faults ends with one message that says so") {
  const ReadText read(repeated("; a\n", 100'000));
  CHECK(read.parsed.messages.size() == 1000);
  CHECK(read.parsed.messages.back().rule == "too-many-faults");
}

TEST_CASE("time stays linear on texts made to hurt") {
  for (const char* part : {"\n", "a\n\n", "a\n#\n", "{}\n", "a {\n", "\"", "\" ", "a,", "-", "--\n", "1 ", "1 1 ", "a.", "/", " ", "}\n ", "a\n  b {\n"})
    CHECK(is_whole(ReadText(repeated(part, 200'000)).parsed.tree));
}

TEST_CASE("every beginning of a text is read without harm") {
  const std::string text = machine;
  for (std::size_t end = 0; end <= text.size(); ++end) {
    const ReadText read(text.substr(0, end));
    REQUIRE(is_whole(read.parsed.tree));
    CHECK(read.parsed.messages.size() <= 2);
  }
}

TEST_CASE("two thousand spoilt copies of a text are read without harm") {
  const std::string text = machine;
  const std::string_view strange[] = {"{", "}", "\"", ",", "--", "\n", "\xE2\x80\x94", "\xF0\x9F\x92\xA7", "\x01", "(", ";", "#", " ", "1,5", "3/8\""};
  std::mt19937 dice(1219);
  for (int run = 0; run < 2000; ++run) {
    std::string copy = text;
    for (unsigned change = dice() % 4 + 1; change > 0; --change) {
      const std::size_t at = dice() % copy.size();
      if (dice() % 2) copy.erase(at, dice() % 8);
      else copy.insert(at, strange[dice() % std::size(strange)]);
      if (copy.empty()) copy = "a";
    }
    const ReadText read(copy);
    REQUIRE(is_whole(read.parsed.tree));
  }
}

TEST_CASE("one byte dropped or doubled gives three messages at most, and mostly one or none") {
  const std::string text = machine;
  int more_than_one = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    std::string shorter = text, longer = text;
    shorter.erase(at, 1);
    longer.insert(at, 1, text[at]);
    for (const std::string& copy : {shorter, longer}) {
      const ReadText read(copy);
      INFO(copy);
      CHECK(read.parsed.messages.size() <= 3);
      more_than_one += read.parsed.messages.size() > 1;
    }
  }
  CHECK(more_than_one <= static_cast<int>(text.size() * 2 / 20));
}
