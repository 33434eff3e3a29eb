#include "grammar/blocks.hpp"

#include <algorithm>

#include "grammar/characters.hpp"

namespace ferrule {
namespace {

// A block that is being read, with the item that is being read in it.
struct OpenBlock {
  std::uint32_t block = 0;
  std::size_t opened_by = 0;       // index of its `{`
  bool brace_was_missing = false;  // the layout opened it
  std::uint32_t indent = 0;        // of the statement it belongs to
  std::size_t own_term = 0;        // the term that stands for it, in the enclosing item
  std::size_t first_term = 0, first_item = 0;  // what is already stacked for it
  std::size_t item_begins_at = 0;  // token
  std::uint32_t item_indent = 0;
  int open_parentheses = 0;        // in the item
  bool item_broken = false, item_reported = false;
};

class Reader {
 public:
  Reader(const Source& source, std::uint32_t file, std::span<const Token> tokens, Witness witness)
      : text_(source.text), file_(file), tokens_(tokens), by_layout_(witness == Witness::layout) {}

  Reading read() &&;

 private:
  void take(std::size_t at);
  void take_term(std::size_t at);
  void take_comment(std::size_t at);
  void take_comma(std::size_t at);
  bool parts_values(std::size_t at);
  std::size_t take_line_end(std::size_t at);
  void take_opening_brace(std::size_t at);
  void take_closing_brace(std::size_t at);

  void begin_item(std::size_t at);
  void finish_item();
  void open_block(std::size_t at, bool brace_was_missing);
  void close_block(std::uint32_t end);
  void close_unclosed_block(std::size_t shown_by);
  void report(FaultKind kind, Span at, Span shown_by = {});
  void report_in_item(FaultKind kind, Span at);
  void add_broken_term(std::size_t at);

  // Layout.
  void close_blocks_that_end_before(std::size_t at);
  bool should_stay_open(std::size_t closing) const;
  bool header_lacks_brace(std::size_t next) const;

  OpenBlock& open() { return open_.back(); }
  const OpenBlock& open() const { return open_.back(); }
  bool at_file_level() const { return open_.size() == 1; }
  bool item_pending() const { return terms_.size() > open().first_term; }
  Span span_of(const Token& token) const { return {file_, token.begin, token.end}; }
  std::size_t next_visible(std::size_t at) const;
  std::uint32_t column_of(const Token& first_on_line) const;

  std::string_view text_;
  std::uint32_t file_;
  std::span<const Token> tokens_;
  bool by_layout_;
  Reading reading_;
  std::vector<OpenBlock> open_;
  std::vector<Term> terms_;   // of items that are not finished
  std::vector<Item> items_;   // of blocks that are not closed
  std::uint32_t line_indent_ = 0;
  std::size_t parentheses_end_ = 0;  // where the search for a `)` ended last, so that no token is searched twice
};

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

bool stands_between(TokenKind kind) { return kind == TokenKind::line_end || kind == TokenKind::comment; }

}  // namespace

Reading Reader::read() && {
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

void Reader::take(std::size_t at) {
  const Token& token = tokens_[at];
  if (token.first_on_line && token.kind != TokenKind::comment) {
    line_indent_ = column_of(token);
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

void Reader::take_term(std::size_t at) {
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

void Reader::take_comment(std::size_t at) {
  const Token& token = tokens_[at];
  reading_.tree.comments.push_back({span_of(token), token.first_on_line});
  if (token.fault == FaultKind::none) return;
  const std::string_view hidden = first_hidden_in(text_.substr(token.begin, token.end - token.begin), false);
  const auto begin = static_cast<std::uint32_t>(hidden.data() - text_.data());
  report(FaultKind::hidden_character, {file_, begin, begin + static_cast<std::uint32_t>(hidden.size())});
}

void Reader::take_comma(std::size_t at) {
  if (parts_values(at)) return take_term(at);
  if (at_file_level()) {
    report_in_item(FaultKind::comma_outside_braces, span_of(tokens_[at]));
    add_broken_term(at);
    return;
  }
  const bool empty = !item_pending();
  const TokenKind before = tokens_[at - 1].kind;
  if (empty && (before == TokenKind::comma || before == TokenKind::opening_brace))
    report(FaultKind::nothing_between_commas, span_of(tokens_[at]));
  finish_item();
}

// `max(2 bar, p)`: in parentheses a comma parts values, provided that they are closed on the line; otherwise one forgotten
// parenthesis would swallow the facts that follow.
bool Reader::parts_values(std::size_t at) {
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
std::size_t Reader::take_line_end(std::size_t at) {
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

void Reader::take_opening_brace(std::size_t at) {
  if (open_.size() > deepest_nesting) {
    reading_.faults = {{FaultKind::nested_too_deep, span_of(tokens_[at]), {}}};
    reading_.too_deep = true;
    return;
  }
  open_block(at, false);
}

void Reader::take_closing_brace(std::size_t at) {
  if (at_file_level() || (by_layout_ && should_stay_open(at))) {
    ++reading_.brace_faults;
    report_in_item(FaultKind::brace_closes_nothing, span_of(tokens_[at]));
    add_broken_term(at);
    return;
  }
  close_block(tokens_[at].end);
}

void Reader::begin_item(std::size_t at) {
  if (item_pending()) return;
  open().item_begins_at = at;
  open().item_indent = line_indent_;
}

void Reader::add_broken_term(std::size_t at) {
  begin_item(at);
  terms_.push_back({TermKind::broken, tokens_[at].space_before, span_of(tokens_[at]), spelling(tokens_[at], text_), 0});
  open().item_broken = true;
}

// Terms of nested items were moved out before, so those of one item end up side by side.
void Reader::finish_item() {
  OpenBlock& block = open();
  if (item_pending()) {
    Tree& tree = reading_.tree;
    Item item;
    item.first = static_cast<std::uint32_t>(tree.terms.size());
    item.count = static_cast<std::uint32_t>(terms_.size() - block.first_term);
    item.span = joined(terms_[block.first_term].span, terms_.back().span);
    item.broken = block.item_broken;
    tree.terms.insert(tree.terms.end(), terms_.begin() + static_cast<std::ptrdiff_t>(block.first_term), terms_.end());
    terms_.resize(block.first_term);
    items_.push_back(item);
  }
  block.item_broken = block.item_reported = false;
  block.open_parentheses = 0;
}

// `at` is the brace, or the first token inside when the brace is missing.
void Reader::open_block(std::size_t at, bool brace_was_missing) {
  begin_item(at);
  const Token& token = tokens_[at];
  Span span = span_of(token);
  if (brace_was_missing) {
    const Span header{file_, terms_.back().span.begin, terms_.back().span.end};
    report(FaultKind::brace_missing, header, span_of(token));
    open().item_broken = open().item_reported = true;
    ++reading_.brace_faults;
    span = {file_, header.end, header.end};
  }
  OpenBlock inner;
  inner.block = static_cast<std::uint32_t>(reading_.tree.blocks.size());
  inner.opened_by = at;
  inner.brace_was_missing = brace_was_missing;
  inner.indent = open().item_indent;
  inner.own_term = terms_.size();
  inner.first_item = items_.size();
  terms_.push_back({TermKind::block, token.space_before, span, {}, inner.block});
  inner.first_term = terms_.size();
  reading_.tree.blocks.push_back({span, 0, 0, false});
  open_.push_back(inner);
}

void Reader::close_block(std::uint32_t end) {
  finish_item();
  Tree& tree = reading_.tree;
  const OpenBlock closed = open();
  open_.pop_back();
  Block& block = tree.blocks[closed.block];
  block.first = static_cast<std::uint32_t>(tree.items.size());
  block.count = static_cast<std::uint32_t>(items_.size() - closed.first_item);
  block.span.end = std::max(end, block.span.end);
  const std::string_view written = text_.substr(block.span.begin, block.span.end - block.span.begin);
  block.one_line = written.find('\n') == std::string_view::npos;
  tree.items.insert(tree.items.end(), items_.begin() + static_cast<std::ptrdiff_t>(closed.first_item), items_.end());
  items_.resize(closed.first_item);
  terms_[closed.own_term].span = block.span;
}

void Reader::close_unclosed_block(std::size_t shown_by) {
  const OpenBlock& block = open();
  const bool was_missing = block.brace_was_missing;
  const std::size_t opened_by = block.opened_by;
  std::size_t last = shown_by - 1;
  while (last > opened_by && stands_between(tokens_[last].kind)) --last;
  if (!was_missing) {
    ++reading_.brace_faults;
    report(FaultKind::block_not_closed, span_of(tokens_[opened_by]),
           shown_by < tokens_.size() ? span_of(tokens_[shown_by]) : Span{});
    open().item_broken = true;
  }
  close_block(tokens_[last].end);
  open().item_broken = open().item_reported = true;
}

void Reader::report(FaultKind kind, Span at, Span shown_by) { reading_.faults.push_back({kind, at, shown_by}); }

// One slip of the pen often leaves several strange characters, so a statement is reported once.
void Reader::report_in_item(FaultKind kind, Span at) {
  if (!open().item_reported) report(kind, at);
  open().item_reported = true;
}

// A line at or left of the line that opened a block is no longer inside it.
void Reader::close_blocks_that_end_before(std::size_t at) {
  const Token& token = tokens_[at];
  if (token.kind == TokenKind::dash || token.kind == TokenKind::opening_brace) return;
  const std::uint32_t outermost = line_indent_ + (token.kind == TokenKind::closing_brace ? 1 : 0);
  while (!at_file_level() && open().indent >= outermost) {
    close_unclosed_block(at);
    finish_item();
  }
}

// A `}` at a line's end is one too many when the lines after it are still indented like the inside of its block.
bool Reader::should_stay_open(std::size_t closing) const {
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
bool Reader::header_lacks_brace(std::size_t next) const {
  if (next >= tokens_.size() || open_.size() > deepest_nesting) return false;
  const TokenKind kind = tokens_[next].kind;
  if (kind == TokenKind::closing_brace || kind == TokenKind::comma) return false;
  return terms_.back().kind != TermKind::block && tokens_[open().item_begins_at].first_on_line &&
         column_of(tokens_[next]) > open().item_indent;
}

std::size_t Reader::next_visible(std::size_t at) const {
  while (at < tokens_.size() && stands_between(tokens_[at].kind)) ++at;
  return at;
}

// Code points before it on its line, as an editor counts; a tab counts one.
std::uint32_t Reader::column_of(const Token& token) const {
  const std::size_t line = token.begin == 0 ? std::string_view::npos : text_.rfind('\n', token.begin - 1);
  const std::string_view before = text_.substr(line + 1, token.begin - line - 1);
  return static_cast<std::uint32_t>(
      std::count_if(before.begin(), before.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

Reading read_blocks(const Source& source, std::uint32_t file, std::span<const Token> tokens, Witness witness) {
  return Reader(source, file, tokens, witness).read();
}

}  // namespace ferrule
