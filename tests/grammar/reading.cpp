#include "grammar/reading.hpp"

#include <fmt/format.h>

namespace ferrule {
namespace {

const char* const kind_names[] = {"word", "number", "text", "date", "dash", "sign", "block", "broken"};

std::string shape(const Tree& tree, const Block& block) {
  std::string out;
  for (const Item& item : tree.items_of(block)) {
    out += item.broken ? "!(" : "(";
    bool first = true;
    for (const Term& term : tree.terms_of(item)) {
      if (!first) out += term.space_before ? " " : "^";
      first = false;
      if (term.kind == TermKind::block) out += "{" + shape(tree, tree.block_of(term)) + "}";
      else out += fmt::format("{}:{}", kind_names[static_cast<int>(term.kind)], term.text);
    }
    out += ")";
  }
  return out;
}

std::string place(const ReadText& read, Span span) {
  const Position position = position_of(read.source(), span.begin);
  return fmt::format("{}:{}", position.line, position.column);
}

}  // namespace

std::string shape(const Tree& tree) { return shape(tree, tree.blocks[0]); }

std::string faults(const ReadText& read) {
  std::string out;
  for (const Message& message : read.parsed.messages) {
    out += fmt::format("{} {}", place(read, message.places[0].span), message.rule);
    if (message.places.size() > 1) out += " -> " + place(read, message.places[1].span);
    out += "\n";
  }
  return out;
}

}  // namespace ferrule
