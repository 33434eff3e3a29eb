// A finished drawing before any paper: what stands where, in millimetres, with the names it has in the circuit.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "render/condition_look.hpp"
#include "render/findings/findings.hpp"
#include "render/layout/layout.hpp"
#include "render/sheet/format.hpp"
#include "render/sheet/ink.hpp"

namespace ferrule {

struct DrawnPort {
  std::string name;
  sheet::Point at;
  Side side = Side::above;
  PortUse use = PortUse::main;
  std::string part, part_port;       // of a part drawn inside the symbol: which, and which of its ports; else empty
};

struct DrawnSymbol {
  std::string id, kind, family;      // "0V1", "relief-valve", "relief"
  std::string title;                 // for people: "0V1 pressure relief valve"
  std::string stands_for;            // the component that a reservoir mark, a breather or a load belongs to; else empty
  int tier = 0, unit = 1, branch = 0;
  sheet::Rect box;                   // after turning: what no line may enter
  int quarters = 0;
  bool mirror = false;
  sheet::Point centre;               // of the body
  std::vector<DrawnPort> ports;
  std::vector<std::string> parts;    // symbols inside it: a strainer in a trough
  sheet::Inks inks;
};

struct DrawnPath {
  std::vector<sheet::Point> points;
  layout::NetKind look = layout::NetKind::working;
  std::string line;                  // tag of the pipe it stands for; "" for a passage or a mixture
};

// Which way the oil runs, on the line where it leaves a part.
struct DrawnArrow {
  sheet::Point tip;
  double dx = 0, dy = 0;             // unit length
};

struct DrawnNet {
  std::string id, logical;           // one hydraulic point drawn in several pieces keeps one logical name
  layout::NetKind kind = layout::NetKind::working;
  struct End { std::string symbol, port; };
  std::vector<End> ends;
  std::vector<DrawnPath> paths;
  std::vector<sheet::Point> junctions;
  std::optional<LineState> state;    // on a sheet that shows a state of the circuit
  std::vector<DrawnArrow> arrows;
};

struct DrawnLabel {
  std::string id, owner, kind, port, text;   // kind: designation setting port line xref note
  sheet::Rect box;
  bool inside = false;               // meant to stand inside its owner
  bool turned = false;               // reads from the right
  sheet::Anchor anchor = sheet::Anchor::left;
  sheet::Point baseline;
  std::vector<sheet::Point> leader;  // to the piece it names, when it could not stand beside it
};

struct DrawnGroup {
  std::string id, title;
  sheet::Rect box;
  std::vector<std::string> members;
  std::vector<sheet::Point> crossings;  // lines that cross its border
};

// Where a net goes on on another sheet. Every reference has exactly one partner, which names it back.
struct DrawnReference {
  std::string symbol;                // its mark, on this sheet
  std::string net, name;             // logical name of the net; the letters in the mark: "P"
  sheet::Point at;                   // port of the mark
  bool to = true;                    // the oil runs to the partner; false: it comes from there (working lines: in the order of the sheets)
  std::string field;                 // where it stands: "C4"
  std::string partner_sheet, partner_symbol, partner_field;
};

// A row of the parts list.
struct DrawnPart {
  std::string tag, term, data;
  std::string sheet, field, symbol;  // where it is drawn, and as what: a strainer as part of its trough, a reservoir as one of its marks
  sheet::Rect box;                   // of the row, on the page of the list
};

// A row of the index on the cover.
struct DrawnIndexRow {
  std::string sheet, title, contents;
  sheet::Rect box;
};

struct DrawnSheet {
  std::string id = "1";              // its number in the set
  std::string title;                 // what the index calls it; empty on a drawing of one sheet
  sheet::Format format;
  sheet::Rect area;                  // free for the drawing
  std::vector<DrawnSymbol> symbols;
  std::vector<DrawnNet> nets;
  std::vector<DrawnLabel> labels;
  std::vector<DrawnGroup> groups;
  std::vector<DrawnReference> references;
  std::vector<DrawnPart> parts;      // rows of a page of the parts list
  std::vector<DrawnIndexRow> index;  // rows of the cover
  std::vector<DrawnFinding> findings;  // what of the drawing's findings stands here
  sheet::Inks furniture;             // frame, title block, tables: no part of the circuit
};

struct Drawing {
  std::string state;                 // the state it shows; empty on a sheet as usual
  std::vector<FindingMark> findings; // that it shows; none on a sheet as usual
  std::string source;                // name of the text without folder and ending
  std::string title, subject;
  std::string author, keywords;      // who made it; its number and revision
  double module_mm = 2.0, line_mm = 0.25, capital_mm = 2.5;
  bool drain_like_pilot = false;
  std::vector<DrawnSheet> sheets;
  std::vector<std::string> notes;    // for people: what was drawn otherwise than asked, and why
};

// Strokes and words of one of its sheets to paper. Layers: furniture, enclosures, lines, symbols, dots, texts.
void paint(const DrawnSheet& page, const Drawing& drawing, canvas::Canvas& canvas);

// Neutral geometry (schematic-geometry, version 1): lengths in mm, three decimals, field order fixed.
std::string geometry_json(const Drawing& drawing);

}  // namespace ferrule
