#include "compiler/language/cursor.hpp"

namespace ferrule {
namespace {
const Term nothing;
}

Cursor::Cursor(const Tree& tree, const Item& item) : Cursor(tree, tree.terms_of(item), item.span) {}

Cursor::Cursor(const Tree& tree, std::span<const Term> terms, Span whole) : tree_(&tree), terms_(terms), whole_(whole) {}

const Term& Cursor::peek(std::size_t ahead) const {
  return next_ + ahead < terms_.size() ? terms_[next_ + ahead] : nothing;
}

const Term& Cursor::take() { return terms_[next_++]; }

bool Cursor::at_word(std::string_view word, std::size_t ahead) const {
  const Term& term = peek(ahead);
  return term.kind == TermKind::word && term.text == word;
}

bool Cursor::at_sign(std::string_view sign, std::size_t ahead) const {
  const Term& term = peek(ahead);
  return term.kind == TermKind::sign && term.text == sign;
}

bool Cursor::take_word(std::string_view word) {
  if (!at_word(word)) return false;
  ++next_;
  return true;
}

bool Cursor::take_sign(std::string_view sign) {
  if (!at_sign(sign)) return false;
  ++next_;
  return true;
}

const Term* Cursor::take_kind(TermKind kind) { return at(kind) && !done() ? &take() : nullptr; }

const Block* Cursor::take_block() {
  const Term* term = take_kind(TermKind::block);
  return term ? &tree_->block_of(*term) : nullptr;
}

Span Cursor::since(std::size_t mark) const {
  if (mark >= next_) return here();
  return joined(terms_[mark].span, terms_[next_ - 1].span);
}

Span Cursor::here() const {
  if (!done()) return terms_[next_].span;
  const Span last = terms_.empty() ? whole_ : terms_.back().span;
  return {last.file, last.end, last.end};
}

Span Cursor::rest() const { return done() ? here() : joined(terms_[next_].span, terms_.back().span); }

}  // namespace ferrule
