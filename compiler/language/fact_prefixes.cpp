#include "compiler/language/fact_prefixes.hpp"

#include <algorithm>

#include "compiler/language/rows.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

bool is_element_prefix(const Cursor& cursor, const Definition& definition) {
  if (!cursor.at(TermKind::word)) return false;
  const ElementSpec* element = definition.element(cursor.peek().text);
  std::size_t words = 0;
  return element && cursor.at(TermKind::word, 1) &&
         (fact_at(cursor, definition, 1, words) || parameter_fact(*element, cursor.peek(1).text));
}

bool is_port_prefix(const Cursor& cursor, const Definition& definition) {
  if (cursor.left() < 2 || !(cursor.at(TermKind::word) || cursor.at(TermKind::number))) return false;
  const std::string_view word = cursor.peek().text;
  return is_port_name(word) && (definition.port(word) || definition.ports_from_rows || definition.ports_as_named);
}

}  // namespace

const FactSpec* fact_at(const Cursor& cursor, const Definition& definition, std::size_t ahead, std::size_t& words) {
  if (!cursor.at(TermKind::word, ahead)) return nullptr;
  words = 1;
  if (const FactSpec* fact = definition.fact(cursor.peek(ahead).text)) return fact;
  if (!cursor.at(TermKind::word, ahead + 1)) return nullptr;
  words = 2;
  return definition.fact(std::string(cursor.peek(ahead).text) + "-" + std::string(cursor.peek(ahead + 1).text));
}

std::optional<FactSpec> parameter_fact(const ElementSpec& element, std::string_view word) {
  const ElementInfo& info = info_of(element.kind);
  const auto id = parameter_named(word);
  if (!id || std::find(info.parameters.begin(), info.parameters.end(), *id) == info.parameters.end()) return {};
  FactSpec spec;
  spec.name = word;
  for (const ParameterInfo& parameter : parameters()) {
    if (parameter.id == *id) spec.dimension = parameter.dimension;
    if (parameter.word == std::string(word) + "-flow") {
      spec.kind = FactKind::quantity_at;
      spec.at = parameter.dimension;
    }
  }
  return spec;
}

std::vector<FactPrefix> take_prefixes(Cursor& cursor, const Definition& definition) {
  std::vector<FactPrefix> prefixes;
  while (!cursor.done()) {
    if (const auto path = take_path(cursor)) {
      prefixes.push_back({name_of(*path)});
    } else if (is_port_prefix(cursor, definition)) {
      prefixes.push_back({take_name(cursor)});
    } else if (is_element_prefix(cursor, definition)) {
      const ElementSpec* element = definition.element(cursor.peek().text);
      prefixes.push_back({take_name(cursor), element});
    } else {
      break;
    }
  }
  return prefixes;
}

}  // namespace ferrule
