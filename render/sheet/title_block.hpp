// Title block in the sense of ISO 7200: 180 x 36 mm in the bottom right corner, the caution on top of it.
#pragma once

#include <string>
#include <vector>

#include "render/sheet/ink.hpp"

namespace ferrule::sheet {

struct TitleData {
  std::string owner, number, revision, date, title, supplement, department, reference, approved, created, status;
  std::string document_type = "Hydraulic circuit diagram", language = "en";
  int sheet = 1, sheets = 1;
  double least_capital = 1.8;          // mm; 2.5 on a sheet that has to be read when it is printed smaller
};

inline constexpr double title_width = 180, title_height = 36;

// With its bottom right corner in the origin. A text too long for its cell takes the next smaller height of the series,
// then two lines, then is cut; what was cut is told in `notes`.
Inks title_block(const TitleData& data, std::vector<std::string>& notes);

// The same at its place on a sheet with this drawing space.
Inks title_on(const Rect& area, const TitleData& data, std::vector<std::string>& notes);

// A framed row of `width` mm, bottom left corner in the origin.
struct Panel {
  Inks inks;
  double width = 0, height = 0;
};
Panel caution_row(const std::string& text, double width);

}  // namespace ferrule::sheet
