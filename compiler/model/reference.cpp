#include "compiler/model/reference.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/rows.hpp"
#include "compiler/language/names.hpp"

namespace ferrule {
namespace {

// The terms of a formula as they are written, a blank where one stood.
std::string written(const Formula& formula) {
  std::string text;
  for (std::uint32_t i = 0; i < formula.count; ++i) {
    const Term& term = formula.tree->terms[formula.first + i];
    if (i > 0 && term.space_before) text += ' ';
    text += term.text;
  }
  return text;
}

std::string dimension_word(Dimension dimension) { return dimension == dimension::none ? "number" : name_of(dimension); }

std::string kind_word(const FactSpec& fact) {
  switch (fact.kind) {
    case FactKind::quantity: return dimension_word(fact.dimension);
    case FactKind::quantity_at: return dimension_word(fact.dimension) + " at " + dimension_word(fact.at);
    case FactKind::range: return "range of " + dimension_word(fact.dimension);
    case FactKind::list: return "list of " + dimension_word(fact.dimension);
    case FactKind::flag: return "stands alone";
    case FactKind::choice: return listed(fact.choices);
    case FactKind::text: return "text";
    case FactKind::tag: return "tag";
  }
  return {};
}

std::string example_word(const FactSpec& fact) {
  if (fact.dimension == dimension::none) return {};
  const std::string example = example_of(fact.dimension);
  if (fact.kind == FactKind::quantity) return ", as `" + example + "`";
  if (fact.kind == FactKind::quantity_at) return ", as `" + example + (fact.at == dimension::none ? "" : " at " + example_of(fact.at)) + "`";
  if (fact.kind == FactKind::range) return ", as `0 to " + example + "`";
  return {};
}

std::string row(std::string_view first, std::string_view second, std::size_t width) {
  return fmt::format("    {:<{}}  {}\n", first, width, second);
}

template <class Rows>
std::size_t width_of(const Rows& rows) {
  std::size_t width = 0;
  for (const auto& entry : rows) width = std::max(width, entry.name.size());
  return width;
}

std::string use_word(const PortSpec& port) {
  static constexpr std::string_view words[] = {"", "pilot", "drain", "mechanical", "electrical"};
  std::string text(words[static_cast<std::size_t>(port.use)]);
  if (port.may_stay_open) text += text.empty() ? "may stay open" : ", may stay open";
  return text.empty() ? text : " (" + text + ")";
}

std::string ports_text(const Definition& definition) {
  std::string text;
  const std::size_t width = width_of(definition.ports);
  for (const PortSpec& port : definition.ports) text += row(port.name, port.text + use_word(port), width);
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
  for (const PositionRow& position : definition.rows) {
    std::string paths;
    for (const RowPath& path : position.paths) paths += (paths.empty() ? "" : " ") + name_of(path);
    for (const Actuation& by : position.by) paths += " by " + by.means;
    text += row(position.name, paths.empty() || position.closed ? "closed" + paths : paths, 2);
  }
  return text.empty() ? text : "  positions\n" + text;
}

std::string rules_text(const Definition& definition) {
  std::string text;
  for (const auto& size : definition.sizes) text += fmt::format("  size     {}\n", fmt::join(size, " "));
  for (const Through& through : definition.through)
    text += fmt::format("  through  {} {} {}\n", through.from, through.both_ways ? "-" : ">", through.to);
  for (const auto& set : definition.enough) text += "  enough   " + listed(set, "and") + "\n";
  for (const Relation& relation : definition.always) text += fmt::format("  always   `{}` below `{}`\n", relation.smaller, relation.larger);
  return text;
}

struct Heading {
  std::string_view tier, title;
};
constexpr Heading headings[] = {{"supply", "Power supply"}, {"control", "Directional control"}, {"modulation", "Pressure, flow and non-return"},
                                {"actuator", "Actuators"},  {"line", "Lines"},                  {"none", "Not drawn"},
                                {"", "Other"}};

bool under(const Definition& definition, std::string_view tier) {
  if (!tier.empty()) return definition.tier == tier;
  return std::none_of(std::begin(headings), std::end(headings), [&](const Heading& h) { return h.tier == definition.tier && !h.tier.empty(); });
}

template <class Words>
std::string in_a_row(const Words& words) {
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : ", ") + std::string(word);
  return text;
}

std::vector<std::string_view> words_of(std::span<const Parameter> ids) {
  std::vector<std::string_view> words;
  for (const Parameter id : ids) words.push_back(parameters()[static_cast<std::size_t>(id)].word);
  return words;
}

}  // namespace

std::string type_of(const FactSpec& fact) {
  std::string text = kind_word(fact) + example_word(fact);
  if (!fact.then.empty()) text += ", then " + listed(fact.then);
  if (fact.low) text += ", from " + shown({*fact.low, fact.dimension});
  if (fact.high) text += " to " + shown({*fact.high, fact.dimension});
  if (fact.preset) text += ", default " + written(*fact.preset) + (fact.preset_at ? " at " + written(*fact.preset_at) : "");
  if (!fact.source.empty()) text += " (" + fact.source + ")";
  if (fact.command) text += ", a step may set it";
  return text;
}

std::string list_of_kinds(Library& library) {
  std::string text;
  const std::vector<std::string> names = library.definition_names();
  std::size_t width = 0;
  for (const std::string& name : names) width = std::max(width, name.size());
  for (const Heading& heading : headings) {
    std::string rows;
    for (const std::string& name : names)
      if (const Definition* definition = library.definition(name); definition && under(*definition, heading.tier))
        rows += fmt::format("  {:<{}}  {}\n", name, width, definition->term);
    if (!rows.empty()) text += (text.empty() ? "" : "\n") + std::string(heading.title) + "\n" + rows;
  }
  return text;
}

std::string reference_of_kind(Library& library, std::string_view name) {
  const Definition* definition = library.definition(name);
  if (!definition) return {};
  std::string text = fmt::format("{}: {}\n", definition->name, definition->term);
  if (!definition->says.empty()) text += "  " + definition->says + "\n";
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
    if (const StrokePart* part = library.operator_part(word)) text += fmt::format("  {:<24}{}\n", word, part->term);
  return text;
}

}  // namespace ferrule
