// What already stands on the sheet, for questions like "is this place free". Internal to render/layout.
#pragma once

#include <vector>

#include "render/layout/layout.hpp"

namespace ferrule::layout {

// Do the boxes come nearer than `gap`? Lines are boxes without width.
inline bool meets(const Box& a, const Box& b, int gap) {
  return a.left < b.right + gap && b.left < a.right + gap && a.top < b.bottom + gap && b.top < a.bottom + gap;
}

inline Box hull(const Box& a, const Box& b) {
  return {a.left < b.left ? a.left : b.left, a.top < b.top ? a.top : b.top, a.right > b.right ? a.right : b.right,
          a.bottom > b.bottom ? a.bottom : b.bottom};
}

class Occupied {
 public:
  explicit Occupied(const Box& area);
  void add(const Box& box);
  bool free(const Box& box, int gap) const;

 private:
  struct Span { int c0, r0, c1, r1; };
  Span span(const Box& box, int gap) const;
  Box area_;
  int columns_ = 0, rows_ = 0;
  std::vector<Box> boxes_;
  std::vector<std::vector<int>> cells_;
};

// The box of an item where it stands; a trough's is its outline.
Box box_of(const Problem& problem, const Layout& layout, int item);
Box box_of_mark(const TankMark& mark);

// Everything placed and drawn so far.
Box extent_of(const Problem& problem, const Layout& layout);
Occupied occupied(const Problem& problem, const Layout& layout);

}  // namespace ferrule::layout
