// A circuit made ready for layout: items, nets and texts, with what each stands for.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "compiler/compile.hpp"
#include "compiler/library/library.hpp"
#include "render/nets.hpp"
#include "render/state_view.hpp"
#include "render/symbols/symbols.hpp"

namespace ferrule {

// What an item of the problem is drawn from.
struct SketchItem {
  PartId part;                               // none for what only accompanies a part: its load, the breather of a reservoir
  std::string kind, title;
  std::string stands_for;                    // the part that this accompanies; else empty
  std::vector<symbols::Figure> figures;
  std::vector<std::string> connections;      // a trough's pins by name
  std::vector<PortUse> connection_use;
  std::vector<int> inside;                   // a trough: items that stand in it
};

struct SketchText {
  std::string owner, kind, port;             // geometry's words: designation setting port line note
  std::vector<std::string> rows;
};

struct SketchNet {
  int source = -1;                           // index into CircuitNets::nets; -1 for shafts and rods
  std::string id;
};

struct Sketch {
  layout::Problem problem;
  std::vector<SketchItem> items;             // by item
  std::vector<SketchNet> nets;               // by net of the problem
  CircuitNets sources;
  std::map<std::string, SketchText> texts;   // by id of the text
  std::vector<int> hints;                    // by hint of the problem: index into the circuit's hints
  std::vector<std::pair<int, std::string>> refused;  // hint of the circuit that says nothing to layout, and why
  struct SheetHint { int hint, item; std::string sheet; };
  std::vector<SheetHint> sheet_hints;        // `place 2A1 on sheet 3`
  std::vector<std::string> notes;            // what could not be drawn, for people
};

// Texts are measured at `capital_mm` and rounded up to half modules.
// With a view, valves stand in its positions.
Sketch sketched(const Circuit& circuit, Library& library, double module_mm, double capital_mm, const StateView* view = nullptr);

// Rows of a text stand this far apart, in half modules; a box is as high as its rows.
inline constexpr int row_pitch = 4;

}  // namespace ferrule
