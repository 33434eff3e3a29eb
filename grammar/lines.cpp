#include "grammar/lines.hpp"

#include <algorithm>
#include <set>

namespace ferrule {
namespace {

constexpr std::uint32_t step = 2;  // blanks per level

std::uint32_t code_points(std::string_view text) {
  return static_cast<std::uint32_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

bool holds_broken_item(const Tree& tree, const Item& item) {
  if (item.broken) return true;
  for (const Term& term : tree.terms_of(item)) {
    if (term.kind != TermKind::block) continue;
    const auto items = tree.items_of(tree.block_of(term));
    if (std::any_of(items.begin(), items.end(), [&](const Item& inner) { return holds_broken_item(tree, inner); })) return true;
  }
  return false;
}

class LineSetter {
 public:
  LineSetter(const Source& source, const Tree& tree, const std::vector<Token>& tokens)
      : text_(source.text), tree_(tree), tokens_(tokens) {
    for (const Item& item : tree.items_of(tree.blocks[0])) {
      statements_.insert(item.span.begin);
      if (holds_broken_item(tree, item)) broken_.push_back(item.span);
    }
  }

  std::vector<SetLine> lines() {
    std::vector<SetLine> lines;
    for (std::size_t at = 0; at < tokens_.size();) {
      std::size_t end = at;
      while (tokens_[end].kind != TokenKind::line_end) ++end;
      if (at == end && line_begin_ == text_.size()) break;  // nothing follows the last line end
      lines.push_back(line(at, end));
      at = end + 1;
    }
    return lines;
  }

 private:
  struct OpenBrace {
    std::uint32_t indent;  // of the line it stands on
    bool tight;            // a pipe in a run: `-- {hose DN 12} --`
  };

  SetLine line(std::size_t first, std::size_t end) {
    SetLine line;
    line.source = text_.substr(line_begin_, tokens_[end].begin - line_begin_);
    const std::uint32_t begin = line_begin_;
    line_begin_ = tokens_[end].end;
    line.untouched = is_untouched(first, end, begin);
    if (first == end) return line;
    if (statements_.contains(tokens_[first].begin)) braces_.clear();
    const std::uint32_t written = code_points(text_.substr(begin, tokens_[first].begin - begin));
    line.indent = line.untouched ? written : indent_of(first);
    for (std::size_t at = first; at < end; ++at) line.pieces.push_back(piece(at, at == first, begin, line.indent));
    return line;
  }

  bool is_untouched(std::size_t first, std::size_t end, std::uint32_t begin) {
    const std::string_view remark = first < end && tokens_[first].kind == TokenKind::comment ? spelling(tokens_[first]) : "";
    if (remark == "# ferrule: keep") keeping_ = true;
    const bool kept = keeping_;
    if (remark == "# ferrule: end keep") keeping_ = false;
    while (next_broken_ < broken_.size() && broken_[next_broken_].end <= begin) ++next_broken_;
    return kept || (next_broken_ < broken_.size() && broken_[next_broken_].begin < tokens_[end].end);
  }

  std::uint32_t indent_of(std::size_t first) const {
    const Token& token = tokens_[first];
    if (braces_.empty()) return token.kind == TokenKind::dash ? step : 0;
    if (token.kind == TokenKind::closing_brace) return braces_.back().indent;
    return braces_.back().indent + (token.kind == TokenKind::dash ? 2 * step : step);
  }

  Piece piece(std::size_t at, bool first, std::uint32_t line_begin, std::uint32_t indent) {
    const Token& token = tokens_[at];
    Piece piece;
    piece.kind = token.kind;
    piece.text = spelling(token);
    piece.source_column = code_points(text_.substr(line_begin, token.begin - line_begin));
    if (!first) set_gap(piece, at);
    if (token.kind == TokenKind::opening_brace) braces_.push_back({indent, at > 0 && tokens_[at - 1].kind == TokenKind::dash});
    if (token.kind == TokenKind::closing_brace && !braces_.empty()) braces_.pop_back();
    return piece;
  }

  void set_gap(Piece& piece, std::size_t at) const {
    const Token &token = tokens_[at], &before = tokens_[at - 1];
    piece.blanks = code_points(text_.substr(before.end, token.begin - before.end));
    piece.least_gap = least_gap(before, token);
    piece.glued = piece.least_gap == 0;
  }

  std::uint32_t least_gap(const Token& before, const Token& token) const {
    const bool tight = !braces_.empty() && braces_.back().tight;
    if (token.kind == TokenKind::comment) return 2;
    if (token.kind == TokenKind::comma) return 0;
    if (before.kind == TokenKind::opening_brace || token.kind == TokenKind::closing_brace) return tight ? 0 : 1;
    const auto parts = [](TokenKind kind) {
      return kind == TokenKind::comma || kind == TokenKind::dash || kind == TokenKind::opening_brace || kind == TokenKind::closing_brace;
    };
    return parts(before.kind) || parts(token.kind) || token.space_before ? 1 : 0;
  }

  std::string_view spelling(const Token& token) const { return text_.substr(token.begin, token.end - token.begin); }

  std::string_view text_;
  const Tree& tree_;
  const std::vector<Token>& tokens_;
  std::set<std::uint32_t> statements_;  // where one begins
  std::vector<Span> broken_;
  std::size_t next_broken_ = 0;
  std::vector<OpenBrace> braces_;
  std::uint32_t line_begin_ = 0;
  bool keeping_ = false;
};

}  // namespace

std::vector<SetLine> lines_of(const Source& source, const Tree& tree, const std::vector<Token>& tokens) {
  return LineSetter(source, tree, tokens).lines();
}

}  // namespace ferrule
