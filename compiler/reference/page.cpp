// The generated parts of grammar/LANGUAGE.md.
#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/facts.hpp"
#include "compiler/language/results.hpp"
#include "compiler/reference/reference.hpp"
#include "compiler/reference/words.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

// A bar would end the cell of a table.
std::string cell(std::string text) {
  for (std::size_t at = 0; (at = text.find('|', at)) != std::string::npos; at += 2) text.insert(at, "\\");
  return text;
}

std::string value_cell(const FactSpec& fact) {
  std::string text = value_of(fact);
  if (const std::string limits = limits_of(fact); !limits.empty()) text += ", " + limits;
  if (const std::string preset = preset_of(fact); !preset.empty()) text += "; default " + preset;
  return fact.command ? text + "; a step may set it" : text;
}

bool same(const FactSpec& a, const FactSpec& b) { return a.text == b.text && type_of(a) == type_of(b); }

std::string facts_table(const std::vector<const FactSpec*>& facts) {
  if (facts.empty()) return {};
  std::string text = "\n| fact | value | |\n|---|---|---|\n";
  for (const FactSpec* fact : facts) text += fmt::format("| `{}` | {} | {} |\n", fact->name, cell(value_cell(*fact)), cell(fact->text));
  return text;
}

// What a kind says besides the one that it is like.
std::vector<const FactSpec*> own_facts(const Definition& kind, const Definition* like) {
  std::vector<const FactSpec*> own;
  for (const FactSpec& fact : kind.facts) {
    const FactSpec* before = like ? like->fact(fact.name) : nullptr;
    if (!before || !same(*before, fact)) own.push_back(&fact);
  }
  return own;
}

std::string ports_line(const Definition& kind) {
  std::vector<std::string> ports;
  for (const PortSpec& port : kind.ports) ports.push_back("`" + port.name + "` " + port.text + use_of(port));
  if (kind.ports_from_rows) ports.push_back("those that its positions name");
  if (kind.ports_as_named) ports.push_back("as many as runs end at it; all are one point");
  return ports.empty() ? "" : fmt::format("Ports: {}.", fmt::join(ports, "; "));
}

std::string ways_line(const Definition& kind) {
  std::vector<std::string> ways, sizes, sets;
  for (const Through& way : kind.through) ways.push_back(fmt::format("`{} {} {}`", way.from, way.both_ways ? "-" : ">", way.to));
  for (const auto& size : kind.sizes) sizes.push_back("`" + size_of(size) + "`");
  for (const auto& set : kind.enough) sets.push_back(listed(set, "and"));
  std::string text;
  if (!ways.empty()) text += fmt::format(" Stands in a run: {}.", fmt::join(ways, ", "));
  if (!sizes.empty()) text += fmt::format(" Size: {}.", fmt::join(sizes, " or "));
  if (!sets.empty()) text += fmt::format(" Enough: {}.", fmt::join(sets, "; or "));
  for (const Relation& relation : kind.always) text += fmt::format(" Always `{}` below `{}`.", relation.smaller, relation.larger);
  return text;
}

std::string positions_line(const Definition& kind) {
  std::vector<std::string> rows;
  for (const PositionRow& row : kind.rows) rows.push_back(fmt::format("`{}` {}", row.name, paths_of(row)));
  return rows.empty() ? "" : fmt::format(" Positions: {}.", fmt::join(rows, "; "));
}

bool same_ports(const Definition& kind, const Definition& other) { return ports_line(kind) == ports_line(other) && ways_line(kind) == ways_line(other); }

std::string kind_text(const Definition& kind, const Definition* like) {
  std::string text = fmt::format("\n**`{}`** {}", kind.name, kind.term);
  if (!kind.says.empty()) text += "; " + said_of(kind);
  text += ".";
  if (like) text += fmt::format(" As `{}`{}.", like->name, own_facts(kind, like).empty() ? "" : ", besides");
  if (!like || !same_ports(kind, *like)) {
    const std::string ports = ports_line(kind);
    text += (ports.empty() ? "" : " ") + ports + ways_line(kind);
  }
  return text + positions_line(kind) + "\n" + facts_table(own_facts(kind, like));
}

std::string kinds_part(Library& library, const Sources& sources) {
  std::string text;
  for (const Group& group : groups_of(library, sources)) {
    text += (text.empty() ? "### " : "\n### ") + group.title + "\n";
    for (const Definition* kind : group.kinds) text += kind_text(*kind, kind->like.empty() ? nullptr : library.definition(kind->like));
  }
  return text;
}

std::string elements_part(Library&, const Sources&) {
  std::string text = "| element | ends | law | parameters | flags |\n|---|---|---|---|---|\n";
  for (const ElementInfo& element : element_kinds()) {
    std::vector<std::string_view> words;
    for (const Parameter id : element.parameters) words.push_back(parameters()[static_cast<std::size_t>(id)].word);
    text += fmt::format("| `{}` | {} | {} | {} | {} |\n", element.word, element.ends.empty() ? "" : fmt::format("`{}`", element.ends), element.law,
                        in_a_row(words, "`", "`"), in_a_row(element.flags, "`", "`"));
  }
  return text;
}

std::string operators_part(Library& library, const Sources&) {
  std::string text = "| `by` | |\n|---|---|\n";
  for (const std::string& word : library.operator_words())
    if (const StrokePart* part = library.operator_part(word)) text += fmt::format("| `{}` | {} |\n", word, part->term);
  return text;
}

std::string units_part(Library&, const Sources&) {
  std::string text = "| quantity | units |\n|---|---|\n";
  for (const UnitRow& row : unit_rows()) text += fmt::format("| {} | {} |\n", row.dimension, in_a_row(row.units, "`", "`"));
  return text;
}

std::string results_part(Library&, const Sources&) {
  std::string text = "| result | value | |\n|---|---|---|\n";
  for (const ResultWord& result : result_words()) {
    std::string value = result.dimension == dimension::none ? "number" : name_of(result.dimension);
    if (!(result.other == result.dimension)) value += " or " + name_of(result.other);
    text += fmt::format("| `{}` | {} | {} |\n", result.word, value, result.text);
  }
  return text;
}

std::string statements_part(Library&, const Sources&) {
  std::string text;
  for (const Definition* facts : {&circuit_facts(), &fluid_facts(), &tie_facts()})
    text += fmt::format("{}**`{}`** {}.\n{}", text.empty() ? "" : "\n", facts->name, facts->term, facts_table(own_facts(*facts, nullptr)));
  return text;
}

struct Chapter {
  std::string_view name;
  std::string (*made)(Library&, const Sources&);
};
constexpr Chapter chapters[] = {{"kinds", kinds_part},         {"elements", elements_part}, {"operators", operators_part},
                          {"units", units_part},         {"results", results_part},   {"statements", statements_part}};

}  // namespace

std::string page_renewed(std::string_view page, Library& library, const Sources& sources) {
  std::string text(page);
  for (const Chapter& chapter : chapters) {
    const std::string begins = fmt::format("<!-- generated {} -->\n", chapter.name), ends = fmt::format("<!-- end {} -->", chapter.name);
    const std::size_t from = text.find(begins), to = text.find(ends);
    if (from == std::string::npos || to == std::string::npos || to < from) continue;
    text.replace(from + begins.size(), to - from - begins.size(), "\n" + chapter.made(library, sources) + "\n");
  }
  return text;
}

}  // namespace ferrule
