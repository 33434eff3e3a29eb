// Measures a drawing from its neutral geometry alone. Shares nothing with the code that lays out or paints.
//
// Conventions: lines of one net are merged before counting; coordinates within 0.02 mm are equal; a line enters a box when it
// goes 0.2 mm deep, its own symbol's too; a text nearer than 0.3 mm touches; a tee is not a bend.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace measure {

struct Figures {
  int symbols = 0, nets = 0, texts = 0;
  // What must be nought on every drawing.
  int symbol_on_symbol = 0, line_through_symbol = 0, line_along_outline = 0;
  int shared_pieces = 0;     // two nets on one piece
  int false_contacts = 0;    // a corner, end or tee of one net on another
  int open_nets = 0;         // a net in several parts, or with a port it does not reach
  int loose_ends = 0;        // a line that ends at no port of its net
  int oblique = 0, missing_dots = 0, wrong_dots = 0, four_way = 0, loops = 0;
  int wrong_side = 0;        // a port left across its side
  int text_on_text = 0, text_on_symbol = 0, text_on_line = 0, outside = 0;
  std::vector<std::string> faults;   // one sentence each
  // Quality.
  int crossings = 0, bends = 0, tees = 0;
  int two_ended = 0, two_ended_straight = 0, two_ended_bends = 0, worst_two_ended = 0;
  int family_members = 0, family_in_row = 0;   // the upper and the lower of a pair between two lines are families of their own
  int tier_pairs = 0, tier_pairs_in_order = 0;
  int branch_pairs = 0, branch_pairs_in_order = 0, branch_pairs_apart = 0;
  int branch_symbols = 0, branch_symbols_right = 0;   // right of every pump; on sheets with pumps and four branches or more
  double area = 0, symbol_area = 0;            // of everything drawn, and of the symbols, mm2
  double row_alignment() const { return family_members == 0 ? 1 : double(family_in_row) / family_members; }
  double gravity() const { return tier_pairs == 0 ? 1 : double(tier_pairs_in_order) / tier_pairs; }
  double bends_per_net() const { return nets == 0 ? 0 : double(bends) / nets; }
  double straight() const { return two_ended == 0 ? 1 : double(two_ended_straight) / two_ended; }
  double bends_of_two_ended() const { return two_ended == 0 ? 0 : double(two_ended_bends) / two_ended; }
  double branch_order() const { return branch_pairs == 0 ? 1 : double(branch_pairs_in_order) / branch_pairs; }
  double branches_apart() const { return branch_pairs == 0 ? 1 : double(branch_pairs_apart) / branch_pairs; }
  double supply_left() const { return branch_symbols == 0 ? 1 : double(branch_symbols_right) / branch_symbols; }
  double area_ratio() const { return symbol_area == 0 ? 0 : area / symbol_area; }
  int errors() const { return static_cast<int>(faults.size()); }
};

// All sheets of one geometry file summed up.
Figures of(std::string_view geometry_json);

// What an edit left alone, of all that stands on the same sheet in both drawings.
struct Kept {
  double pair_order = 1;     // pairs that stood more than 0.5 mm apart in x (or y) and still stand in that order
  double moved = 0;          // symbols more than a module off the movement most of them share
  double corners = 1;        // nets with the same corners, the common movement taken off
};
Kept kept(std::string_view before, std::string_view after, double module_mm);

}  // namespace measure
