// Expected pieces follow the cutting rule in the sense of ISO 128-2 (from memory): every straight piece begins and ends
// with a full dash; dash 12 d, gap 3 d for pilot lines; dash 5 d, gap 3 d for drains; chain 24 d, 3 d, 1 d, 3 d.
#include <catch2/catch.hpp>

#include "render/canvas/dashes.hpp"

using namespace ferrule::canvas;

namespace {
double length_of(const std::vector<Point>& piece) {
  double sum = 0;
  for (std::size_t i = 1; i < piece.size(); ++i) sum += std::abs(piece[i].x - piece[i - 1].x) + std::abs(piece[i].y - piece[i - 1].y);
  return sum;
}
}  // namespace

TEST_CASE("a pilot line of 25 mm with 0.25 mm width has seven dashes and begins and ends on ink") {
  const auto ink = inked({{10, 5}, {35, 5}}, 0.25, Pattern::pilot, false);
  REQUIRE(ink.size() == 7);  // (25 + 0.75) / 3.75 = 6.9
  CHECK(ink.front().front().x == Approx(10));
  CHECK(ink.back().back().x == 35);
  for (const auto& dash : ink) CHECK(length_of(dash) == Approx((25 - 6 * 0.75) / 7));
  CHECK(ink[1].front().x - ink[0].back().x == Approx(0.75));
}

TEST_CASE("dashes meet in a corner as one stroke") {
  const auto ink = inked({{0, 0}, {10, 0}, {10, 10}}, 0.25, Pattern::drain, false);
  int corners = 0;
  for (const auto& dash : ink) corners += dash.size() == 3;
  CHECK(corners == 1);
  CHECK(ink.front().front().x == 0);
  CHECK(ink.back().back().y == 10);
}

TEST_CASE("a closed chain line has ink in all four corners and dots between its dashes") {
  const auto ink = inked({{0, 0}, {60, 0}, {60, 40}, {0, 40}}, 0.25, Pattern::chain, true);
  int corners = 0, dots = 0;
  for (const auto& piece : ink) {
    corners += piece.size() == 3;
    dots += piece.size() == 2 && std::abs(length_of(piece) - 0.25) < 1e-9;
  }
  CHECK(corners == 4);
  CHECK(dots > 8);
}

TEST_CASE("a piece too short for two dashes is solid") {
  const auto ink = inked({{0, 0}, {2, 0}}, 0.25, Pattern::pilot, false);
  REQUIRE(ink.size() == 1);
  CHECK(length_of(ink[0]) == Approx(2));
}

TEST_CASE("solid lines pass whole, closed ones come back to their start") {
  CHECK(inked({{0, 0}, {5, 0}, {5, 5}}, 0.25, Pattern::solid, false).at(0).size() == 3);
  CHECK(inked({{0, 0}, {5, 0}, {5, 5}}, 0.25, Pattern::solid, true).at(0).size() == 4);
  CHECK(inked({{0, 0}}, 0.25, Pattern::solid, false).empty());
  CHECK(drawn_width(0.25, Pattern::thin) == 0.125);
}
