// The reader of blocks from the inside: what it has open while it goes through the tokens. Only blocks.cpp, open_blocks.cpp
// and indentation.cpp need it.
#pragma once

#include "grammar/blocks.hpp"

namespace ferrule {

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

class BlockReader {
 public:
  BlockReader(const Source& source, std::uint32_t file, std::span<const Token> tokens, Witness witness)
      : text_(source.text), file_(file), tokens_(tokens), by_layout_(witness == Witness::layout) {}

  BlockReading read() &&;

 private:
  void take(std::size_t at);
  void take_term(std::size_t at);
  void take_comment(std::size_t at);
  void take_comma(std::size_t at);
  bool parts_values(std::size_t at);
  std::size_t take_line_end(std::size_t at);
  void take_opening_brace(std::size_t at);
  void take_closing_brace(std::size_t at);

  // Items and blocks, in open_blocks.cpp.
  void begin_item(std::size_t at);
  void finish_item();
  void open_block(std::size_t at, bool brace_was_missing);
  void close_block(std::uint32_t end);
  void close_unclosed_block(std::size_t shown_by);
  void mark_last_item_broken();
  void report(FaultKind kind, Span at, Span shown_by = {});
  void report_in_item(FaultKind kind, Span at);

  void add_broken_term(std::size_t at);

  // Layout, in indentation.cpp.
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
  BlockReading reading_;
  std::vector<OpenBlock> open_;
  std::vector<Term> terms_;   // of items that are not finished
  std::vector<Item> items_;   // of blocks that are not closed
  std::uint32_t line_indent_ = 0, line_begin_ = 0;
  std::size_t parentheses_end_ = 0;  // where the search for a `)` ended last, so that no token is searched twice
};

// Between statements nothing but these may stand.
inline bool stands_between(TokenKind kind) { return kind == TokenKind::line_end || kind == TokenKind::comment; }

}  // namespace ferrule
