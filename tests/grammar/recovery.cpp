// One slip of the pen, one message, at the right place; the rest of the text is read as it was meant.
#include <catch2/catch.hpp>

#include <set>

#include "grammar/faults.hpp"
#include "grammar/reading.hpp"

using namespace ferrule;

namespace {

struct Slip {
  std::string text, expected;
};

void check(const Slip& slip) {
  INFO(slip.text);
  CHECK(faults(ReadText(slip.text)) == slip.expected);
}

std::string shape_of(const std::string& text) { return shape(ReadText(text).parsed.tree); }

}  // namespace

TEST_CASE("slips in characters are named where they stand") {
  check(GENERATE(values<Slip>({
      {"circuit \"Bale squeezer\na 1 bar\n", "1:9 text-not-closed\n"},
      {"circuit \"Bale squeezer { ambient 20 degC }\nb\n", "1:9 text-not-closed\n"},
      {"circuit Bale squeezer\" { ambient 20 degC }\nb\n", "1:22 text-not-closed\n"},
      {"define x \"foo { port P \"bar\" }\ny\n", "1:10 text-not-closed\n"},
      {"define x foo\" { port P \"bar\" }\ny\n", "1:13 text-not-closed\n"},
      {"a { fact x : flow \"doc, fact y }\n", "1:19 text-not-closed\n"},
      {"a { text \"x  # remark { \n}\n", "1:10 text-not-closed\n"},
      {"circuit “Bale squeezer” { }\n", "1:9 curly-quotes\n"},
      {"circuit „Bale squeezer“ { }\n", "1:9 curly-quotes\n"},
      {"circuit 'Bale squeezer' { }\n", "1:9 single-quotes\n"},
      {"pressure P1.P — V1.P\n", "1:15 long-dash\n"},
      {"pressure P1.P –– V1.P\n", "1:15 long-dash\n"},
      {"relief‑valve 0V1 { setting 5 bar }\n", "1:7 long-dash\n"},
      {"step a { 1Y1 at −30 % }\n", "1:17 long-dash\n"},
      {"let x = 5 bar − 3 bar\n", "1:15 long-dash\n"},
      {"pipe { length 1,5 m }\n", "1:15 decimal-comma\n"},
      {"hose { bore 3/8\", length 1 m }\n", "1:13 inch-mark\n"},
      {"hose { bore 3/8\", rod 1/4 in } # 1/2\"\n", "1:13 inch-mark\n"},
      {"a\xE2\x80\x8B b\n", "1:2 hidden-character\n"},
      {"a # b\xE2\x80\xAE\n", "1:6 hidden-character\n"},
      {"circuit \"a\xE2\x80\xAE b\" { }\n", "1:11 direction-character-in-text\n"},
      {"a \x1b[31m b\n", "1:3 hidden-character\n"},
      {"pumpe Größe { x 1 }\n", "1:7 foreign-letter\n"},
      {"a { x 1; y 2 }\n", "1:8 unknown-sign\n"},
      {"a [ x 1 ]\n", "1:3 unknown-sign\n"},
      {"position a P->A B>T\n", "1:13 unknown-sign\n"},
      {"require x <= 5 s\n", "1:11 unknown-sign\n"},
      {"// remark\n", "1:1 unknown-sign\n"},
      {"a @ 5 bar\n", "1:3 unknown-sign\n"},
      {"P1. -- V1.P\n", "1:3 unknown-sign\n"},
      {"a --- b\n", "1:3 unknown-sign\n"},
      {"never 1Y1, 1Y2\n", "1:10 comma-outside-braces\n"},
      {"a { x 1,, y 2 }\n", "1:9 nothing-between-commas\n"},
      {"a { , x 1 }\n", "1:5 nothing-between-commas\n"},
  })));
}

TEST_CASE("what can be read without doubt is read") {
  CHECK(shape_of("P1.P — V1.P") == "(word:P1.P dash:-- word:V1.P)");
  CHECK(shape_of("a − b") == "(word:a sign:- word:b)");
  CHECK(shape_of("circuit “Bale” { }") == "(word:circuit text:Bale {})");
  CHECK(shape_of("circuit 'Bale'") == "(word:circuit text:Bale)");
  CHECK(shape_of("x 1,5 m") == "(word:x number:1,5 word:m)");
}

TEST_CASE("what cannot be read spoils its own statement only") {
  CHECK(shape_of("a { x ; y, z }\nb") == "(word:a {!(word:x broken:; word:y)(word:z)})(word:b)");
  CHECK(shape_of("a \"x { y }\nb") == "!(word:a broken:\"x ^{(word:y)})(word:b)");
}

// The machine is invented. Indentation shows what the braces should have said.
TEST_CASE("a missing or stray brace is found where the hand slipped") {
  check(GENERATE(values<Slip>({
      {"valve V1 {\n  drop 5 bar\ncylinder C1 { bore 63 mm }\n", "1:10 block-not-closed -> 3:1\n"},
      {"relief RV1 { setting 5 bar\ncylinder C1 { bore 63 mm }\ngauge G1 { closed }\n", "1:12 block-not-closed -> 2:1\n"},
      {"cycle {\n  step a { x, y\n  step b { z }\n}\nrequire x\n", "2:10 block-not-closed -> 3:3\n"},
      {"cycle {\n  step a {\n    x\n  step b { z }\n}\nrequire x\n", "2:10 block-not-closed -> 4:3\n"},
      {"cycle {\n  step a {\n    x\n  }\n  step b { z }\nrequire x\n", "1:7 block-not-closed -> 6:1\n"},
      {"a\nb { x\n", "2:3 block-not-closed\n"},
      {"b {\n  x\n", "1:3 block-not-closed\n"},
      {"pressure P.P -- {tube 16 x 2 mm, length 1.5 m -- V.P\nworking V.A -- C.A\n", "1:17 block-not-closed -> 2:1\n"},
      {"relief RV1 { { setting 5 bar }\ncylinder C1 { bore 63 mm }\n", "1:12 block-not-closed -> 2:1\n"},
      {"relief RV1 { setting 5 bar } }\ncylinder C1 { bore 63 mm }\n", "1:30 brace-closes-nothing\n"},
      {"relief RV1 setting 5 bar }\ncylinder C1 { bore 63 mm }\n", "1:26 brace-closes-nothing\n"},
      {"valve V1\n  drop 5 bar\n  rated 315 bar\n}\ncylinder C1 { bore 63 mm }\n", "1:7 brace-missing -> 2:3\n"},
      {"cycle {\n  step a\n    x\n  }\n  step b { z }\n}\nrequire x\n", "2:8 brace-missing -> 3:5\n"},
      {"cycle {\n  step a { x } }\n  step b { z }\n}\nrequire x\n", "2:16 brace-closes-nothing\n"},
      {"cycle {\n  step a {\n    x }\n  }\n  step b { z }\n}\nrequire x\n", "3:7 brace-closes-nothing\n"},
      {"cycle {\n  step a { x, y } }\n}\nrequire x\n", "2:19 brace-closes-nothing\n"},
      {"}\na\n", "1:1 brace-closes-nothing\n"},
      {"a { b { c { d }\ne\nf { g }\n", "1:3 block-not-closed -> 2:1\n1:7 block-not-closed -> 2:1\n"},
  })));
}

TEST_CASE("the statements after a mended block keep their shape") {
  CHECK(shape_of("valve V1 {\n  drop 5 bar\ncylinder C1 { bore 63 mm }\n") ==
        "!(word:valve word:V1 {!(word:drop number:5 word:bar)})(word:cylinder word:C1 {(word:bore number:63 word:mm)})");
  CHECK(shape_of("valve V1\n  drop 5 bar\n}\nx\n") == "!(word:valve word:V1 {(word:drop number:5 word:bar)})(word:x)");
  CHECK(shape_of("cycle {\n  step a { x } }\n  step b { z }\n}\nr\n") ==
        "(word:cycle {!(word:step word:a {(word:x)} broken:})(word:step word:b {(word:z)})})(word:r)");
}

TEST_CASE("k slips in k statements give k messages") {
  const std::vector<std::string> slips = {
      "circuit \"Bale { ambient 20 degC }\n", "relief RV1 { setting 5 bar\n", "pressure P1.P — V1.P\n",
      "gauge G1 { range 0 ; 250 bar }\n",     "never 1Y1, 1Y2\n",             "hose { length 1,5 m }\n",
      "gauge G2 { closed } }\n",              "pumpe Größe { x 1 }\n"};
  for (std::size_t first = 0; first < slips.size(); ++first)
    for (std::size_t count = 2; count <= 5; ++count) {
      std::string text;
      for (std::size_t k = 0; k < count; ++k) text += slips[(first + k) % slips.size()] + "good G3 { closed, by push-button }\n";
      INFO(text);
      const ReadText read(text);
      CHECK(read.parsed.messages.size() == count);
      for (std::size_t k = 0; k < read.parsed.messages.size(); ++k)
        CHECK(position_of(read.source(), read.parsed.messages[k].places[0].span.begin).line == 1 + 2 * k);
    }
}

TEST_CASE("every message says what to write instead") {
  for (const char* text : {"a \"b", "a {", "a }", "a ; b", "a “b”", "a 1,5 m", "a, b", "a — b", "größe"}) {
    INFO(text);
    const ReadText read(text);
    REQUIRE(read.parsed.messages.size() == 1);
    const Message& message = read.parsed.messages[0];
    CHECK(message.code.starts_with("T-"));
    CHECK(message.fix != "");
    CHECK(message.sentence.find("{}") == std::string::npos);
    CHECK(message.sentence.find(message.fix) == std::string::npos);
  }
}

TEST_CASE("codes and names of the faults of a text are never used twice, and each has its page") {
  std::set<std::string_view> seen;
  for (const FaultPage& page : fault_pages()) {
    INFO(page.rule);
    CHECK(seen.insert(page.code).second);
    CHECK(seen.insert(page.rule).second);
    CHECK_FALSE(page.why.empty());
    CHECK_FALSE(page.write.empty());
  }
}
