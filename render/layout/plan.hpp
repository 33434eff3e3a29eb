// What the steps of layout hand to one another. Internal to render/layout.
//
// The sheet is a stack of rows, numbered from the bottom; channel r lies above row r, channel -1 below everything. Row 0 is the
// reservoirs' trough. A line leaves a symbol upward into channel r, downward into r - 1, or sideways to something in its own row.
#pragma once

#include <array>
#include <vector>

#include "render/layout/layout.hpp"

namespace ferrule::layout {

// How a line leaves its symbol.
enum class Way : std::uint8_t {
  none,   // not drawn
  up,     // into the channel above its row
  down,   // into the channel below its row
  tee,    // straight to the neighbouring slot of its own net
  face,   // straight to the facing port of a neighbour (shafts, rods)
  hang,   // to a tank mark of its own, inside its own cell
};

struct Tap {                 // one end of a net
  int node = -1, pin = -1, net = -1, strand = -1;
  End end;                   // as the caller knows it
  Way way = Way::none;
  int lane = 0;              // up, down: x of the vertical piece, from the node's origin
  int mate = -1;             // face: the other tap; tee: the slot
  End hung;                  // hang: the reservoir's end
};

// What stands alone in its part of a row: symbol, texts and the lines that turn beside it. Relative to the origin.
struct Cell {
  Box room;
  std::vector<PlacedText> texts;
  std::vector<Point> marks;  // ports of the tank marks that hang in it, in the order of its hanging taps
};

// A tail keeps room in row 0, right of a reservoir's last entry, for what stands on its cover and for its texts.
struct Node {                // an item, or what layout added: a tank mark, a trough entry, a trough's tail
  enum class Kind : std::uint8_t { symbol, mark, entry, tail } kind = Kind::symbol;
  const Item* item = nullptr;
  int source = -1;           // index in the problem; -1 for marks and entries
  int reservoir = -1;        // mark, entry, item in a trough: whose
  int block = -1, row = 0, pose = 0;
  Tier tier = Tier::control; // by its connections
  bool placed_apart = false; // reservoirs and what stands on their covers: placed after the rest
  bool text_left = false;    // its texts go to the left
  bool primary = false;      // the directional valve its branch hangs on: row of valves, A and B up
  bool main_line = false;    // pump, or in the line from pump to valves
  int guess = 0;             // x of the origin before coordinates are exact
  int dy = 0;                // how far its centre stands below its row's line, so that a shaft meets its mate's
  int mate_left = -1, mate_right = -1;  // nodes it stands next to, joined by one straight line
  int x = 0, y = 0;
  std::vector<int> taps;
  Cell cell;
  const Pose& stand() const { return item->poses[pose]; }
};

// The part of a net inside one block: at most one trunk per channel and one slot per row, so it is a tree.
struct Strand {
  int net = -1, block = -1;
  std::vector<int> taps;
  int low = 0, high = -1;    // channels it reaches; none when high < low
  std::vector<int> slots;    // of rows low + 1 ... high
  bool lifted = false;       // one signal of the supply, on a way of its own to the channel where the net's strands meet
};

struct Slot {                // where a strand passes a row
  int strand = -1, row = 0, block = 0, guess = 0, x = 0;
};

struct Element {             // one place in a row
  int node = -1, slot = -1;
};

struct Block {
  std::vector<int> nodes, slots, strands;
  int x = 0;                 // shift of the whole block
  int left = 0, right = 0;
};

// A vertical line that enters a channel.
struct Drop {
  int x = 0;
  bool above = false, below = false;   // comes from the row above, from the row below
};

// A horizontal piece in a channel. `bundle` pieces hang on the same verticals.
struct Piece {
  int bundle = -1, net = -1;
  int left = 0, right = 0, track = 0;
};

// One net's lines in one channel.
struct Bundle {
  int net = -1, channel = 0;
  std::vector<Drop> drops;             // by x, no two alike
  int first_piece = 0, pieces = 0;
};

struct Jog {                           // a vertical from above that steps aside at the top of its channel
  int bundle = -1, from = 0, to = 0, track = 0;
};

struct Channel {
  std::vector<Bundle> bundles;
  std::vector<Piece> pieces;
  std::vector<Jog> jogs;
  std::vector<int> track_y;            // by track, counted from below
  int tracks = 0;
  int top = 0, bottom = 0;             // y of its borders
};

// What may be done in one way or another; which is better shows only on the finished layout.
struct Habits {
  bool straight_lane = true;           // the first lane rises straight from valve to actuator, whatever else hangs on it
  bool lift_signals = false;           // the supply's pilots reach a rail over everything, not from beside the pump (gold: unloading valve)
  bool climb = false;                  // a part may stand higher over its valve than its own lines need, where that helps another
};

struct Plan {
  const Problem* problem = nullptr;
  Distances distances;
  Habits habits;
  bool lane_straightened = false;      // the habit of a straight lane weighed in
  std::vector<Node> nodes;
  std::vector<Tap> taps;
  std::vector<Strand> strands;
  std::vector<Slot> slots;
  std::vector<Block> blocks;           // [0] is the supply
  std::vector<std::vector<int>> net_strands;   // by net
  std::vector<int> home;               // by net: the channel where its strands meet
  int supply_rows = 0, rows = 1;       // rows 1 ... supply_rows belong to the supply
  std::vector<std::vector<Element>> order;     // by row
  std::vector<int> row_y;              // y of the centre line; of the rim in row 0
  std::vector<Channel> channels;       // [c + 1]
  std::vector<Refusal> refusals;
};

const Pin& pin_of(const Plan& plan, const Tap& tap);
// The channel a tap opens into as it stands; for a side port the one above when `up`.
int channel_of(const Plan& plan, const Tap& tap);

// The steps, in their order. Each reads what the ones before it wrote.
void take_apart(Plan& plan);       // nodes, taps, blocks, tank marks and trough entries
void assign_rows(Plan& plan);      // node.row, node.pose (upright or turned over)
void draw_strands(Plan& plan);     // strands, home channels, slots
void obey_rows(Plan& plan);        // hints: node.row
void obey_order(Plan& plan);       // hints: node.guess
void judge_hints(const Plan& plan, Layout& layout);  // layout.refusals: what was refused, and what does not hold after all
void put_in_order(Plan& plan);     // node.guess, node.pose, order, tap.way
void build_cells(Plan& plan);      // node.cell, tap.lane
void set_columns(Plan& plan);      // node.x, slot.x
void straighten_outer_signals(Plan& plan);   // slot.x, once blocks stand side by side
void lay_tracks(Plan& plan);       // channels
void set_heights(Plan& plan);      // row_y, node.y, track_y
// All heights again, as low as they may be; `room` by net: more air beside its level pieces.
void compact(Plan& plan, Layout& layout, const Distances& distances, const std::vector<int>& room);
bool may_be_lifted(const Plan& plan, int tap);   // a signal of the supply that leaves its part sideways
int rim_of(const Node& node);      // height of the port by which it hangs from a rim
void route(const Plan& plan, Layout& layout);
void place_troughs(const Plan& plan, Layout& layout);
void place_line_texts(const Plan& plan, Layout& layout);
void enclose(const Plan& plan, Layout& layout);

}  // namespace ferrule::layout
