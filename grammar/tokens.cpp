#include "grammar/tokens.hpp"

#include <cctype>

#include "grammar/characters.hpp"
#include "grammar/rules.hpp"

namespace ferrule {
namespace {

namespace pegtl = tao::pegtl;

// Far more than any name or remark on a sheet needs; what is longer would only swell every message that names it.
constexpr std::uint32_t longest_word = 1000, longest_text = 4000;  // bytes

bool too_long(const Token& token) {
  if (token.kind == TokenKind::comment || token.kind == TokenKind::line_end) return false;
  return token.end - token.begin > (token.kind == TokenKind::text ? longest_text : longest_word);
}

class Row {
 public:
  explicit Row(std::string_view text) : text_(text) { tokens_.reserve(text.size() / 5 + 8); }

  void add(TokenKind kind, FaultKind fault, const char* begin, const char* end) {
    const auto from = static_cast<std::uint32_t>(begin - text_.data()), to = static_cast<std::uint32_t>(end - text_.data());
    const bool first = tokens_.empty() || tokens_.back().kind == TokenKind::line_end;
    tokens_.push_back({kind, fault, first, first || tokens_.back().end != from, from, to});
    if (too_long(tokens_.back())) tokens_.back().kind = TokenKind::strange, tokens_.back().fault = FaultKind::too_long;
  }
  void add_long_dash(const char* begin, const char* end) {
    const auto is_letter = [this](const char* at) {
      return at < text_.data() + text_.size() && std::isalnum(static_cast<unsigned char>(*at));
    };
    const bool inside_a_word = begin > text_.data() && is_letter(begin - 1) && is_letter(end);
    const bool minus = std::string_view(begin, end) == "\u2212";
    add(inside_a_word ? TokenKind::strange : minus ? TokenKind::sign : TokenKind::dash, FaultKind::long_dash, begin, end);
  }
  std::vector<Token> taken() && { return std::move(tokens_); }

 private:
  std::string_view text_;
  std::vector<Token> tokens_;
};

template <TokenKind kind, FaultKind fault = FaultKind::none>
struct becomes {
  template <class Input>
  static void apply(const Input& in, Row& row) { row.add(kind, fault, in.begin(), in.end()); }
};

template <class Rule> struct action {};
template <> struct action<rules::name> : becomes<TokenKind::word> {};
template <> struct action<rules::percent> : becomes<TokenKind::word> {};
template <> struct action<rules::number> : becomes<TokenKind::number> {};
template <> struct action<rules::date> : becomes<TokenKind::date> {};
template <> struct action<rules::dash> : becomes<TokenKind::dash> {};
template <> struct action<rules::sign> : becomes<TokenKind::sign> {};
template <> struct action<rules::comma> : becomes<TokenKind::comma> {};
template <> struct action<rules::line_end> : becomes<TokenKind::line_end> {};
template <> struct action<rules::opening_brace> : becomes<TokenKind::opening_brace> {};
template <> struct action<rules::closing_brace> : becomes<TokenKind::closing_brace> {};
template <> struct action<rules::decimal_comma> : becomes<TokenKind::number, FaultKind::decimal_comma> {};
template <> struct action<rules::inch_mark> : becomes<TokenKind::number, FaultKind::inch_mark> {};
template <> struct action<rules::unclosed_text> : becomes<TokenKind::strange, FaultKind::text_not_closed> {};
template <> struct action<rules::text_in_curly_quotes> : becomes<TokenKind::text, FaultKind::curly_quotes> {};
template <> struct action<rules::text_in_single_quotes> : becomes<TokenKind::text, FaultKind::single_quotes> {};
template <> struct action<rules::word_with_foreign_letters> : becomes<TokenKind::word, FaultKind::foreign_letter> {};
template <> struct action<rules::number_with_long_minus> : becomes<TokenKind::strange, FaultKind::long_dash> {};
template <> struct action<rules::hidden_character> : becomes<TokenKind::strange, FaultKind::hidden_character> {};
template <> struct action<rules::strange_pair> : becomes<TokenKind::strange, FaultKind::unknown_sign> {};
template <> struct action<rules::strange_sign> : becomes<TokenKind::strange, FaultKind::unknown_sign> {};

template <> struct action<rules::text> {
  template <class Input>
  static void apply(const Input& in, Row& row) {
    const bool hidden = !first_hidden_in({in.begin(), in.size()}, true).empty();
    row.add(TokenKind::text, hidden ? FaultKind::direction_character : FaultKind::none, in.begin(), in.end());
  }
};

template <> struct action<rules::comment> {
  template <class Input>
  static void apply(const Input& in, Row& row) {
    const char* end = in.end();
    while (end[-1] == '\r' || end[-1] == ' ' || end[-1] == '\t') --end;
    const bool hidden = !first_hidden_in({in.begin(), static_cast<std::size_t>(end - in.begin())}, false).empty();
    row.add(TokenKind::comment, hidden ? FaultKind::hidden_character : FaultKind::none, in.begin(), end);
  }
};

// A dash between two letters was meant as a hyphen: the word is spoilt. Alone it is read as what it looks like.
template <> struct action<rules::long_dash> {
  template <class Input>
  static void apply(const Input& in, Row& row) { row.add_long_dash(in.begin(), in.end()); }
};

}  // namespace

std::vector<Token> tokens_of(std::string_view text) {
  Row row(text);
  pegtl::memory_input<pegtl::tracking_mode::lazy, pegtl::eol::lf> input(text.data(), text.data() + text.size(), "");
  pegtl::parse<rules::tokens, action>(input, row);
  row.add(TokenKind::line_end, FaultKind::none, text.data() + text.size(), text.data() + text.size());
  return std::move(row).taken();
}

}  // namespace ferrule
