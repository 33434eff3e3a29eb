// `cylinder C2 like C1 "right" { bore 63 mm }`: the head of a component and its block.
#pragma once

#include <optional>
#include <string>

#include "compiler/language/facts.hpp"

namespace ferrule {

struct ComponentText {
  const Definition* definition = nullptr;  // null when the kind is unknown; the tag is declared all the same
  std::string kind, tag, like, description;
  Span kind_span, tag_span, like_span, statement;
  FactsText facts;
  const Tree* tree = nullptr;           // an assembly: the block that says things of the parts inside, unread
  const Block* of_parts_inside = nullptr;
};

// Whose facts a component of this kind states; rows may stand in it when its ports come from rows.
FactOwner owner_of(const Definition& definition, Library& library);

// Reads the whole statement; the library gives the definition. None when there is no tag (a message was given).
std::optional<ComponentText> read_component(Reading& reading, const Statement& statement, Library& library);

// One more item about a component, said by the assembly that it stands in: it takes the place of what the block states.
void say_of(Reading& reading, Cursor& item, Library& library, ComponentText& text);

// The size of a pipe as its definition writes it (`22 x 1.5 mm`, `DN 32`, `50 mm`) as facts. Nothing happens when no size
// stands there.
void read_size(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into);

// A pipe in braces: kind, tag if it has one, size, facts. The tag is empty when it has none.
std::optional<ComponentText> read_pipe(Reading& reading, const Tree& tree, const Block& block, Library& library);

// "`tube 16 x 2 mm` or `tube 16 mm`": how the size of a pipe may be written.
std::string sizes_in_words(const Definition& definition);

// Tells once that no definition has this name.
void report_unknown_kind(Reading& reading, std::string_view kind, Span at, Library& library);

}  // namespace ferrule
