// Placement, routing and texts: boxes, ports and nets in, coordinates out. Layout knows no oil and no strokes.
//
// Lengths are integers in half modules (1 = 0.5 M), x to the right, y DOWN, so a position reads as it is drawn. Texts are
// measured by the caller (Pango) and rounded up to half modules. No random numbers, no hash order: ties go to the earlier item.
#pragma once

#include <string>
#include <vector>

#include "compiler/model/definition.hpp"  // Side, PortUse

namespace ferrule::layout {

struct Point {
  int x = 0, y = 0;
  friend bool operator==(const Point&, const Point&) = default;
};
struct Box {
  int left = 0, top = 0, right = 0, bottom = 0;
};

// ---------------------------------------------------------------- what is to be laid out

struct Pin {
  std::string name;
  Point at;                    // relative to the item's origin, on the edge of the box or on a stub's end
  Side side = Side::above;     // the way its line leaves
  PortUse use = PortUse::main;
};

// One way an item may stand: as drawn, mirrored, turned, or another drawing of the same component (flow downward).
struct Pose {
  int variant = 0;             // index of the drawing; the caller's business
  bool flip = false;           // x to -x, before the turn
  int quarters = 0;            // clockwise quarter turns
  Box box;                     // what no line may enter, relative to the origin; stubs included
  Point centre;                // rows and columns align by it
  std::vector<Pin> pins;       // same order in every pose of an item
  std::vector<Box> ink;        // what its strokes cover: letters may stand inside the box where none is
};

// A block of text that belongs to an item: tag and data in rows, or the code of a solenoid.
struct TextBlock {
  enum class Kind { designation, data, operator_left, operator_right, load, port } kind = Kind::designation;
  std::string id;              // "0V1:designation"
  int width = 0, height = 0;
  int pin = -1;                // port letters: whose
};

enum class Tier { supply, control, modulation, actuator };

struct Item {
  std::string id;              // tag
  std::string family;          // shares a row: "directional", "cylinder", "pump", "relief", "filter" ...
  Tier tier = Tier::control;
  int branch = 0;              // 0 supply, 1.. actuator branches in cycle order; -1 unknown (by connection)
  int group = -1;              // enclosure it must stand in; -1 none
  std::vector<Pose> poses;     // [0] is the preferred one
  std::vector<TextBlock> texts;
  bool prime_mover = false;    // stands right of its pump on one shaft line
  bool on_cover = false;       // stands on the reservoir's cover without a line (breather, level switch): `host`
  bool in_trough = false;      // stands in the reservoir's trough (strainer): `host`
  int host = -1;               // item index of the reservoir
  int beside = -1;             // item index of the actuator whose way it watches: stands right of it in its row
  bool trough = false;         // a reservoir: layout chooses its width and where the entries stand; its pins have no place
  bool elsewhere = false;      // a reservoir that stands on another sheet: every line to it ends in its sign
  std::vector<std::string> hints;  // from the definition: "beside-pump", "return", "in-line" ...; "goes-on": mark of a line that goes on on another sheet
};

struct End {
  int item = -1, pin = -1;
};

// The text of a pipe. It may stand only on a piece of the drawn net that parts exactly `near` from the other ends.
struct LineText {
  std::string id;              // "L3"
  int width = 0, height = 0;
  std::vector<End> near;
};

enum class NetKind { pressure, working, return_, suction, drain, pilot, mechanical };

struct Net {
  std::string id;
  NetKind kind = NetKind::working;
  std::vector<End> ends;       // two or more; a net with one end is not drawn
  std::vector<LineText> texts;
  std::vector<End> pilot_ends; // ends whose own piece is drawn dashed though the net is a main line (pilot that joins a working line)
  std::vector<End> drain_ends;
};

struct Group {                 // an assembly drawn with a chain line around exactly its members
  std::string id, title;
  int parent = -1;
  int width = 0, height = 0;   // of its name, the text "group:" + id, inside the upper right corner; none when 0
};

struct Hint {
  enum class Kind { left_of, right_of, above, below, same_row, same_column, rail, marks, trough } kind = Kind::left_of;
  int a = -1, b = -1;          // item indices; a net index for rail, marks and trough
};

struct Problem {
  std::vector<Item> items;     // in the order of the text
  std::vector<Net> nets;
  std::vector<Group> groups;
  std::vector<Hint> hints;
};

// ---------------------------------------------------------------- the result

struct Placed {
  Point at;                    // of the origin
  int pose = 0;
  Tier tier = Tier::control;   // where its connections put it: a flow valve in the supply line of a valve is control
  int branch = 0;              // 0 supply
  int trough_width = 0, trough_height = 0;      // of a reservoir; 0 when it stands elsewhere
};

constexpr Point nowhere{-(1 << 28), -(1 << 28)};

// A reservoir drawn again at the end of a line: every mark of one reservoir is one node.
struct TankMark {
  int reservoir = -1;          // item
  End end;                     // the reservoir pin it stands for
  int net = -1;
  Point at;                    // its port, the mark hangs below
};

struct Path {
  std::vector<Point> points;   // orthogonal, from an end or a tee to an end or a tee
  NetKind look = NetKind::working;  // pilot and drain are dashed
};

struct Routed {
  std::vector<Path> paths;
  std::vector<Point> dots;     // one per tee
};

struct PlacedText {
  std::string id;
  Box box;
  enum class Align { left, right, middle } align = Align::left;
  bool turned = false;         // reads from the right, 90 degrees anticlockwise
  std::vector<Point> leader;   // thin line from the text to the piece it names, when it could not stand beside it; else empty
};

struct Enclosure {
  int group = -1;
  Box box;
  std::vector<Point> crossings;  // lines that cross it: a small circle each
};

// A hint that is not obeyed. When an earlier one stands against it, that is named too.
struct Refusal {
  int hint = -1, other = -1;   // indices into the problem's hints
  std::string why;             // for people
};

struct Layout {
  std::vector<Placed> items;   // by item
  std::vector<TankMark> marks;
  std::vector<Routed> nets;    // by net
  std::vector<PlacedText> texts;
  std::vector<std::vector<Point>> trough_entries;  // by item: rim point of each pin of a trough; `nowhere` when no line falls there
  std::vector<TankMark> entries;  // every line that ends on a rim, also when one pin has several
  std::vector<Enclosure> enclosures;
  Box extent;                  // everything, texts included
  std::vector<Refusal> refusals;   // in the order of the hints; every other hint holds
  std::vector<std::string> notes;  // what else could not be done and why
};

// Least heights between what lies one over the other, in half modules: port to track is a line over or under a symbol, tees are two
// level pieces of one net (house distances by the gold sheets, table of rows and columns).
struct Distances {
  int bodies = 8, port_to_track = 8, tracks = 6, lettered_tracks = 8, tees = 8, texts = 2;
  int cells = 4;               // between symbols with their texts that stand side by side
  bool short_trough = false;   // returns of the supply end in marks: the trough stands under the pumps only (gold rule 3)
};

// More where the sheet has it, and no more than the eye needs where it has not.
constexpr Distances roomy_distances{16, 12, 8, 8, 8, 4, 4}, tight_distances{6, 6, 4, 6, 6, 2, 2};

// Places, routes and letters. Total: whatever the problem, a layout comes back without overlaps; ends that name no item or pin are
// left out. Near-linear in the number of pins.
Layout lay_out(const Problem& problem, const Distances& distances = {});

// By item: the branch lay_out puts it in, from left to right; 0 is the supply.
std::vector<int> branches_of(const Problem& problem);

// What is wrong with a layout: symbols on symbols, lines through symbols, nets that share a piece or touch, open nets, ends off
// their ports, oblique pieces, texts on anything. Empty when sound; a sentence each otherwise. For debugging and tests: every
// finding is a defect of lay_out.
std::vector<std::string> violations(const Problem& problem, const Layout& layout);

}  // namespace ferrule::layout
