// Step 8: exact y. Body centres of a row on one line; channels as high as their tracks and texts need.
#include <algorithm>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

// House distances in half-M (gold sheets, table of rows and columns; the least by eye).
constexpr int row_to_row = 10;        // no track between: room for two port letters
constexpr int row_to_track = 8;       // port letters and one clear step
constexpr int track_to_track = 6;
constexpr int lettered = 8;           // a text stands on the track
constexpr int step_aside = 2;
constexpr int suction = 12;           // pump port to the rim

int above_line(const Node& node) { return node.stand().centre.y - node.dy - node.cell.room.top; }
int below_line(const Node& node) { return node.cell.room.bottom - node.stand().centre.y + node.dy; }

struct Extent { int above = 0, below = 0; };

std::vector<Extent> measure_rows(Plan& plan) {
  std::vector<Extent> extents(plan.rows);
  for (int r = 0; r < plan.rows; ++r)
    for (const Element& element : plan.order[r]) {
      if (element.node < 0) continue;
      Node& node = plan.nodes[element.node];
      // What stands in a trough hangs from the rim by its upper port.
      if (r == 0 && node.kind == Node::Kind::symbol) node.dy = node.stand().centre.y - rim_of(node);
      extents[r].above = std::max(extents[r].above, above_line(node));
      extents[r].below = std::max(extents[r].below, below_line(node));
    }
  return extents;
}

// Tallest thing that stands on a cover, texts included.
int cover_height(const Plan& plan) {
  int most = 0;
  for (const Node& node : plan.nodes)
    if (node.placed_apart && !node.item->trough) most = std::max(most, node.cell.room.bottom - node.cell.room.top);
  return most;
}

bool has_text(const Plan& plan, int net) { return !plan.problem->nets[net].texts.empty(); }

// Lays the tracks of a channel upward from `bottom` and returns the y of its top.
int stack(const Plan& plan, Channel& channel, int bottom, int first, int least) {
  channel.bottom = bottom;
  channel.track_y.assign(channel.tracks, 0);
  if (channel.tracks == 0 && channel.jogs.empty()) return channel.top = bottom - least;
  std::vector<char> text(channel.tracks, 0);
  for (const Piece& piece : channel.pieces) text[piece.track] |= has_text(plan, piece.net);
  int y = bottom - first;
  for (int t = 0; t < channel.tracks; ++t) {
    channel.track_y[t] = y;
    y -= text[t] ? lettered : track_to_track;
  }
  y -= step_aside * int(channel.jogs.size());
  return channel.top = std::min(y + track_to_track - row_to_track, bottom - least);
}

}  // namespace

// The height of the port by which something hangs from a trough's rim.
int rim_of(const Node& node) {
  for (const Pin& pin : node.stand().pins)
    if (pin.side == Side::above) return pin.at.y;
  return node.stand().box.top;
}

void set_heights(Plan& plan) {
  const std::vector<Extent> extents = measure_rows(plan);
  plan.row_y.assign(plan.rows, 0);
  const int cover = cover_height(plan);
  int y = 0;
  for (int r = 0; r < plan.rows; ++r) {
    if (r > 0) y -= extents[r].below;
    plan.row_y[r] = y;
    y -= extents[r].above;
    const int first = r == 0 && cover > 0 ? cover + 4 : row_to_track;
    const int least = r == 0 ? std::max(suction, cover ? cover + 4 : 0) : row_to_row;
    y = stack(plan, plan.channels[r + 1], y, first, least);
  }
  // Below everything: only what leaves a trough downward.
  Channel& cellar = plan.channels[0];
  const int under = plan.rows ? plan.row_y[0] + extents[0].below : 0;
  const int top = stack(plan, cellar, 0, row_to_track, row_to_row);
  for (int& track : cellar.track_y) track += under - top;
  cellar.bottom = under - top, cellar.top = under;
  for (Node& node : plan.nodes)
    if (!node.placed_apart) node.y = plan.row_y[node.row] + node.dy - node.stand().centre.y;
}

}  // namespace ferrule::layout
