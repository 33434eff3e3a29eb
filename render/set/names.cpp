#include "render/set/names.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <set>

namespace ferrule::set {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

const Part* part_of(const Circuit& circuit, const Sketch& sketch, int item) {
  const PartId id = sketch.items[at(item)].part;
  return id ? &circuit.parts[id] : nullptr;
}

// "1", "1 and 2", "1 to 4", "1, 3 and 4".
std::string listed(const std::set<int>& numbers) {
  const int first = *numbers.begin(), last = *numbers.rbegin();
  if (numbers.size() > 2 && last - first + 1 == static_cast<int>(numbers.size())) return fmt::format("{} to {}", first, last);
  if (first == last) return std::to_string(first);
  const std::vector<int> before(numbers.begin(), std::prev(numbers.end()));
  return fmt::format("{} and {}", fmt::join(before, ", "), last);
}

std::string lowered(std::string words) {
  words[0] = static_cast<char>(words[0] - 'A' + 'a');
  return words;
}

bool shows(const Circuit& circuit, const Sketch& sketch, int item, bool actuators) {
  const Part* part = part_of(circuit, sketch, item);
  return part != nullptr && (!actuators || sketch.problem.items[at(item)].tier == layout::Tier::actuator);
}

// Actuators with what they do; parts of any kind where there is none.
std::string contents_of(const Circuit& circuit, const Sketch& sketch, const std::vector<int>& items) {
  const bool actuators = std::any_of(items.begin(), items.end(), [&](int item) { return shows(circuit, sketch, item, true); });
  std::vector<std::string> words;
  for (const int item : items) {
    if (!shows(circuit, sketch, item, actuators)) continue;
    const Part& part = *part_of(circuit, sketch, item);
    words.push_back(part.description.empty() || !actuators ? part.tag : part.tag + " " + part.description);
  }
  return fmt::format("{}", fmt::join(words, ", "));
}

}  // namespace

SheetName name_of(const Circuit& circuit, const Sketch& sketch, const std::vector<Unit>& units, Range range) {
  std::vector<int> items;
  std::set<int> numbers;
  bool unnumbered = false;
  for (std::size_t u = range.first; u < range.last; ++u)
    for (const int item : units[u].items) {
      items.push_back(item);
      const Part* part = part_of(circuit, sketch, item);
      if (part != nullptr && part->circuit_number > 0) numbers.insert(part->circuit_number);
      unnumbered = unnumbered || (part != nullptr && part->circuit_number < 0);
    }
  std::sort(items.begin(), items.end());
  SheetName name{"Branches", contents_of(circuit, sketch, items)};
  if (!numbers.empty() && !unnumbered) name.title = (numbers.size() > 1 ? "Circuits " : "Circuit ") + listed(numbers);
  if (units[range.first].branch == 0) name.title = units[range.last - 1].branch == 0 ? "Supply" : "Supply, " + lowered(name.title);
  if (range.last - range.first == units.size()) name.title = "Circuit";
  return name;
}

std::vector<std::string> letters_of(const std::vector<layout::NetKind>& cut) {
  constexpr std::array<const char*, 7> letters{"P", "W", "T", "S", "L", "X", "M"};   // by NetKind
  std::array<int, 7> all{}, met{};
  for (const layout::NetKind kind : cut) ++all[static_cast<std::size_t>(kind)];
  std::vector<std::string> names;
  for (const layout::NetKind kind : cut) {
    const auto k = static_cast<std::size_t>(kind);
    names.push_back(all[k] == 1 ? letters[k] : letters[k] + std::to_string(++met[k]));
  }
  return names;
}

}  // namespace ferrule::set
