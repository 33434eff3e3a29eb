// Items and blocks that are being read: how each begins, ends and is moved into the tree.
#include <algorithm>

#include "grammar/block_reader.hpp"

namespace ferrule {

void BlockReader::begin_item(std::size_t at) {
  if (item_pending()) return;
  open().item_begins_at = at;
  open().item_indent = line_indent_;
}

// Terms of nested items were moved out before, so those of one item end up side by side.
void BlockReader::finish_item() {
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
void BlockReader::open_block(std::size_t at, bool brace_was_missing) {
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

void BlockReader::close_block(std::uint32_t end) {
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

// What stands last in a block without its brace may have been cut with it; a block of its own, which is whole, was not.
void BlockReader::mark_last_item_broken() {
  if (item_pending()) open().item_broken = terms_.back().kind != TermKind::block;
  else if (items_.size() > open().first_item)
    items_.back().broken |= reading_.tree.terms[items_.back().first + items_.back().count - 1].kind != TermKind::block;
}

void BlockReader::close_unclosed_block(std::size_t shown_by) {
  const OpenBlock& block = open();
  const bool was_missing = block.brace_was_missing;
  const std::size_t opened_by = block.opened_by;
  std::size_t last = shown_by - 1;
  while (last > opened_by && stands_between(tokens_[last].kind)) --last;
  if (!was_missing) {
    ++reading_.brace_faults;
    report(FaultKind::block_not_closed, span_of(tokens_[opened_by]),
           shown_by < tokens_.size() ? span_of(tokens_[shown_by]) : Span{});
    mark_last_item_broken();
  }
  close_block(tokens_[last].end);
  open().item_broken = open().item_reported = true;
}

void BlockReader::report(FaultKind kind, Span at, Span shown_by) { reading_.faults.push_back({kind, at, shown_by}); }

// One slip of the pen often leaves several strange characters, so a statement is reported once.
void BlockReader::report_in_item(FaultKind kind, Span at) {
  if (!open().item_reported) report(kind, at);
  open().item_reported = true;
}

}  // namespace ferrule
