// From what the library says of a component to something that can be placed and drawn.
//
// A component's drawing is a symbol of the library, the row of its positions, or a trough whose size the sheet chooses.
// Lengths in modules M; x right, y DOWN. Nothing here knows a component by name.
#pragma once

#include <map>

#include "compiler/library/library.hpp"
#include "compiler/model/circuit.hpp"
#include "render/layout/layout.hpp"
#include "render/sheet/ink.hpp"
#include "render/symbols/figure.hpp"

namespace ferrule::symbols {

// ---------------------------------------------------------------- strokes

// Strokes with every `use` and `symbol` written out, moved by the turn. A name that the library does not have is left out
// (the reader of definitions has reported it); nesting stops at 16.
Strokes flat(Library& library, const Strokes& strokes, const Turn& turn = {});

Figure figure_of(Library& library, const Symbol& symbol);

// ---------------------------------------------------------------- valve rows

// What a row is composed from. `ports` are those of the part that no path names (pilot supply X, pilot drain Y).
struct Row {
  std::vector<PositionRow> positions;  // left box first
  int rest = -1;                       // the box at rest, which the external lines meet; -1: the last
  int shown = -1;                      // the box they meet in the state that is shown, with room for every other; -1: rest, without room
  int emptied = -1;                    // the box whose paths are left out, for a learner to draw them
  int marked = -1;                     // where a row cannot move, the box of the state that is shown is framed twice
  bool continuous = false;             // any place between the boxes: two lines along the row
  bool stubs = true;                   // false inside a section, whose own lines go on
  std::vector<SymbolPort> ports;
};

// Boxes, operators, stubs; origin in the top left corner of the rest box (ISO 1219-1: external lines at the rest box only).
Figure row_figure(Library& library, const Row& row);

// ---------------------------------------------------------------- reservoirs

struct TroughEntry {
  std::string port;
  double x = 0;                        // from the middle of the rim
  bool above_level = false;            // the pipe ends above the oil
  PortUse use = PortUse::main;
};

// Origin in the middle of the rim; the ports lie on the rim.
Figure trough_figure(double width, double height, bool covered, const std::vector<TroughEntry>& entries);

// ---------------------------------------------------------------- components

// The drawings of one component: the first choice of its definition that fits its facts, and the variants of it for other
// places (flow downward). Empty when the component is not drawn. A definition may draw itself in a frame around its row:
// then its symbol has a stroke `use row`.
// `shown`: the position of a valve in the state that the sheet shows; -1 for a sheet as usual, which shows rest.
// `emptied`: the position whose box has no paths drawn; -1 for none.
std::vector<Figure> figures_of(Library& library, const Circuit& circuit, PartId part, int shown = -1, int emptied = -1);

// The ways a component may stand, the preferred one first. `variant` is the index into `figures`. A row stands as drawn; an
// upright symbol may be mirrored; a symbol whose main ports all look down lies (its rod to the right, or mirrored); one that
// has a variant is not turned upside down; any other may be turned and mirrored. Poses that look alike are given once.
std::vector<layout::Pose> poses_of(const std::vector<Figure>& figures);

// The drawing in a pose: flipped and turned, still around its own origin.
Figure posed(const std::vector<Figure>& figures, const layout::Pose& pose);

// ---------------------------------------------------------------- ink

// Millimetres on paper, the figure's origin at `at`.
sheet::Inks inks_of(const Figure& figure, canvas::Point at, double module_mm, double line_mm);

// Every symbol and every valve row of the library with its name and ports, to be looked at: one sheet after another.
void contact_sheet(Library& library, canvas::Canvas& canvas);

}  // namespace ferrule::symbols
