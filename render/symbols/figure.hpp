// One drawing of one component: strokes without parts, ports, and where its texts may stand.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "render/symbols/turn.hpp"

namespace ferrule::symbols {

using Strokes = std::vector<Stroke>;

// The outer end of an operator of a valve row: the code of a solenoid stands there, vertically centred.
struct OperatorEnd {
  std::string tag;  // "1Y1"
  Spot at;
  bool left = true;
};

struct Extent {
  double left = 0, top = 0, right = 0, bottom = 0;
};

struct Figure {
  std::string name;                 // of the symbol; "row", "trough"
  Strokes strokes;                  // plain: no `use`, no `symbol`
  std::vector<SymbolPort> ports;
  std::vector<OperatorEnd> operators;
  std::optional<Extent> room;       // kept free for the row's other positions; none when the strokes are all
  Spot centre;                      // of the body: rows and columns align by it
  bool upright = false;             // may only be mirrored in its vertical axis
  bool fixed = false;               // stands as drawn (a valve row: mirrored it would swap A and B)
  bool trough = false;              // the sheet chooses width and entries
};

// What the strokes cover; all zero when there are none. An arc counts as far as it reaches.
Extent extent_of(const Strokes& strokes);

// The points of a stroke that lie on paper: of a line its corners, of a rectangle two, of a circle its box, of an arc many.
std::vector<Spot> points_of(const Stroke& stroke);

// The stroke moved; `text` stays upright.
Stroke moved(const Stroke& stroke, const Turn& turn);
Figure moved(const Figure& figure, const Turn& turn);

// The stub of a port takes the type of the line that joins it: dashed for a pilot or drain. A stub that the symbol marks
// as pilot or drain stays so.
void stub_as(Figure& figure, const std::string& port, PortUse use);

Stroke stroke(StrokeKind kind, std::vector<double> numbers);
bool is_polyline(StrokeKind kind);
bool is_arc(StrokeKind kind);

}  // namespace ferrule::symbols
