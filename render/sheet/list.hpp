// Lists over as many pages as they need: heading, head row on every page, rows of 7 mm and more.
#pragma once

#include <string>
#include <vector>

#include "render/sheet/ink.hpp"

namespace ferrule::sheet {

struct ListColumn {
  std::string head;
  double width = 0;            // mm
  bool centred = false;
};

struct List {
  std::string heading;
  std::vector<ListColumn> columns;
  std::vector<std::vector<std::string>> rows;   // cells by column
};

struct ListPage {
  Inks inks;
  std::vector<Rect> rows;      // where the rows stand that this page holds
  std::size_t first = 0;       // the first of them
  double bottom = 0;           // mm on the sheet
};

// A text too long for its cell takes more lines, four at most, and is cut with three points after that. `first` is the space on
// the first page, `next` on the others; a page holds one row at least.
std::vector<ListPage> list_pages(const List& list, const Rect& first, const Rect& next);

}  // namespace ferrule::sheet
