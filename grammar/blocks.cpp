#include "grammar/block_reader.hpp"


#include "grammar/characters.hpp"

namespace ferrule {
namespace {

TermKind term_kind(TokenKind kind) {
  switch (kind) {
    case TokenKind::word: return TermKind::word;
    case TokenKind::number: return TermKind::number;
    case TokenKind::text: return TermKind::text;
    case TokenKind::date: return TermKind::date;
    case TokenKind::dash: return TermKind::dash;
    case TokenKind::sign: return TermKind::sign;
    case TokenKind::comma: return TermKind::sign;  // in parentheses
    default: return TermKind::broken;
  }
}

std::string_view without_quotes(std::string_view text) {
  const auto continues = [&](std::size_t i) { return (static_cast<unsigned char>(text[i]) & 0xC0) == 0x80; };
  std::size_t first = 1, last = text.size() - 1;
  while (first < last && continues(first)) ++first;
  while (last > first && continues(last)) --last;
  return text.substr(first, last - first);
}

std::string_view spelling(const Token& token, std::string_view text) {
  const std::string_view written = text.substr(token.begin, token.end - token.begin);
  if (token.kind == TokenKind::text) return without_quotes(written);
  if (token.fault == FaultKind::long_dash && token.kind == TokenKind::dash) return "--";
  if (token.fault == FaultKind::long_dash && token.kind == TokenKind::sign) return "-";
  if (token.fault == FaultKind::inch_mark) return written.substr(0, written.size() - 1);
  return written;
}

}  // namespace

BlockReading BlockReader::read() && {
  reading_.tree.file = file_;
  reading_.tree.terms.reserve(tokens_.size());
  reading_.tree.blocks.push_back({{file_, 0, static_cast<std::uint32_t>(text_.size())}, 0, 0, false});
  open_.push_back({});
  for (std::size_t at = 0; at < tokens_.size() && !reading_.too_deep; ++at) {
    if (tokens_[at].kind == TokenKind::line_end) at = take_line_end(at);
    else take(at);
  }
  if (reading_.too_deep) return std::move(reading_);
  while (!at_file_level()) close_unclosed_block(tokens_.size());
  finish_item();
  Block& all = reading_.tree.blocks[0];
  all.first = static_cast<std::uint32_t>(reading_.tree.items.size());
  all.count = static_cast<std::uint32_t>(items_.size());
  reading_.tree.items.insert(reading_.tree.items.end(), items_.begin(), items_.end());
  return std::move(reading_);
}

void BlockReader::take(std::size_t at) {
  const Token& token = tokens_[at];
  if (token.first_on_line && token.kind != TokenKind::comment) {
    line_indent_ = column_of(token);
    line_begin_ = token.begin;
    if (by_layout_) close_blocks_that_end_before(at);
  }
  switch (token.kind) {
    case TokenKind::comment: return take_comment(at);
    case TokenKind::comma: return take_comma(at);
    case TokenKind::opening_brace: return take_opening_brace(at);
    case TokenKind::closing_brace: return take_closing_brace(at);
    default: return take_term(at);
  }
}

void BlockReader::take_term(std::size_t at) {
  const Token& token = tokens_[at];
  begin_item(at);
  terms_.push_back({term_kind(token.kind), token.space_before, span_of(token), spelling(token, text_), 0});
  open().open_parentheses += (terms_.back().text == "(") - (terms_.back().text == ")");
  if (token.fault == FaultKind::none) return;
  Span where = span_of(token);
  if (token.fault == FaultKind::direction_character) {
    const std::string_view hidden = first_hidden_in(text_.substr(token.begin, token.end - token.begin), true);
    where.begin = static_cast<std::uint32_t>(hidden.data() - text_.data());
    where.end = where.begin + static_cast<std::uint32_t>(hidden.size());
  }
  report_in_item(token.fault, where);
  if (token.kind == TokenKind::strange || !readable(token.fault)) open().item_broken = true;
}

void BlockReader::take_comment(std::size_t at) {
  const Token& token = tokens_[at];
  reading_.tree.comments.push_back({span_of(token), token.first_on_line});
  if (token.fault == FaultKind::none) return;
  const std::string_view hidden = first_hidden_in(text_.substr(token.begin, token.end - token.begin), false);
  const auto begin = static_cast<std::uint32_t>(hidden.data() - text_.data());
  report(FaultKind::hidden_character, {file_, begin, begin + static_cast<std::uint32_t>(hidden.size())});
}

void BlockReader::take_comma(std::size_t at) {
  if (parts_values(at)) return take_term(at);
  if (at_file_level()) {
    report_in_item(FaultKind::comma_outside_braces, span_of(tokens_[at]));
    add_broken_term(at);
    return;
  }
  const bool empty = !item_pending();
  const TokenKind before = tokens_[at - 1].kind;
  const bool lost = empty && (before == TokenKind::comma || before == TokenKind::opening_brace);
  if (lost) report(FaultKind::nothing_between_commas, span_of(tokens_[at]));
  finish_item();
  // What was to stand there may have been torn apart: the next fact has its message with this one.
  if (lost) open().item_broken = open().item_reported = true;
}

// `max(2 bar, p)`: in parentheses a comma parts values, provided that they are closed on the line; otherwise one forgotten
// parenthesis would swallow the facts that follow.
bool BlockReader::parts_values(std::size_t at) {
  if (open().open_parentheses <= 0) return false;
  if (parentheses_end_ < at) parentheses_end_ = at;
  const auto ends = [this](const Token& token) {
    return token.kind == TokenKind::line_end || token.kind == TokenKind::opening_brace || token.kind == TokenKind::closing_brace ||
           (token.kind == TokenKind::sign && text_[token.begin] == ')');
  };
  while (!ends(tokens_[parentheses_end_])) ++parentheses_end_;  // the last token of all is a line end
  return tokens_[parentheses_end_].kind == TokenKind::sign;
}

// Returns the last token that it used up.
std::size_t BlockReader::take_line_end(std::size_t at) {
  if (!item_pending()) return at;
  const std::size_t next = next_visible(at);
  const bool goes_on = next < tokens_.size() &&
                       (tokens_[next].kind == TokenKind::dash || tokens_[next].kind == TokenKind::opening_brace);
  if (!goes_on) {
    if (by_layout_ && header_lacks_brace(next)) open_block(next, true);
    else finish_item();
    return at;
  }
  for (std::size_t i = at; i < next; ++i)
    if (tokens_[i].kind == TokenKind::comment) take_comment(i);
  return next - 1;
}

void BlockReader::take_opening_brace(std::size_t at) {
  if (open_.size() > deepest_nesting) {
    reading_.faults = {{FaultKind::nested_too_deep, span_of(tokens_[at]), {}}};
    reading_.too_deep = true;
    return;
  }
  open_block(at, false);
}

void BlockReader::take_closing_brace(std::size_t at) {
  if (at_file_level() || (by_layout_ && should_stay_open(at))) {
    ++reading_.brace_faults;
    report_in_item(FaultKind::brace_closes_nothing, span_of(tokens_[at]));
    add_broken_term(at);
    // Its `{` is missing on this line, so what stands there is not what it seems.
    for (std::size_t item = items_.size(); item > open().first_item && items_[item - 1].span.begin >= line_begin_; --item) items_[item - 1].broken = true;
    return;
  }
  close_block(tokens_[at].end);
}

void BlockReader::add_broken_term(std::size_t at) {
  begin_item(at);
  terms_.push_back({TermKind::broken, tokens_[at].space_before, span_of(tokens_[at]), spelling(tokens_[at], text_), 0});
  open().item_broken = true;
}

std::size_t BlockReader::next_visible(std::size_t at) const {
  while (at < tokens_.size() && stands_between(tokens_[at].kind)) ++at;
  return at;
}

BlockReading read_blocks(const Source& source, std::uint32_t file, std::span<const Token> tokens, Witness witness) {
  return BlockReader(source, file, tokens, witness).read();
}

}  // namespace ferrule
