// One slip of the pen gives one message: tokens of whole circuits are dropped, doubled or exchanged with the next one.
#include <catch2/catch.hpp>

#include "compiler/text.hpp"
#include "grammar/tokens.hpp"

using namespace ferrule;
using namespace ferrule::tests;

namespace {

// The minimal standard generator of Park and Miller (Communications of the ACM 31, 1988): same mutants everywhere.
class Dice {
 public:
  std::size_t below(std::size_t limit) {
    state_ = state_ * 48271 % 2147483647;
    return state_ % limit;
  }

 private:
  std::uint64_t state_ = 20261;
};

std::vector<Token> visible_tokens(const std::string& text) {
  std::vector<Token> tokens;
  for (const Token& token : tokens_of(text))
    if (token.kind != TokenKind::comment && token.kind != TokenKind::line_end && token.kind != TokenKind::text) tokens.push_back(token);
  return tokens;
}

std::string spelt(const std::string& text, const Token& token) { return text.substr(token.begin, token.end - token.begin); }

std::string mutant_of(const std::string& text, const std::vector<Token>& tokens, std::size_t at, std::size_t way) {
  const Token &a = tokens[at], &b = tokens[at + 1];
  if (way == 0) return text.substr(0, a.begin) + text.substr(a.end);
  if (way == 1) return text.substr(0, a.end) + " " + text.substr(a.begin);
  return text.substr(0, a.begin) + spelt(text, b) + text.substr(a.end, b.begin - a.end) + spelt(text, a) + text.substr(b.end);
}

}  // namespace

TEST_CASE("a slip in a whole circuit gives one message, nearly always, and never a flood") {
  const char* names[] = {"dropped", "doubled", "exchanged"};
  std::vector<std::string> texts;
  for (const char* folder : {"tests/briefs", "samples"})
    for (const std::string& path : files_below(folder, ".fer")) texts.push_back(project_text(path));
  REQUIRE(texts.size() > 15);
  Dice dice;
  int made = 0, single = 0;
  std::string others;
  while (made < 240) {
    const std::string& text = texts[dice.below(texts.size())];
    const std::vector<Token> tokens = visible_tokens(text);
    const std::size_t at = dice.below(tokens.size() - 1), way = dice.below(3);
    const Token &here = tokens[at], &next = tokens[at + 1];
    const bool same_line = text.substr(here.end, next.begin - here.end).find('\n') == std::string::npos;
    if (way == 2 && (!same_line || spelt(text, here) == spelt(text, next))) continue;
    const std::string messages = told(mutant_of(text, tokens, at, way)), before = told(text);
    const auto count = [](const std::string& lines) { return std::count(lines.begin(), lines.end(), '\n'); };
    const auto more = count(messages) - count(before);
    const auto line = 1 + std::count(text.begin(), text.begin() + tokens[at].begin, '\n');
    INFO(names[way] << " `" << spelt(text, tokens[at]) << "` in line " << line << "\n" << text.substr(0, text.find('\n')) << "\n" << messages);
    CHECK(more <= 3);
    ++made;
    single += more == 1;
    if (more != 1) others += std::string(names[way]) + " `" + spelt(text, tokens[at]) + "` line " + std::to_string(line) + ": " + std::to_string(more) + "\n" + messages;
  }
  INFO(others);
  CHECK(single * 100 >= made * 95);
}
