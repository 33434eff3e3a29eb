// Moving strokes: flip first, then quarter turns clockwise, then the shift.
#include <catch2/catch.hpp>

#include "drawings/symbols_reference.hpp"

namespace ferrule::symbols {

TEST_CASE("a turn moves a point: flip, quarters, shift, in this order") {
  const Turn turn{10, 20, 1, true};
  CHECK(turn({3, 1}) == Spot{9, 17});
  CHECK(turn.side(Side::right) == Side::above);
}

TEST_CASE("two turns in a row are one turn") {
  const Turn first{1, 2, 1, true}, second{-3, 5, 2, true};
  for (const Spot at : {Spot{1, 0}, Spot{0, 1}, Spot{2.5, -4}}) CHECK(first.then(second)(at) == second(first(at)));
}

TEST_CASE("an arc that is flipped covers the same paper as its mirror image") {
  const Stroke arc = stroke(StrokeKind::arc, {0, 0, 4, -90, 0});  // the upper right quarter
  const Extent flipped = extent_of({moved(arc, {0, 0, 0, true})});
  CHECK(flipped.left == Approx(-4));
  CHECK(flipped.right == Approx(0).margin(1e-9));
  CHECK(flipped.top == Approx(-4));
}

TEST_CASE("the stub of a port takes the type of its line, the rest of the stroke stays") {
  Figure figure;
  figure.strokes = {stroke(StrokeKind::line, {0, 0, 0, 2, 3, 2, 3, 5})};
  figure.ports = {{"P", 3, 5, Side::below, PortUse::main}, {"X", 0, 0, Side::above, PortUse::pilot}};
  stub_as(figure, "P", PortUse::drain);
  REQUIRE(figure.strokes.size() == 2);
  CHECK(figure.strokes[0].numbers == std::vector<double>{0, 0, 0, 2, 3, 2});
  CHECK(figure.strokes[1].kind == StrokeKind::drain);
  CHECK(figure.strokes[1].numbers == std::vector<double>{3, 2, 3, 5});
}

}  // namespace ferrule::symbols
