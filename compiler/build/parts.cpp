#include <algorithm>

#include <fmt/format.h>

#include "compiler/build/building.hpp"
#include "compiler/build/resolve.hpp"
#include "compiler/language/rows.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

// ISO 1219-2: `0V1` belongs to circuit 0, `2A1.1` to circuit 2.
int circuit_number_of(std::string_view tag, std::string_view prefix) {
  if (prefix.ends_with('.')) tag.remove_prefix(std::min(prefix.size(), tag.size()));
  int number = 0;
  std::size_t digits = 0;
  while (digits < tag.size() && digits < 4 && tag[digits] >= '0' && tag[digits] <= '9') number = number * 10 + (tag[digits++] - '0');
  const bool letter_follows = digits < tag.size() && tag[digits] >= 'A' && tag[digits] <= 'Z';
  return digits > 0 && letter_follows ? number : -1;
}

// ---------------------------------------------------------------- like

bool states(const std::vector<FactValue>& facts, const FactValue& fact) {
  return std::any_of(facts.begin(), facts.end(), [&](const FactValue& other) { return other.name == fact.name && other.belongs_to == fact.belongs_to; });
}

void copy_missing(Building& building, PartId part, const std::vector<FactValue>& facts) {
  Part& own = building.circuit.parts[part];
  for (const FactValue& fact : facts) {
    const bool known = own.definition->fact(fact.name) || !fact.belongs_to.empty();
    if (known && !states(own.facts, fact) && !building.text(part).broken.contains(fact.name)) own.facts.push_back(fact);
  }
}

void copy_rows(Building& building, PartId from, PartId to) {
  std::vector<PositionRow> rows = building.circuit.parts[from].positions;
  for (PositionRow& row : rows)
    for (Actuation& by : row.by)
      if (by.means.find("pilot") == std::string::npos) by.tag.clear();  // a solenoid belongs to one valve; a pilot port is the kind's
  for (PositionRow& own : building.circuit.parts[to].positions) place_row(rows, std::move(own));
  building.circuit.parts[to].positions = std::move(rows);
}

void copy_like(Building& building, PartId part) {
  PartText& text = building.text(part);
  if (text.copied != PartText::State::waiting || text.like.empty()) {
    if (text.copied == PartText::State::working)
      building.reading.report(fault::like_cycle, text.like_span, fmt::format("`{}` is like itself", building.circuit.parts[part].tag),
                              "make it like another component");
    text.copied = PartText::State::done;
    return;
  }
  text.copied = PartText::State::working;
  PartId base = building.circuit.part_named(text.prefix + text.like);
  if (!base) base = part_tagged(building.reading, building.circuit, text.like, text.like_span);
  if (base) {
    copy_like(building, base);
    // What is unknown of the other is unknown here; so it is told once.
    building.text(part).unclear |= building.text(base).unclear;
    building.text(part).rows_unclear |= building.text(base).rows_unclear;
    building.text(part).silent |= building.text(base).silent;
    const std::set<std::string> broken = building.text(base).broken;
    building.text(part).broken.insert(broken.begin(), broken.end());
    copy_missing(building, part, std::vector<FactValue>(building.circuit.parts[base].facts));
    copy_rows(building, base, part);
  } else {
    building.text(part).silent = true;
  }
  building.text(part).copied = PartText::State::done;
}

// ---------------------------------------------------------------- every

bool is_of_kind(Building& building, const Definition& definition, const std::string& kind) {
  if (definition.name == kind || definition.role(kind)) return true;
  const Definition* base = &definition;
  for (int steps = 0; !base->like.empty() && steps < 64; ++steps) {
    if (base->like == kind) return true;
    base = building.library.definition(base->like);
    if (!base) return false;
  }
  return false;
}

void copy_every(Building& building, const EveryText& every) {
  std::map<const Definition*, bool> meant;
  for (std::uint32_t i = 0; i < building.circuit.parts.size(); ++i) {
    const Definition* definition = building.circuit.parts.rows[i].definition;
    const auto [place, fresh] = meant.try_emplace(definition, false);
    if (fresh) place->second = is_of_kind(building, *definition, every.kind);
    if (!place->second) continue;
    copy_missing(building, {i}, every.facts.facts);
    building.texts[i].broken.insert(every.facts.broken.begin(), every.facts.broken.end());
  }
}

}  // namespace

void report_duplicate(Building& building, const std::string& tag, Span second, Span first) {
  Message& message = building.reading.report(fault::tag_duplicate, second, fmt::format("the tag `{}` is used twice", tag),
                                             "give one of them another tag", "again here");
  message.places.push_back({first, "first here"});
  message.subject = tag;
}

bool tag_taken(Building& building, const std::string& tag, Span at) {
  if (const PartId other = building.circuit.part_named(tag)) {
    report_duplicate(building, tag, at, building.circuit.parts[other].span);
    return true;
  }
  const auto instance = building.instances.find(tag);
  if (instance == building.instances.end()) return false;
  report_duplicate(building, tag, at, instance->second.span);
  return true;
}

const Definition& unknown_definition() {
  static const Definition unknown = [] {
    Definition definition;
    definition.name = "unknown";
    definition.term = "component of unknown kind";
    definition.tier = "none";
    return definition;
  }();
  return unknown;
}

PartId add_part(Building& building, ComponentText text, const std::string& prefix) {
  Part part;
  part.tag = prefix + text.tag;
  part.description = std::move(text.description);
  part.prose = std::move(text.facts.prose);
  part.definition = text.definition;
  part.assembly = prefix.ends_with('.') ? prefix.substr(0, prefix.size() - 1) : prefix;
  part.circuit_number = circuit_number_of(part.tag, prefix);
  part.facts = std::move(text.facts.facts);
  part.positions = std::move(text.facts.rows);
  part.span = text.tag_span;
  part.statement = text.statement;
  PartText kept;
  kept.broken = std::move(text.facts.broken);
  kept.unclear = text.facts.unclear;
  kept.rows_unclear = text.facts.rows_unclear;
  kept.operated = std::move(text.facts.operated);
  kept.rest = std::move(text.facts.rest);
  kept.rest_span = text.facts.rest_span;
  kept.like = std::move(text.like);
  kept.like_span = text.like_span;
  kept.prefix = prefix;
  kept.silent = part.definition == &unknown_definition() || part.definition->unclear;
  const std::string tag = part.tag;
  const PartId id = building.circuit.parts.add(std::move(part));
  building.texts.push_back(std::move(kept));
  if (!tag.empty()) building.circuit.by_tag.emplace(tag, id);
  return id;
}

// Of two parts of unlike kinds with one tag it is unknown which one the uses mean, and the tag that one of them was meant to
// have is used somewhere.
void doubt_first(Building& building, const std::string& tag, const Definition* other) {
  building.reading.names_missing = true;
  const PartId first = building.circuit.part_named(tag);
  if (!first || building.circuit.parts[first].definition == other) return;
  building.text(first).silent = building.text(first).rows_unclear = true;
  building.reading.doubtful.insert(tag);
}

void declare_component(Building& building, const Statement& statement, const std::string& prefix, int depth, std::vector<Cursor> said) {
  auto text = read_component(building.reading, statement, building.library);
  // Of two parts with one tag the first stands; the second is only read for its faults.
  if (!text) return;
  if (tag_taken(building, prefix + text->tag, text->tag_span)) return doubt_first(building, prefix + text->tag, text->definition);
  if (text->definition && text->definition->assembly_block) return expand_assembly(building, *text, prefix, depth, std::move(said));
  for (Cursor& item : said)
    if (text->definition) say_of(building.reading, item, building.library, *text);
  if (!text->definition) text->definition = &unknown_definition();
  if (text->definition == &unknown_definition() || text->facts.rows_unclear) building.reading.solenoids_missing = true;
  add_part(building, std::move(*text), prefix);
}

void copy_alike(Building& building) {
  for (std::uint32_t i = 0; i < building.circuit.parts.size(); ++i) copy_like(building, {i});
}

void copy_every(Building& building) {
  for (const EveryText& every : building.every) copy_every(building, every);
}

}  // namespace ferrule
