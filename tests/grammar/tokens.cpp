// The tokens of the language, one by one (LANGUAGE.md, part 1).
#include <catch2/catch.hpp>

#include "grammar/reading.hpp"

using namespace ferrule;

namespace {

struct Case {
  std::string text, shape;
};

Term only_term(const ReadText& read) { return read.parsed.tree.terms.at(0); }

}  // namespace

TEST_CASE("a text is parted into the terms its writer sees") {
  const auto [text, expected] = GENERATE(values<Case>({
      {"0V1.P", "(word:0V1.P)"},
      {"relief-valve 0V1", "(word:relief-valve word:0V1)"},
      {"0P1.P--L1--clamp.1V1.A", "(word:0P1.P^dash:--^word:L1^dash:--^word:clamp.1V1.A)"},
      {"L1.1", "(word:L1.1)"},
      {"2A1.1", "(word:2A1.1)"},
      {"16 cm3/rev", "(number:16 word:cm3/rev)"},
      {"16 cm³/rev", "(number:16 word:cm³/rev)"},
      {"12 W/m2K", "(number:12 word:W/m2K)"},
      {"10 µm", "(number:10 word:µm)"},
      {"10 μm", "(number:10 word:μm)"},
      {"45 °C", "(number:45 word:°C)"},
      {"350 N·m", "(number:350 word:N·m)"},
      {"93 %", "(number:93 word:%)"},
      {"93%", "(number:93^word:%)"},
      {"1450 rpm", "(number:1450 word:rpm)"},
      {"-30 %", "(number:-30 word:%)"},
      {"- 30", "(sign:- number:30)"},
      {"1.5 m", "(number:1.5 word:m)"},
      {".5 in", "(number:.5 word:in)"},
      {"3/8 in", "(number:3/8 word:in)"},
      {"1 1/4 in", "(number:1 1/4 word:in)"},
      {"22 x 1.5 mm", "(number:22 word:x number:1.5 word:mm)"},
      {"ratio 4:1", "(word:ratio number:4:1)"},
      {"1e300", "(number:1e300)"},
      {"1.5e-3 m", "(number:1.5e-3 word:m)"},
      {"1E3", "(word:1E3)"},
      {"date 2026-03-01", "(word:date date:2026-03-01)"},
      {"P>A B>T", "(word:P^sign:>^word:A word:B^sign:>^word:T)"},
      {"P<>A", "(word:P^sign:<>^word:A)"},
      {"A|>T", "(word:A^sign:|>^word:T)"},
      {"P~A", "(word:P^sign:~^word:A)"},
      {"P-T", "(word:P-T)"},
      {"P-A-T", "(word:P-A-T)"},
      {"1-2", "(word:1-2)"},
      {"1>2", "(number:1^sign:>^number:2)"},
      {"through 1 - 2", "(word:through number:1 sign:- number:2)"},
      {"cleanliness 20/18/15", "(word:cleanliness word:20/18/15)"},
      {"4/3-way", "(word:4/3-way)"},
      {"16x2 mm", "(word:16x2 word:mm)"},
      {"10bar", "(word:10bar)"},
      {"let a = (b + 2) * 3 / 4", "(word:let word:a sign:= sign:(^word:b sign:+ number:2^sign:) sign:* number:3 sign:/ number:4)"},
      {"fact setting: pressure", "(word:fact word:setting^sign:: word:pressure)"},
      {"port P 2 -2 above", "(word:port word:P number:2 number:-2 word:above)"},
      {"circuit \"Grüße, {P} # 1\"", "(word:circuit text:Grüße, {P} # 1)"},
      {"\"a \\\"b\\\" \\\\\"", "(text:a \\\"b\\\" \\\\)"},
      {"a\xC2\xA0" "b", "(word:a word:b)"},
      {"a # b\n# c", "(word:a)"},
      {"a\r\nb\r\n", "(word:a)(word:b)"},
  }));
  INFO(text);
  const ReadText read(text);
  CHECK(shape(read.parsed.tree) == expected);
  CHECK(faults(read) == "");
}

TEST_CASE("a text gives back the characters it stands for") {
  CHECK(unescaped(only_term(ReadText(R"("3/8\" hose, C:\dir \\")"))) == R"(3/8" hose, C:\dir \)");
}
