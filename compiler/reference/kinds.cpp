// `ferrule list` for a terminal.
#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/results.hpp"
#include "compiler/reference/reference.hpp"
#include "compiler/reference/words.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

std::string row(std::string_view first, std::string_view second, std::size_t width) {
  return fmt::format("    {:<{}}  {}\n", first, width, second);
}

template <class Rows>
std::size_t width_of(const Rows& rows) {
  std::size_t width = 0;
  for (const auto& entry : rows) width = std::max(width, entry.name.size());
  return width;
}

std::string ports_text(const Definition& definition) {
  std::string text;
  const std::size_t width = width_of(definition.ports);
  for (const PortSpec& port : definition.ports) text += row(port.name, port.text + use_of(port), width);
  if (definition.ports_from_rows) text += "    the ports that its positions name\n";
  if (definition.ports_as_named) text += "    as many as runs end at it; all are one point\n";
  for (const PortOfInside& port : definition.ports_of_inside) text += row(port.name, "is " + port.tag + "." + port.port, 2);
  return text.empty() ? text : "  ports\n" + text;
}

std::string facts_text(const Definition& definition) {
  std::string text;
  const std::size_t width = width_of(definition.facts);
  for (const FactSpec& fact : definition.facts) {
    text += row(fact.name, fact.text.empty() ? type_of(fact) : fact.text, width);
    if (!fact.text.empty()) text += row("", type_of(fact), width);
  }
  return text.empty() ? text : "  facts\n" + text;
}

std::string positions_text(const Definition& definition) {
  std::string text;
  for (const PositionRow& position : definition.rows) text += row(position.name, paths_of(position), 2);
  return text.empty() ? text : "  positions\n" + text;
}

std::string rules_text(const Definition& definition) {
  std::string text;
  for (const auto& size : definition.sizes) text += fmt::format("  size     {}\n", size_of(size));
  for (const Through& through : definition.through)
    text += fmt::format("  through  {} {} {}\n", through.from, through.both_ways ? "-" : ">", through.to);
  for (const auto& set : definition.enough) text += "  enough   " + listed(set, "and") + "\n";
  for (const Relation& relation : definition.always) text += fmt::format("  always   `{}` below `{}`\n", relation.smaller, relation.larger);
  return text;
}

std::vector<std::string_view> words_of(std::span<const Parameter> ids) {
  std::vector<std::string_view> words;
  for (const Parameter id : ids) words.push_back(parameters()[static_cast<std::size_t>(id)].word);
  return words;
}

}  // namespace

std::string list_of_kinds(Library& library, const Sources& sources) {
  const std::vector<Group> groups = groups_of(library, sources);
  std::size_t width = 0;
  for (const Group& group : groups)
    for (const Definition* kind : group.kinds) width = std::max(width, kind->name.size());
  std::string text;
  for (const Group& group : groups) {
    text += (text.empty() ? "" : "\n") + group.title + "\n";
    for (const Definition* kind : group.kinds) text += fmt::format("  {:<{}}  {}\n", kind->name, width, kind->term);
  }
  return text;
}

std::string reference_of_kind(Library& library, std::string_view name) {
  const Definition* definition = library.definition(name);
  if (!definition) return {};
  std::string text = fmt::format("{}: {}\n", definition->name, definition->term);
  if (!definition->says.empty()) text += "  " + said_of(*definition) + "\n";
  if (!definition->like.empty()) text += "  like     " + definition->like + "\n";
  return text + rules_text(*definition) + ports_text(*definition) + facts_text(*definition) + positions_text(*definition);
}

std::string reference_of_elements() {
  std::string text;
  for (const ElementInfo& element : element_kinds()) {
    text += fmt::format("{}{}{}\n  {}\n", element.word, element.ends.empty() ? "" : "  ", element.ends, element.law);
    if (!element.parameters.empty()) text += "  parameters  " + in_a_row(words_of(element.parameters)) + "\n";
    if (!element.flags.empty()) text += "  flags       " + in_a_row(element.flags) + "\n";
  }
  return text;
}

std::string reference_of_operators(Library& library) {
  std::string text;
  for (const std::string& word : library.operator_words())
    if (const StrokePart* part = library.operator_part(word)) text += fmt::format("{:<24}{}\n", word, part->term);
  return text;
}

std::string list_of_units() {
  std::string text;
  for (const UnitRow& unit : unit_rows()) {
    text += fmt::format("{:<18} as {}\n", unit.dimension, unit.example);
    std::string line = "   ";
    for (const std::string& symbol : unit.units) {
      if (line.size() + symbol.size() + 2 > 80) text += line + "\n", line = "   ";
      line += " " + symbol + (&symbol == &unit.units.back() ? "" : ",");
    }
    text += line + "\n";
  }
  return text +
         "\nA blank stands between number and unit: 160 bar. Pasted °C, µm, cm³/rev and N·m are read too.\n"
         "A pressure is gauge pressure unless `abs` follows: 2 bar abs. A unit after a pair serves both: 0 to 250 bar.\n";
}

std::string list_of_results() {
  std::string text;
  for (const ResultWord& result : result_words()) {
    std::string of = result.dimension == dimension::none ? "number" : name_of(result.dimension);
    if (!(result.other == result.dimension)) of += " or " + name_of(result.other);
    text += fmt::format("{:<12} {:<22} {}\n", result.word, of, result.text);
  }
  return text;
}

}  // namespace ferrule
