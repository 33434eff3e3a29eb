// What stands on the pages of a handout, a worksheet or a lab sheet, before any page is chosen.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "render/sheet/ink.hpp"

namespace ferrule::pages {

// Level 0 is the title of the whole, 1 of a part, 2 within it. Never the last thing on a page.
struct Heading {
  std::string text;
  int level = 1;
};

struct Paragraph {
  std::string text;
  std::string mark = {};     // hung out at the left: a number or a dash; empty for none
  double capital = 2.5;      // mm
};

// Ink with its top left corner in the origin.
struct Figure {
  sheet::Inks inks;
  double width = 0, height = 0;  // mm
};

// Paragraphs in a thick frame: cautions. Not cut.
struct Frame {
  std::vector<Paragraph> paragraphs;
};

struct Cell {
  std::string text;
  Figure figure;             // in place of the text when it has a width
};

struct Column {
  std::string head;
  bool centred = false;
  double least = 0;          // mm; for what is to be filled in by hand
};

// As wide as its words, at most as wide as the page: then the widest columns give way and their words wrap. The head stands
// again on every page. Rows have a cell for every column.
struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
  double least_row = 0;      // mm, the least height of a row below the head
  bool with_next = false;    // what follows stands on the page of its last row
};

struct Spacing {
  double height = 0;         // mm; none at the head of a page
};

using Block = std::variant<Heading, Paragraph, Figure, Frame, Table, Spacing>;

}  // namespace ferrule::pages
