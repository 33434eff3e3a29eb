// Which drawing a component gets: by its definition's choices and its own facts.
#include <algorithm>

#include "render/symbols/operators.hpp"
#include "render/symbols/symbols.hpp"

namespace ferrule::symbols {
namespace {

constexpr std::string_view row_word = "row", trough_word = "trough";
constexpr double trough_width = 12, trough_height = 4;

bool is_joined(const Circuit& circuit, const Part& part, std::string_view port) {
  for (std::uint32_t i = 0; i < part.port_count; ++i) {
    const Port& found = circuit.ports.rows[part.first_port + i];
    if (found.name == port) return found.end == Port::End::joined;
  }
  return false;
}

// "bypass" is stated, or the port of that name is joined; "not bypass" the other way.
bool holds(const Circuit& circuit, const Part& part, std::string_view condition) {
  constexpr std::string_view absent = "not ";
  const bool wanted = !condition.starts_with(absent);
  if (!wanted) condition.remove_prefix(absent.size());
  return (part.has(condition) || is_joined(circuit, part, condition)) == wanted;
}

const SymbolChoice* choice_of(const Circuit& circuit, const Part& part) {
  for (const SymbolChoice& choice : part.definition->symbols)
    if (std::all_of(choice.when.begin(), choice.when.end(), [&](const std::string& when) { return holds(circuit, part, when); })) return &choice;
  return nullptr;
}

// What the inside joins in one position only belongs into that box too (a load signal).
void add_inner_passages(const Definition& definition, std::vector<PositionRow>& rows) {
  for (const ElementSpec& element : definition.elements) {
    if (element.kind != ElementKind::passage || element.ends.size() != 2) continue;
    for (PositionRow& row : rows)
      if (std::find(element.positions.begin(), element.positions.end(), row.name) != element.positions.end())
        row.paths.push_back({RowPath::Kind::joined, {element.ends[0].name, element.ends[1].name}, false, {}});
  }
}

Row row_of(const Circuit& circuit, const Part& part, int shown) {
  Row row;
  row.shown = shown;
  row.positions = part.positions;
  row.rest = part.rest;
  row.continuous = acts_continuously(part.positions);
  add_inner_passages(*part.definition, row.positions);
  for (std::uint32_t i = 0; i < part.port_count; ++i) {
    const Port& port = circuit.ports.rows[part.first_port + i];
    // A pilot supply or drain that stays open is inside, and not drawn.
    const bool outside = port.end == Port::End::joined && (port.use == PortUse::pilot || port.use == PortUse::drain);
    if (outside) row.ports.push_back({port.name, 0, 0, Side::below, port.use});
  }
  return row;
}

// A symbol that is a frame around the part's own row.
Figure framed(Library& library, const Circuit& circuit, const Part& part, const Symbol& symbol, const Turn& at, int shown, int emptied) {
  Figure figure = figure_of(library, symbol);
  Row row = row_of(circuit, part, -1);
  row.marked = shown;
  row.emptied = emptied;
  row.stubs = false;
  row.ports.clear();
  Figure inner = moved(row_figure(library, row), at);
  inner.strokes.insert(inner.strokes.end(), figure.strokes.begin(), figure.strokes.end());
  figure.strokes = std::move(inner.strokes);
  figure.operators = std::move(inner.operators);
  figure.fixed = true;
  return figure;
}

const Stroke* row_in(const Symbol& symbol) {
  const auto found = std::find_if(symbol.strokes.begin(), symbol.strokes.end(),
                                  [](const Stroke& s) { return s.kind == StrokeKind::use && s.name == row_word; });
  return found == symbol.strokes.end() ? nullptr : &*found;
}

void add_variants(Library& library, const std::string& of, std::vector<Figure>& into) {
  for (const std::string& name : library.symbol_names()) {
    // A variant is called after its original, so that not every symbol has to be read.
    if (name == of || !name.starts_with(of)) continue;
    const Symbol* symbol = library.symbol(name);
    if (symbol && symbol->variant_of == of) into.push_back(figure_of(library, *symbol));
  }
}

}  // namespace

std::vector<Figure> figures_of(Library& library, const Circuit& circuit, PartId id, int shown, int emptied) {
  const Part& part = circuit.parts[id];
  const SymbolChoice* choice = part.definition ? choice_of(circuit, part) : nullptr;
  if (!choice) return {};
  if (choice->symbol == row_word) {
    Row row = row_of(circuit, part, shown);
    row.emptied = emptied;
    if (row.positions.empty()) return {};
    return {row_figure(library, row)};
  }
  if (choice->symbol == trough_word) return {trough_figure(trough_width, trough_height, false, {})};
  const Symbol* symbol = library.symbol(choice->symbol);
  if (!symbol) return {};
  if (const Stroke* row = row_in(*symbol))
    return {framed(library, circuit, part, *symbol, {row->numbers[0], row->numbers[1], row->quarters, row->flip}, shown, emptied)};
  std::vector<Figure> figures{figure_of(library, *symbol)};
  add_variants(library, symbol->name, figures);
  return figures;
}

}  // namespace ferrule::symbols
