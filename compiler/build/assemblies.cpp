#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "compiler/build/building.hpp"
#include "compiler/language/words.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

constexpr int most_deep = 32;
constexpr std::size_t most_parts = 100'000;

// How many parts an assembly gives, counted without making them: a few lines of text can ask for 2^40.
class Count {
 public:
  explicit Count(Library& library) : library_(library) {}
  std::size_t parts_of(const Definition& definition) {
    if (!definition.assembly_block) return 1;
    const auto [place, fresh] = known_.try_emplace(definition.name, 0);
    if (!fresh) return place->second;  // 0 while it is being counted: a cycle, told when it is expanded
    std::size_t sum = 0;
    for (const Item& item : definition.tree->items_of(definition.tree->blocks[*definition.assembly_block]))
      sum = std::min(most_parts + 1, sum + parts_of_item(*definition.tree, item));
    return known_[definition.name] = sum;
  }

 private:
  std::size_t parts_of_item(const Tree& tree, const Item& item) {
    if (item.count == 0) return 0;
    const std::span<const Term> terms = tree.terms_of(item);
    if (function_named(terms[0].text))
      return static_cast<std::size_t>(std::count_if(terms.begin(), terms.end(), [](const Term& t) { return t.kind == TermKind::block; }));
    const Definition* definition = terms[0].kind == TermKind::word ? library_.definition(terms[0].text) : nullptr;
    return definition ? parts_of(*definition) : 0;
  }

  Library& library_;
  std::map<std::string, std::size_t> known_;
};

bool is_number(const std::string& tag) { return !tag.empty() && tag.find_first_not_of("0123456789") == std::string::npos; }

// What an instance says of the parts inside, by their tags: `jack 2 { A1 stroke 300 mm }`.
struct Sayings {
  std::vector<std::pair<std::string, Cursor>> by_tag;
  std::vector<std::string> tags;  // of the parts that were met
};

std::vector<Cursor> said_of(Sayings& sayings, const std::string& tag) {
  std::vector<Cursor> said;
  for (auto& [name, item] : sayings.by_tag)
    if (name == tag) said.push_back(item);
  sayings.tags.push_back(tag);
  return said;
}

// Takes the tag in front of an item; what has none is reported.
void add_saying(Building& building, Cursor& item, const Definition& definition, Sayings& sayings) {
  if (item.at(TermKind::text)) return;
  const Span at = item.here();
  const std::string tag = item.left() > 1 ? take_name(item) : std::string{};
  if (!tag.empty()) return sayings.by_tag.emplace_back(tag, item), void();
  if (!item.at(TermKind::broken))
    building.reading.report(fault::unknown_fact, at, fmt::format("`{}` says nothing of a part inside {}", building.reading.text(at), definition.name),
                            "write the tag of the part in front: `V1 setting 100 bar`");
}

Sayings sayings_of(Building& building, const ComponentText& instance, std::vector<Cursor> said) {
  Sayings sayings;
  if (instance.of_parts_inside)
    each_item(*instance.tree, *instance.of_parts_inside, [&](Cursor& item) { add_saying(building, item, *instance.definition, sayings); });
  for (Cursor& item : said) add_saying(building, item, *instance.definition, sayings);
  return sayings;
}

// `V1.setting 100 bar` has the tag and the fact joined: the tag is told apart.
void report_unmet(Building& building, const Sayings& sayings, const Definition& definition) {
  for (const auto& [tag, item] : sayings.by_tag) {
    if (std::find(sayings.tags.begin(), sayings.tags.end(), tag) != sayings.tags.end()) continue;
    const std::size_t dot = tag.find('.');
    const std::string first = tag.substr(0, dot);
    const bool joined = dot != std::string::npos && std::find(sayings.tags.begin(), sayings.tags.end(), first) != sayings.tags.end();
    const Span whole = item.whole();
    building.reading.report(fault::unknown_tag, {whole.file, whole.begin, whole.begin + static_cast<std::uint32_t>(tag.size())},
                            fmt::format("{} holds no part `{}`", definition.name, tag),
                            joined ? fmt::format("write `{} {} ...`, with a blank in place of the dot", first, tag.substr(dot + 1))
                                   : write_instead(tag, sayings.tags,
                                                   sayings.tags.empty() ? "leave it out"
                                                                        : fmt::format("write the tag of a part in front: `{} {}`", sayings.tags.front(),
                                                                                      building.reading.text(whole))));
  }
}

// `port P is V2.P` without a V2 inside; told once for all instances.
void report_ports_of_nothing(Building& building, const Sayings& sayings, const Definition& definition) {
  for (const PortOfInside& port : definition.ports_of_inside) {
    const std::string first = port.tag.substr(0, port.tag.find('.'));
    if (std::find(sayings.tags.begin(), sayings.tags.end(), first) != sayings.tags.end()) continue;
    if (building.told.insert(port.span.begin).second)
      building.reading.report(fault::unknown_tag, port.span, fmt::format("{} holds no part `{}`", definition.name, port.tag),
                              write_instead(port.tag, sayings.tags, "it holds " + listed(sayings.tags, "and")));
  }
}

void expand_item(Building& building, const Tree& tree, const Item& item, const std::string& prefix, int depth, Sayings& sayings) {
  Cursor cursor(tree, item);
  const Statement statement{&tree, &item};
  if (cursor.at(TermKind::text)) return;
  if (function_named(cursor.peek().text)) {
    building.runs.push_back({read_run(building.reading, statement, building.library), prefix});
  } else if (cursor.at_word("plugged") || cursor.at_word("open") || cursor.at_word("every")) {
    building.reading.report(fault::statement_misplaced, cursor.here(), fmt::format("`{}` has no place inside an assembly", cursor.peek().text),
                            "write it at the level of the file");
  } else if (cursor.at(TermKind::word)) {
    declare_component(building, statement, prefix, depth + 1, said_of(sayings, std::string(cursor.peek(1).text)));
  } else if (!cursor.at(TermKind::broken)) {
    building.reading.report(fault::statement_unknown, cursor.here(),
                            fmt::format("`{}` begins neither a component nor a run", building.reading.text(cursor.here())),
                            "write a component as `KIND TAG { ... }`");
  }
}

}  // namespace

void expand_assembly(Building& building, const ComponentText& instance, const std::string& prefix, int depth, std::vector<Cursor> said) {
  const Definition& definition = *instance.definition;
  const std::string tag = prefix + instance.tag;
  // A number becomes the circuit number of the parts inside (ISO 1219-2): `jack 2` holds `2V1`.
  const std::string inner = tag + (is_number(instance.tag) ? "" : ".");
  building.instances.emplace(tag, Instance{&definition, inner, instance.tag_span});
  if (depth > most_deep)
    return (void)building.reading.report(fault::assembly_cycle, instance.kind_span,
                                         fmt::format("`{}` holds itself, or assemblies stand more than {} deep", definition.name, most_deep),
                                         "take it out of its own inside");
  Count count(building.library);
  if (building.circuit.parts.size() + count.parts_of(definition) > most_parts)
    return (void)building.reading.report(fault::too_many_parts, instance.tag_span,
                                         fmt::format("with `{}` the circuit has more than {} components", tag, most_parts), "split the circuit");
  Sayings sayings = sayings_of(building, instance, std::move(said));
  const Tree& tree = *definition.tree;
  for (const Item& item : tree.items_of(tree.blocks[*definition.assembly_block]))
    if (!item.broken && item.count > 0) expand_item(building, tree, item, inner, depth, sayings);
  report_unmet(building, sayings, definition);
  report_ports_of_nothing(building, sayings, definition);
}

}  // namespace ferrule
