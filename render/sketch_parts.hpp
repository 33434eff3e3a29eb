// The items of a sketch: one per drawn part, with its poses, pins and texts. Internal to render/sketch.
#pragma once

#include <utility>

#include "render/captions.hpp"
#include "render/sketch.hpp"

namespace ferrule {

struct SketchParts {
  const Circuit& circuit;
  Library& library;
  Sketch& sketch;
  double module_mm, capital_mm;
  const StateView* view;                     // null for a sheet as usual
  std::vector<int> item_of_part;             // by part; -1 when it is not drawn
  std::vector<layout::End> connection_ends;  // by connection of the nets
  std::vector<std::pair<int, int>> loads;    // actuator item, load item
  std::map<std::string, int> groups;         // assembly to index

  // Width and height of rows of text in half modules.
  void measure(int& width, int& height, const std::vector<std::string>& rows) const;
};

void add_items(SketchParts& parts);

int pin_named(const layout::Item& item, std::string_view name);               // -1 when there is none
std::string pin_name(const Sketch& sketch, layout::End end);
// The mechanical pin of an item, preferring the given side; -1 when there is none.
int mechanical_pin(const Sketch& sketch, int item, Side preferred);
// A second shaft on the side opposite to the first, drawn when a further pump hangs on it; -1 when there is no room.
int through_shaft(Sketch& sketch, int item);

}  // namespace ferrule
