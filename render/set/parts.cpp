#include "render/set/parts.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "render/captions.hpp"

namespace ferrule::set {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// The symbol that shows a part: its own, the trough that it stands in, or the first sign of a reservoir that has no trough.
const DrawnSymbol* shown_as(const DrawnSheet& page, const std::string& tag) {
  for (const DrawnSymbol& symbol : page.symbols)
    if (symbol.id == tag || std::find(symbol.parts.begin(), symbol.parts.end(), tag) != symbol.parts.end()) return &symbol;
  for (const DrawnSymbol& symbol : page.symbols)
    if (symbol.kind == "tankmark" && symbol.id.starts_with(tag + "~")) return &symbol;
  return nullptr;
}

std::string data_of(const Circuit& circuit, const Part& part) {
  return fmt::format("{}", fmt::join(data_rows(circuit, part), "; "));
}

}  // namespace

std::vector<DrawnPart> parts_of(const Circuit& circuit, const Sketch& sketch, const CircuitSheets& circuits) {
  std::map<int, const DrawnSheet*> pages;   // by item
  const auto& [division, sheets] = circuits;
  for (std::size_t s = 0; s < sheets.size(); ++s)
    for (std::size_t u = division.sheets[s].first; u < division.sheets[s].last; ++u)
      for (const int item : division.units[u].items) pages[item] = &sheets[s].composed.page;
  std::vector<DrawnPart> parts;
  for (const auto& [item, page] : pages) {
    const PartId id = sketch.items[at(item)].part;
    if (!id) continue;
    const Part& part = circuit.parts[id];
    DrawnPart row{part.tag, part.definition->term, data_of(circuit, part), {}, {}, {}, {}};
    if (const DrawnSymbol* symbol = shown_as(*page, part.tag)) {
      row.sheet = page->id;
      row.field = sheet::field_at(page->format, symbol->centre);
      row.symbol = symbol->id;
    }
    parts.push_back(std::move(row));
  }
  return parts;
}

}  // namespace ferrule::set
