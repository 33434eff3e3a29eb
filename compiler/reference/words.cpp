#include "compiler/reference/words.hpp"

#include <algorithm>
#include <map>

#include "compiler/language/rows.hpp"
#include "grammar/nearest.hpp"

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

std::string pair_word(const FactSpec& fact, std::string_view first, std::string_view second) {
  std::string text(first);
  if (fact.at_may_miss) text += ", or ";
  if (fact.at_may_miss) text += first;
  return text + " at " + std::string(second);
}

std::string kind_word(const FactSpec& fact) {
  switch (fact.kind) {
    case FactKind::quantity: return dimension_word(fact.dimension);
    case FactKind::quantity_at: return pair_word(fact, dimension_word(fact.dimension), dimension_word(fact.at));
    case FactKind::range: return "range of " + dimension_word(fact.dimension);
    case FactKind::list: return "list of " + dimension_word(fact.dimension);
    case FactKind::flag: return "stands alone";
    case FactKind::choice: return listed(fact.choices);
    case FactKind::text: return "text";
    case FactKind::tag: return "tag" + (fact.choices.empty() ? "" : " (role " + in_a_row(fact.choices) + ")");
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

// "pressure-valves.fer" is headed "Pressure valves".
std::string title_of(std::string_view path) {
  path.remove_prefix(std::min(path.size(), path.find_last_of('/') + 1));
  std::string title(path.substr(0, path.find('.')));
  std::replace(title.begin(), title.end(), '-', ' ');
  if (!title.empty() && title[0] >= 'a' && title[0] <= 'z') title[0] = static_cast<char>(title[0] - 'a' + 'A');
  return title;
}

}  // namespace

std::string value_of(const FactSpec& fact) {
  return kind_word(fact) + (fact.then.empty() ? "" : ", then " + listed(fact.then));
}

std::string said_of(const Definition& kind) {
  std::string text;
  for (const char c : kind.says) text += c == '{' || c == '}' ? '`' : c;
  return text;
}

std::string limits_of(const FactSpec& fact) {
  if (fact.low && fact.high) return shown({*fact.low, fact.dimension}) + " to " + shown({*fact.high, fact.dimension});
  if (fact.low) return "from " + shown({*fact.low, fact.dimension});
  return fact.high ? "up to " + shown({*fact.high, fact.dimension}) : "";
}

std::string preset_of(const FactSpec& fact) {
  if (!fact.preset) return {};
  std::string text = written(*fact.preset) + (fact.preset_at ? " at " + written(*fact.preset_at) : "");
  const bool computed = fact.kind != FactKind::choice && text.find_first_of("0123456789") != 0;
  if (computed) text = "`" + text + "`";
  return fact.source.empty() ? text : text + " (" + fact.source + ")";
}

std::string type_of(const FactSpec& fact) {
  std::string text = kind_word(fact) + example_word(fact);
  if (!fact.then.empty()) text += ", then " + listed(fact.then);
  if (const std::string limits = limits_of(fact); !limits.empty()) text += ", " + limits;
  if (const std::string preset = preset_of(fact); !preset.empty()) text += ", default " + preset;
  if (fact.command) text += ", a step may set it";
  return text;
}

std::string paths_of(const PositionRow& row) {
  std::string text;
  for (const RowPath& path : row.paths) text += (text.empty() ? "" : " ") + name_of(path) + (path.metered ? " metered" : "");
  if (text.empty()) text = "closed";
  if (row.regenerative) text += " regenerative";
  for (const Actuation& by : row.by) text += " by " + by.means + (by.tag.empty() ? "" : " " + by.tag);
  return text;
}

std::string use_of(const PortSpec& port) {
  static constexpr std::string_view words[] = {"", "pilot", "drain", "mechanical", "electrical"};
  std::string text(words[static_cast<std::size_t>(port.use)]);
  if (port.may_stay_open) text += text.empty() ? "may stay open" : ", may stay open";
  return text.empty() ? text : " (" + text + ")";
}

std::string size_of(const std::vector<std::string>& pattern) {
  std::string text;
  for (const std::string& word : pattern) text += (text.empty() ? "" : " ") + word;
  return text;
}

std::vector<Group> groups_of(Library& library, const Sources& sources) {
  std::map<std::string, Group> by_file;
  for (const std::string& name : library.definition_names())
    if (const Definition* kind = library.definition(name)) {
      const std::string& path = sources[kind->span.file].path;
      Group& group = by_file[path];
      group.title = title_of(path);
      group.kinds.push_back(kind);
    }
  std::vector<Group> groups;
  for (auto& [path, group] : by_file) groups.push_back(std::move(group));
  return groups;
}

std::vector<UnitRow> unit_rows() {
  std::vector<UnitRow> rows;
  for (const Unit& unit : units()) {
    const std::string word = unit.dimension == dimension::none ? "share" : name_of(unit.dimension);
    if (rows.empty() || rows.back().dimension != word) rows.push_back({word, example_of(unit.dimension), {}});
    rows.back().units.emplace_back(unit.symbol);
  }
  return rows;
}

}  // namespace ferrule
