#include "render/captions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "render/canvas/words.hpp"

namespace ferrule {
namespace {

constexpr std::size_t most_characters = 22, most_rows = 4;

// Forms that say by themselves that a bare number is a length in millimetres: `63/36 × 400`, `16 × 2`, `⌀ 1.2`.
bool bare_lengths(std::string_view row) {
  for (std::string_view sign : {"×", "/", "⌀"})
    if (row.find(sign) != std::string_view::npos) return true;
  return false;
}

std::string trimmed_number(double value) {
  std::string text = fmt::format("{:.2f}", value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string one(const Quantity& quantity, bool bare) {
  if (bare && quantity.dimension == dimension::length) return trimmed_number(quantity.si * 1000);
  return on_sheet(quantity);
}

// "0...250 bar": the unit once.
std::string range_of(const Quantity& low, const Quantity& high, bool bare) {
  const std::string from = one(low, bare), to = one(high, bare);
  const auto unit = [](const std::string& text) { return text.find(' ') == std::string::npos ? "" : text.substr(text.find(' ')); };
  if (low.si == 0) return "0..." + to;
  if (!unit(from).empty() && unit(from) == unit(to)) return from.substr(0, from.find(' ')) + "..." + to;
  return from + "..." + to;
}

std::string words_of(const FactValue& fact, bool bare) {
  switch (fact.kind) {
    case FactKind::flag: return fact.name;
    case FactKind::text:
    case FactKind::tag:
    case FactKind::choice: return fact.word;
    case FactKind::range: return fact.numbers.size() == 2 ? range_of(fact.numbers[0], fact.numbers[1], bare) : std::string();
    case FactKind::quantity_at:
      // A drop is read as the flow it allows, a setting as the pressure it holds.
      if (fact.numbers.size() == 2 && parameter_named(fact.name) == Parameter::drop) return one(fact.numbers[1], bare) + " at " + one(fact.numbers[0], bare);
      return fact.numbers.empty() ? std::string() : one(fact.numbers[0], bare);
    case FactKind::quantity:
    case FactKind::list: break;
  }
  if (parameter_named(fact.name) == Parameter::ratio && fact.numbers.size() == 1) return trimmed_number(fact.numbers[0].si) + ":1";
  std::string text;
  for (const Quantity& number : fact.numbers) text += (text.empty() ? "" : "-") + one(number, bare);
  return text;
}

// The row with its {facts} filled in; nothing when one of them is not stated.
std::string filled(std::string_view row, const Part& part) {
  const bool bare = bare_lengths(row);
  std::string out;
  while (!row.empty()) {
    const std::size_t open = row.find('{');
    out += row.substr(0, open);
    if (open == std::string_view::npos) break;
    const std::size_t close = row.find('}', open);
    if (close == std::string_view::npos) return {};
    const FactValue* fact = part.fact(row.substr(open + 1, close - open - 1));
    if (fact == nullptr || fact->origin == Origin::by_default) return {};
    const std::string words = words_of(*fact, bare);
    if (words.empty()) return {};
    out += words;
    row.remove_prefix(close + 1);
  }
  return out;
}

// The oil in a reservoir: its own fluid, else the first of the text.
std::string grade_of(const Circuit& circuit, const Part& part) {
  const FactValue* own = part.fact("fluid");
  for (const Fluid& fluid : circuit.fluids) {
    if (own != nullptr && fluid.tag != own->word) continue;
    for (const FactValue& fact : fluid.facts)
      if (fact.name == "grade") return fact.word;
    return {};
  }
  return {};
}

std::size_t characters(std::string_view words) { return canvas::code_points(words).size(); }

// Breaks at blanks, so that no row is much longer than the rule allows.
void append_rows(std::vector<std::string>& rows, std::string_view words) {
  std::string row;
  while (!words.empty()) {
    const std::size_t blank = words.find(' ');
    const std::string word(words.substr(0, blank));
    words.remove_prefix(blank == std::string_view::npos ? words.size() : blank + 1);
    if (!row.empty() && characters(row) + 1 + characters(word) > most_characters) {
      rows.push_back(row);
      row.clear();
    }
    row += (row.empty() ? "" : " ") + word;
  }
  if (!row.empty()) rows.push_back(canvas::clean(row, 40));
}

// What stands in place of {name} in a sentence about these parts: a port by its name, a fact by its value where all agree.
std::string gap_words(std::string_view name, const std::vector<const Part*>& parts, std::string_view its) {
  const bool is_fact = !parts.empty() && parts.front()->definition->fact(name) != nullptr;
  if (!is_fact) return std::string(name);
  std::string value;
  for (const Part* part : parts) {
    const FactValue* fact = part->fact(name);
    const std::string words = fact == nullptr || fact->origin == Origin::by_default ? std::string() : words_of(*fact, false);
    if (words.empty() || (!value.empty() && words != value)) {
      value.clear();
      break;
    }
    value = words;
  }
  if (!value.empty()) return value;
  std::string plain = std::string(its) + " " + std::string(name);
  std::replace(plain.begin(), plain.end(), '-', ' ');
  return plain;
}

const Quantity* of_dimension(const FactValue* fact, Dimension wanted) {
  return fact != nullptr && !fact->numbers.empty() && fact->numbers[0].dimension == wanted ? &fact->numbers[0] : nullptr;
}

}  // namespace

std::string on_sheet(const Quantity& quantity) {
  const bool fine = quantity.dimension == dimension::length && std::abs(quantity.si) < 0.5e-3 && quantity.si != 0;  // mesh, gaps
  std::string text = fine ? trimmed_number(quantity.si * 1e6) + " um" : shown(quantity);
  constexpr std::array<std::pair<std::string_view, std::string_view>, 11> signs{{{"cm3", "cm³"}, {"m2", "m²"}, {"m3", "m³"}, {"/rev", "/r"}, {"rpm", "r/min"},
                                                                                 {" um", " µm"}, {"degC", "°C"}, {"N m", "N·m"}, {" deg", "°"}, {" x ", " × "}, {"mm2", "mm²"}}};
  for (const auto& [plain, sign] : signs)
    if (const auto at = text.find(plain); at != std::string::npos) text.replace(at, plain.size(), sign);
  return text;
}

std::vector<std::string> data_rows(const Circuit& circuit, const Part& part) {
  std::vector<std::string> rows;
  append_rows(rows, part.description);
  for (const std::string& row : part.definition->shows) append_rows(rows, filled(row, part));
  if (part.definition->role("tank") != nullptr) append_rows(rows, grade_of(circuit, part));
  if (rows.size() > most_rows) rows.resize(most_rows);
  return rows;
}

std::string line_caption(const Part& line, bool named) {
  std::string caption = named ? line.tag : std::string();
  for (const std::string& row : line.definition->shows)
    if (const std::string words = filled(row, line); !words.empty()) caption += (caption.empty() ? "" : " ") + words;
  return canvas::clean(caption, 40);
}

std::string data_line(const Part& part) {
  std::string line;
  for (const std::string& row : part.definition->shows)
    if (const std::string words = filled(row, part); !words.empty()) line += (line.empty() ? "" : ", ") + words;
  return line;
}

std::string function_line(std::string_view says, const std::vector<const Part*>& parts, std::string_view its) {
  std::string out;
  while (!says.empty()) {
    const std::size_t open = std::min(says.find('{'), says.size()), close = std::min(says.find('}', open), says.size());
    out += says.substr(0, open);
    if (close == says.size()) break;
    const std::string_view name = says.substr(open + 1, close - open - 1);
    out += gap_words(name, parts, its);
    says.remove_prefix(close + 1);
  }
  return out;
}

std::string load_caption(const Circuit& circuit, PartId actuator) {
  const Part& part = circuit.parts[actuator];
  if (const Quantity* load = of_dimension(part.fact("load"), dimension::force)) return on_sheet(*load);
  if (const Quantity* mass = of_dimension(part.fact("mass"), dimension::mass)) return on_sheet(*mass);
  const Quantity* greatest = nullptr;
  for (const Step& step : circuit.work.steps)
    for (const Motion& motion : step.motions)
      if (motion.actuator == actuator && motion.load.force && (greatest == nullptr || std::abs(motion.load.force->si) > std::abs(greatest->si)))
        greatest = &*motion.load.force;
  return greatest == nullptr ? std::string() : on_sheet(*greatest);
}

}  // namespace ferrule
