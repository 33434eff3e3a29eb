// The syntax tree. It knows words, numbers, texts, signs and braces; it never hears of a pump.
//
// A block is a list of items, an item is a list of terms, and a term may be a braced block again:
//     pressure 0P1.P -- {tube 16 x 2 mm, length 1.5 m} -- 1V1.P
// is one item of the terms  word word dash block dash word.  What an item means is read by compiler/language.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "grammar/message.hpp"
#include "grammar/source.hpp"

namespace ferrule {

enum class TermKind : std::uint8_t {
  word,    // `0V1.P`, `relief-valve`, `cm3/rev`, `%`, `P-A-T`, `1-2`, `20/18/15`: word characters that are no number
  number,  // `12`, `-30`, `1.5`, `.5`, `3/8`, `1 1/4`, `4:1`, `1e300`, `1,5`; its sign touches it
  text,    // "..." without its quotes in `Term::text`; see unescaped()
  date,    // 2026-03-01
  dash,    // `--`
  sign,    // one of > < <> |> ~ - ( ) + * / = : the bare hyphen between blanks, a comma in parentheses
  block,   // { ... }
  broken,  // what the reader had to skip; a message names it
};

struct Term {
  TermKind kind = TermKind::broken;
  bool space_before = false;   // blanks stood before it (path arrows may go without, operators may not)
  Span span;                   // as written, quotes and braces included
  std::string_view text;       // the spelling; for `text` without the quotes; for `block` empty
  std::uint32_t block = 0;     // index into Tree::blocks when kind == block
};

struct Item {
  Span span;
  std::uint32_t first = 0, count = 0;  // its terms in Tree::terms
  bool broken = false;                 // a message was already given; readers stay silent about what is missing
};

struct Block {
  Span span;                           // with its braces; the whole file for block 0
  std::uint32_t first = 0, count = 0;  // its items in Tree::items
  bool one_line = false;               // the author wrote it on one line; `fmt` keeps that
};

struct Comment {
  Span span;      // from `#` to the line's last character
  bool own_line;  // nothing but blanks before it
};

struct Tree {
  std::uint32_t file = 0;
  std::vector<Term> terms;
  std::vector<Item> items;
  std::vector<Block> blocks;  // [0] is the file
  std::vector<Comment> comments;

  std::span<const Item> items_of(const Block& block) const { return {items.data() + block.first, block.count}; }
  std::span<const Term> terms_of(const Item& item) const { return {terms.data() + item.first, item.count}; }
  const Block& block_of(const Term& term) const { return blocks[term.block]; }
};

// The characters a text stands for (\" and \\ resolved).
std::string unescaped(const Term& text);

}  // namespace ferrule
