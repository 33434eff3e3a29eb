// Where pages end: the rules of typesetting for lines left alone, as properties of all ways to stack pieces.
#include <catch2/catch.hpp>

#include <algorithm>

#include "render/pages/breaking.hpp"
#include "render/pages/setting.hpp"
#include "support/dice.hpp"

using namespace ferrule::pages;

namespace {

std::vector<std::size_t> firsts(const std::vector<Standings>& pages) {
  std::vector<std::size_t> all;
  for (const Standings& page : pages) all.push_back(page.front().piece);
  return all;
}

std::vector<Piece> paragraph(std::size_t lines) {
  std::vector<Piece> pieces;
  for (std::size_t i = 0; i < lines; ++i) pieces.push_back({10, 0, stays_with_next(i, lines), -1});
  return pieces;
}

}  // namespace

TEST_CASE("a page is full before the next begins, and air at its head is none") {
  std::vector<Piece> pieces(5, Piece{30, 10, false, -1});   // 30 + 40 + 40: two and a bit
  const auto pages = broken(pieces, 100);
  CHECK(firsts(pages) == std::vector<std::size_t>{0, 2, 4});
  CHECK(pages[1][0].top == 0);
  CHECK(pages[1][1].top == 40);
}

TEST_CASE("a heading goes with what it is the heading of") {
  const std::vector<Piece> pieces{{80, 0, false, -1}, {10, 0, true, -1}, {20, 0, false, -1}};
  CHECK(firsts(broken(pieces, 100)) == std::vector<std::size_t>{0, 1});
}

TEST_CASE("no line of a paragraph stands alone at the foot or at the head of a page") {
  for (std::size_t before = 0; before < 10; ++before)
    for (std::size_t lines = 2; lines < 12; ++lines) {
      std::vector<Piece> pieces(before, Piece{10, 0, false, -1});
      for (const Piece& piece : paragraph(lines)) pieces.push_back(piece);
      for (const std::size_t first : firsts(broken(pieces, 100))) {
        INFO(before << " pieces, then " << lines << " lines, page begins with " << first);
        CHECK(first != before + 1);           // one line alone at the foot of the page before
        CHECK(first != before + lines - 1);   // the last line alone at the head
      }
    }
}

TEST_CASE("the head of a table stands above the rows of every page") {
  std::vector<Piece> pieces{{10, 0, true, -1}};
  for (std::size_t i = 0; i < 25; ++i) pieces.push_back({10, 0, stays_with_next(i, 25), 0});
  const auto pages = broken(pieces, 100);
  REQUIRE(pages.size() == 3);
  for (const Standings& page : pages) CHECK(page.front().piece == 0);
  for (const Standings& page : pages) CHECK(page.back().top + 10 <= 100);
}

TEST_CASE("what belongs together and is higher than a page is cut all the same, and a piece higher than a page has one for itself") {
  CHECK(firsts(broken(std::vector<Piece>(15, Piece{10, 0, true, -1}), 100)) == std::vector<std::size_t>{0, 10});
  CHECK(firsts(broken({{10, 0, false, -1}, {500, 0, false, -1}, {10, 0, false, -1}}, 100)) == std::vector<std::size_t>{0, 1, 2});
  CHECK(broken({}, 100).empty());
}

TEST_CASE("any pieces: each once and in order, none beyond the room, no page ends behind a piece that goes with the next") {
  ferrule::tests::Dice dice(7);
  for (int run = 0; run < 500; ++run) {
    std::vector<Piece> pieces;
    for (int i = 1 + dice.below(60); i > 0; --i)
      pieces.push_back({1.0 + dice.below(30), 1.0 * dice.below(6), (pieces.empty() || !pieces.back().with_next) && dice.below(3) == 0, -1});
    pieces.back().with_next = false;
    std::size_t next = 0;
    for (const Standings& page : broken(pieces, 100)) {
      double foot = 0;
      for (const Standing& standing : page) {
        CHECK(standing.piece == next++);
        CHECK(standing.top >= foot);
        foot = standing.top + pieces[standing.piece].height;
      }
      CHECK(foot <= 100);
      CHECK_FALSE(pieces[page.back().piece].with_next);
    }
    CHECK(next == pieces.size());
  }
}

TEST_CASE("columns share a narrow page: the narrow keep their width, the wide give way alike, what is to be written in keeps its place") {
  CHECK(shared_widths({30, 40}, {10, 10}, 100) == std::vector<double>{30, 40});
  const auto shared = shared_widths({20, 200, 300}, {10, 10, 10}, 180);
  CHECK(shared[0] == Approx(20));
  CHECK(shared[1] == Approx(80));
  CHECK(shared[2] == Approx(80));
  CHECK(shared_widths({200, 200}, {25, 120}, 180)[1] == Approx(120));
}

TEST_CASE("words are wrapped within the width, long ones cut, none lost") {
  for (const double width : {5.0, 20.0, 60.0}) {
    const std::string text = "keeps P below 160 bar by letting oil go to T, Druckbegrenzungsventildeckelschraube größer";
    std::string joined;
    for (const std::string& line : lines_of(text, width, 2.5)) {
      CHECK(ferrule::canvas::measured(line, 2.5).width <= width + 0.5);
      for (const char c : line)
        if (c != ' ') joined += c;
    }
    std::string letters = text;
    letters.erase(std::remove(letters.begin(), letters.end(), ' '), letters.end());
    CHECK(joined == letters);
  }
}
