// The positions of directional valves: rows of the definition and of the text, what shifts them, rest, solenoids.
#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "compiler/build/building.hpp"
#include "compiler/language/rows.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

std::vector<std::string> position_names(const Part& part) {
  std::vector<std::string> names;
  for (const PositionRow& row : part.positions) names.push_back(row.name);
  return names;
}

bool by_spring(const PositionRow& row) {
  return std::any_of(row.by.begin(), row.by.end(), [](const Actuation& by) {
    return by.means == "spring" || by.means == "springs" || by.means == "adjustable-spring";
  });
}

PositionRow* row_named(Part& part, const std::string& name) {
  const auto found = std::find_if(part.positions.begin(), part.positions.end(), [&](const PositionRow& row) {
    return name.empty() ? !by_spring(row) && row.by.empty() : row.name == name;
  });
  return found == part.positions.end() ? nullptr : &*found;
}

bool by_detent(const PositionRow& row) {
  return std::any_of(row.by.begin(), row.by.end(), [](const Actuation& by) { return by.means == "detent"; });
}

void operate(Building& building, PartId id, const FactsText::Operated& operated) {
  Part& part = building.circuit.parts[id];
  if (PositionRow* row = row_named(part, operated.position)) {
    const std::vector<Actuation> before = std::exchange(row->by, operated.by);
    // Saying what works a position does not take away what holds it.
    for (const Actuation& by : before)
      if (by.means == "detent" && !by_detent(*row)) row->by.push_back(by);
    return;
  }
  if (operated.position.empty()) {
    FactValue by;
    by.name = "by";
    by.kind = FactKind::text;
    by.word = operated.by.empty() ? "" : operated.by.front().means;
    by.span = operated.span;
    return part.facts.push_back(std::move(by));
  }
  const std::vector<std::string> names = position_names(part);
  building.reading.report(fault::unknown_position, operated.span, fmt::format("`{}` has no position `{}`", part.tag, operated.position),
                          names.empty() ? fmt::format("leave it out: {} has no positions", part.definition->name)
                                        : write_instead(operated.position, names, "its positions are " + listed(names, "and")));
}

template <class Is>
int first_row(const Part& part, Is is) {
  const auto found = std::find_if(part.positions.begin(), part.positions.end(), is);
  return found == part.positions.end() ? -1 : static_cast<int>(found - part.positions.begin());
}

// `rest a` in the block; a name that no position has is reported.
int stated_rest(Building& building, PartId id) {
  const Part& part = building.circuit.parts[id];
  const PartText& text = building.text(id);
  if (text.rest.empty()) return first_row(part, [](const PositionRow& row) { return row.rest; });
  const int stated = first_row(part, [&](const PositionRow& row) { return row.name == text.rest; });
  if (stated < 0)
    building.reading.report(fault::unknown_position, text.rest_span, fmt::format("`{}` has no position `{}`", part.tag, text.rest),
                            "its positions are " + listed(position_names(part), "and"));
  return stated < 0 ? 0 : stated;
}

// Rest is where springs bring the valve, else what the text says, else the first position of a valve with a detent.
void settle_rest(Building& building, PartId id) {
  Part& part = building.circuit.parts[id];
  if (part.positions.empty()) return;
  part.rest = first_row(part, by_spring);
  if (part.rest < 0) part.rest = stated_rest(building, id);
  if (part.rest < 0 && part.positions.size() > 1 && first_row(part, by_detent) < 0 && !building.text(id).silent && !building.text(id).rows_unclear)
    building.reading.report(fault::rest_missing, part.span, fmt::format("nothing says which position of `{}` is rest", part.tag),
                            "write `by springs` behind the position that its springs give, or `rest " + part.positions.front().name + "`").subject = part.tag;
  part.rest = std::max(part.rest, 0);
  for (PositionRow& row : part.positions) row.rest = &row == &part.positions[static_cast<std::size_t>(part.rest)];
}

bool leads(const RowPath& path) { return path.kind == RowPath::Kind::arrow || path.kind == RowPath::Kind::one_way; }

void report_path(Building& building, const RowPath& path, std::string sentence) {
  building.reading.report(fault::path_misplaced, path.span, std::move(sentence),
                          "look at the ports; if oil is led back on purpose, write `regenerative` in the row, and `P-B-T` where all meet");
}

// An arrow out of T or into P, or two out of one port, is a slip unless the row says that oil is led back. One row, one message.
void check_arrows(Building& building, const PositionRow& row) {
  std::set<std::string> left;
  for (const RowPath& path : row.paths) {
    if (!leads(path)) continue;
    if (path.ports[0] == "T" || path.ports[1] == "P")
      return report_path(building, path, fmt::format("in position `{}` oil {}", row.name, path.ports[0] == "T" ? "leaves the tank port T" : "enters the pressure port P"));
    if (!left.insert(path.ports[0]).second)
      return report_path(building, path, fmt::format("in position `{}` two arrows leave port {}", row.name, path.ports[0]));
  }
}

bool names_port(const Part& part, std::string_view port) {
  return std::any_of(part.positions.begin(), part.positions.end(), [&](const PositionRow& row) {
    return std::any_of(row.paths.begin(), row.paths.end(), [&](const RowPath& path) {
      return std::find(path.ports.begin(), path.ports.end(), port) != path.ports.end();
    });
  });
}

void check_rows(Building& building, const Part& part) {
  if (part.has("regenerative") || !names_port(part, "P") || !names_port(part, "T")) return;
  for (const PositionRow& row : part.positions)
    if (!row.regenerative) check_arrows(building, row);
}

bool is_solenoid(const Actuation& by) { return !by.tag.empty() && by.means.find("pilot") == std::string::npos; }

void name_solenoid(Building& building, PartId part, std::string& tag, Span span, bool proportional) {
  tag = building.text(part).prefix + tag;
  const auto [place, fresh] = building.solenoids.try_emplace(tag, Solenoid{span, part});
  // A proportional solenoid may bring several positions of its own valve.
  if (!fresh && !(proportional && place->second.part == part)) {
    report_duplicate(building, tag, span, place->second.span);
    building.reading.names_missing = true;  // the tag it was meant to have is used somewhere
  }
  else if (fresh && building.circuit.by_tag.contains(tag))
    report_duplicate(building, tag, span, building.circuit.parts[building.circuit.part_named(tag)].span);
}

void name_solenoids(Building& building, PartId id) {
  Part& part = building.circuit.parts[id];
  for (PositionRow& row : part.positions)
    for (Actuation& by : row.by)
      if (is_solenoid(by)) name_solenoid(building, id, by.tag, by.span, by.means.starts_with("proportional"));
  // A proportional valve has no rows: its solenoid is a fact.
  for (FactValue& fact : part.facts)
    if (fact.kind == FactKind::tag && fact.name == "solenoid") name_solenoid(building, id, fact.word, fact.span, false);
}

void check_means(Building& building, PartId id) {
  const Part& part = building.circuit.parts[id];
  if (building.text(id).rows_unclear) return;
  for (const PositionRow& row : part.positions)
    for (const Actuation& by : row.by) {
      if (by.means.empty() || building.library.operator_part(by.means)) continue;
      const std::vector<std::string> words = building.library.operator_words();
      if (words.empty()) return;
      building.reading.report(fault::unknown_choice, by.span, fmt::format("a valve is not shifted by `{}`", by.means),
                              write_instead(by.means, words, "write one of " + listed(words)));
      building.text(id).rows_unclear = building.reading.solenoids_missing = true;
    }
}

}  // namespace

void settle_rows(Building& building) {
  for (std::uint32_t i = 0; i < building.circuit.parts.size(); ++i) {
    Part& part = building.circuit.parts.rows[i];
    if (!part.definition->rows.empty()) {
      std::vector<PositionRow> rows = part.definition->rows;
      for (PositionRow& own : part.positions) place_row(rows, std::move(own));
      part.positions = std::move(rows);
    }
    for (const FactsText::Operated& operated : building.texts[i].operated) operate(building, {i}, operated);
    check_means(building, {i});
    settle_rest(building, {i});
    check_rows(building, building.circuit.parts.rows[i]);
    name_solenoids(building, {i});
  }
}

}  // namespace ferrule
