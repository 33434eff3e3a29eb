// How terms make items, and items blocks.
#include <catch2/catch.hpp>

#include <cctype>
#include <tao/pegtl/contrib/analyze.hpp>

#include "grammar/reading.hpp"
#include "grammar/rules.hpp"

using namespace ferrule;

TEST_CASE("the grammar has no rule that loops without reading anything") {
  CHECK(tao::pegtl::analyze<rules::file>() == 0);
  CHECK(tao::pegtl::analyze<rules::tokens>() == 0);
}

TEST_CASE("at file level only a line end ends a statement") {
  const auto [text, expected] = GENERATE(table<std::string, std::string>({
      {"", ""},
      {"\n\n# only a remark\n", ""},
      {"a b\nc", "(word:a word:b)(word:c)"},
      {"a\n  b\nc", "(word:a)(word:b)(word:c)"},
      {"a\n-- b\n\n# remark\n  -- c\nd", "(word:a dash:-- word:b dash:-- word:c)(word:d)"},
      {"a # remark\n{ b }\nc", "(word:a {(word:b)})(word:c)"},
      {"a -- {b 1, c} -- d", "(word:a dash:-- {(word:b number:1)(word:c)} dash:-- word:d)"},
      {"a {\n  b\n  c, d,\n  e { f }\n}\ng", "(word:a {(word:b)(word:c)(word:d)(word:e {(word:f)})})(word:g)"},
      {"a { b\n  -- c\n}", "(word:a {(word:b dash:-- word:c)})"},
      {"a { b\n  { c }\n}", "(word:a {(word:b {(word:c)})})"},
      {"a {}", "(word:a {})"},
      {"a{b}", "(word:a^{(word:b)})"},
      {"let a = max(b, 2 bar)", "(word:let word:a sign:= word:max^sign:(^word:b^sign:, number:2 word:bar^sign:))"},
      {"a { b min(c, (d, e)), f }", "(word:a {(word:b word:min^sign:(^word:c^sign:, sign:(^word:d^sign:, word:e^sign:)^sign:))(word:f)})"},
      {"a { b (c, d }", "(word:a {(word:b sign:(^word:c)(word:d)})"},
      {"a {\n  b\n  , c\n}", "(word:a {(word:b)(word:c)})"},
  }));
  INFO(text);
  const ReadText read(text);
  CHECK(shape(read.parsed.tree) == expected);
  CHECK(faults(read) == "");
}

TEST_CASE("a block knows whether it was written on one line, and where it is") {
  const ReadText read("a { b }\nc {\n}\n");
  const Tree& tree = read.parsed.tree;
  REQUIRE(tree.blocks.size() == 3);
  CHECK(tree.blocks[1].one_line);
  CHECK_FALSE(tree.blocks[2].one_line);
  CHECK(read.sources.text(tree.blocks[1].span) == "{ b }");
  CHECK(read.sources.text(tree.items_of(tree.blocks[0])[0].span) == "a { b }");
  CHECK(read.sources.text(tree.blocks[0].span) == read.source().text);
}

TEST_CASE("comments are kept with their place") {
  const ReadText read("# one\na # two  \nb {\n  # three\n  c -- # four\n}\n");
  const auto& comments = read.parsed.tree.comments;
  REQUIRE(comments.size() == 4);
  CHECK(comments[0].own_line);
  CHECK_FALSE(comments[1].own_line);
  CHECK(read.sources.text(comments[1].span) == "# two");
  CHECK(comments[2].own_line);
  CHECK(read.sources.text(comments[3].span) == "# four");
}

namespace {

// Does the grammar of rules.hpp, with its structure, take the whole text?
bool accepted_by_grammar(const std::string& text) {
  tao::pegtl::memory_input<> input(text, "test");
  return tao::pegtl::parse<rules::file>(input);
}

}  // namespace

// parse() stacks blocks itself so that it can mend them; on texts without faults it has to agree with the grammar.
TEST_CASE("the grammar and the reader accept the same texts") {
  for (const char* text :
       {"", "\n", "# a\n", "a b\nc", "a { b, c }\n", "a {\n  b\n  c, d,\n}\n", "a\n-- b\n  # x\n  -- c\n", "a # x\n{ b }\nc", "a { b { c } d, }",
        "a {}", "a { \n }", "a {\n  b\n  , c\n}", "a -- {b 1 1/4 in, c} -- d # x", "a \"x { y\" 1:2 -30 % 2026-03-01", "a { b\n  -- c\n}",
        "a {", "a }", "a { b, , c }", "a, b", "let a = max(b, min(c, 2 bar))", "a { b max(c, d), e }", "a ; b", "a \"b", "{ , a }", "a { b } }", "a { { b }", "a 1,5 m"}) {
    INFO(text);
    CHECK(accepted_by_grammar(text) == ReadText(text).parsed.messages.empty());
  }
}
