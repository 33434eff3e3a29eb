#include "render/symbols/symbols.hpp"

namespace ferrule::symbols {
namespace {

constexpr int deepest = 16;

void append(Library& library, const Strokes& strokes, const Turn& turn, int depth, Strokes& into) {
  for (const Stroke& stroke : strokes) {
    const bool part = stroke.kind == StrokeKind::use, symbol = stroke.kind == StrokeKind::symbol;
    if (!part && !symbol) {
      into.push_back(moved(stroke, turn));
      continue;
    }
    if (depth == deepest) continue;
    const Turn inner = Turn{stroke.numbers[0], stroke.numbers[1], stroke.quarters, stroke.flip}.then(turn);
    if (const StrokePart* found = part ? library.part(stroke.name) : nullptr) append(library, found->strokes, inner, depth + 1, into);
    if (const Symbol* found = symbol ? library.symbol(stroke.name) : nullptr) append(library, found->strokes, inner, depth + 1, into);
  }
}

}  // namespace

Strokes flat(Library& library, const Strokes& strokes, const Turn& turn) {
  Strokes plain;
  append(library, strokes, turn, 0, plain);
  return plain;
}

Figure figure_of(Library& library, const Symbol& symbol) {
  Figure figure;
  figure.name = symbol.name;
  figure.strokes = flat(library, symbol.strokes);
  figure.ports = symbol.ports;
  figure.centre = {symbol.centre_x, symbol.centre_y};
  figure.upright = symbol.upright;
  return figure;
}

}  // namespace ferrule::symbols
