// A finger on the terms of one item: what comes next, and taking it.
#pragma once

#include <span>
#include <string_view>

#include "grammar/tree.hpp"

namespace ferrule {

// One statement of a file: an item of a block.
struct Statement {
  const Tree* tree = nullptr;
  const Item* item = nullptr;
  Span span() const { return item->span; }
};

class Cursor {
 public:
  Cursor(const Tree& tree, const Item& item);
  Cursor(const Tree& tree, std::span<const Term> terms, Span whole);  // terms of one item; `whole` when there are none

  const Tree& tree() const { return *tree_; }
  bool done() const { return next_ == terms_.size(); }
  std::size_t left() const { return terms_.size() - next_; }
  // The term `ahead` of the next one; past the end a term of kind `broken` without text.
  const Term& peek(std::size_t ahead = 0) const;
  const Term& take();                    // must not be called when done
  void skip_all() { next_ = terms_.size(); }

  bool at(TermKind kind, std::size_t ahead = 0) const { return peek(ahead).kind == kind; }
  bool at_word(std::string_view word, std::size_t ahead = 0) const;
  bool at_sign(std::string_view sign, std::size_t ahead = 0) const;
  bool take_word(std::string_view word);  // true when it stood there and was taken
  bool take_sign(std::string_view sign);
  const Term* take_kind(TermKind kind);   // null when another kind stands there
  const Block* take_block();              // null when none stands there

  // Marks for spans: `since(mark)` reaches from the term at `mark` to the last one taken.
  std::size_t mark() const { return next_; }
  void back_to(std::size_t mark) { next_ = mark; }
  Span since(std::size_t mark) const;
  Span here() const;                      // the next term; at the end an empty span behind the last one
  Span rest() const;                      // from the next term to the last
  Span whole() const { return whole_; }
  std::span<const Term> terms() const { return terms_; }

 private:
  const Tree* tree_;
  std::span<const Term> terms_;
  Span whole_;
  std::size_t next_ = 0;
};

// The items of a block, one cursor each, broken ones left out (their message was given).
template <class Read>
void each_item(const Tree& tree, const Block& block, Read read) {
  for (const Item& item : tree.items_of(block)) {
    if (item.broken || item.count == 0) continue;
    Cursor cursor(tree, item);
    read(cursor);
  }
}

}  // namespace ferrule
