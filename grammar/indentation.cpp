// The layout as witness: what indentation says about where blocks begin and end, when the braces do not work out.
#include <algorithm>

#include "grammar/block_reader.hpp"

namespace ferrule {

// A line at or left of the line that opened a block is no longer inside it.
void BlockReader::close_blocks_that_end_before(std::size_t at) {
  const Token& token = tokens_[at];
  if (token.kind == TokenKind::dash || token.kind == TokenKind::opening_brace) return;
  const std::uint32_t outermost = line_indent_ + (token.kind == TokenKind::closing_brace ? 1 : 0);
  while (!at_file_level() && open().indent >= outermost) {
    close_unclosed_block(at);
    finish_item();
  }
}

// A `}` at a line's end is one too many when the lines after it are still indented like the inside of its block.
bool BlockReader::should_stay_open(std::size_t closing) const {
  const auto line_ends = [this](std::size_t from, std::size_t to) {
    return std::any_of(tokens_.begin() + static_cast<std::ptrdiff_t>(from), tokens_.begin() + static_cast<std::ptrdiff_t>(to),
                       [](const Token& t) { return t.kind == TokenKind::line_end; });
  };
  const Token& brace = tokens_[closing];
  if (open().brace_was_missing || (brace.first_on_line && column_of(brace) == open().indent)) return false;
  std::size_t next = closing + 1;
  if (next < tokens_.size() && tokens_[next].kind == TokenKind::comma) ++next;
  if (next >= tokens_.size() || !stands_between(tokens_[next].kind)) return false;
  if (!line_ends(open().opened_by, closing)) return false;
  next = next_visible(next);
  if (next >= tokens_.size() || tokens_[next].kind == TokenKind::dash) return false;
  const std::uint32_t column = column_of(tokens_[next]);
  return column > open().indent || (tokens_[next].kind == TokenKind::closing_brace && column == open().indent);
}

// A header without `{`: the next line is indented deeper, and the header stood alone on its line.
bool BlockReader::header_lacks_brace(std::size_t next) const {
  if (next >= tokens_.size() || open_.size() > deepest_nesting) return false;
  const TokenKind kind = tokens_[next].kind;
  if (kind == TokenKind::closing_brace || kind == TokenKind::comma) return false;
  return terms_.back().kind != TermKind::block && tokens_[open().item_begins_at].first_on_line &&
         column_of(tokens_[next]) > open().item_indent;
}

// Code points before it on its line, as an editor counts; a tab counts one.
std::uint32_t BlockReader::column_of(const Token& token) const {
  const std::size_t line = token.begin == 0 ? std::string_view::npos : text_.rfind('\n', token.begin - 1);
  const std::string_view before = text_.substr(line + 1, token.begin - line - 1);
  return static_cast<std::uint32_t>(
      std::count_if(before.begin(), before.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

}  // namespace ferrule
