// What `place` asks for, read off the emitted geometry: a hint holds, or a note says that it is not obeyed and why.
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "drawings/drawn.hpp"
#include "drawings/measure.hpp"
#include "support/generator.hpp"

namespace {

using Json = nlohmann::json;

struct Spot {
  double x, y;
};

std::map<std::string, Spot> centres(const Json& geometry) {
  std::map<std::string, Spot> spots;
  for (const Json& sheet : geometry["sheets"])
    for (const Json& symbol : sheet["symbols"])
      if (symbol.contains("centre")) spots[symbol["id"]] = {symbol["centre"][0], symbol["centre"][1]};
  return spots;
}

bool holds(const std::string& relation, Spot a, Spot b) {
  constexpr double same = 0.01;
  if (relation == "left of") return a.x < b.x;
  if (relation == "right of") return a.x > b.x;
  if (relation == "above") return a.y < b.y;
  if (relation == "below") return a.y > b.y;
  if (relation == "same row as") return std::abs(a.y - b.y) < same;
  return std::abs(a.x - b.x) < same;
}

bool noted(const ferrule::Drawing& drawing, const std::string& words) {
  return std::any_of(drawing.notes.begin(), drawing.notes.end(), [&](const std::string& note) { return note.find(words) != std::string::npos; });
}

constexpr const char* relations[] = {"left of", "right of", "above", "below", "same row as", "same column as"};

std::string lumber_lift(const std::string& hints) { return drawn::read("samples/lumber-lift.fer") + hints; }

int marks(const Json& geometry) {
  int count = 0;
  for (const Json& symbol : geometry["sheets"][0]["symbols"]) count += symbol["kind"] == "tankmark";
  return count;
}

Json geometry_of(const ferrule::Drawing& drawing) { return Json::parse(ferrule::geometry_json(drawing)); }

}  // namespace

TEST_CASE("a part goes to the side it is told to") {
  for (const char* relation : {"left of", "right of"}) {
    const ferrule::Drawing drawing = drawn::text(lumber_lift(std::string("place 0V2 ") + relation + " 0V1\n"));
    const std::map<std::string, Spot> spots = centres(geometry_of(drawing));
    INFO(relation);
    CHECK(drawing.notes.empty());
    CHECK(holds(relation, spots.at("0V2"), spots.at("0V1")));
    CHECK(measure::of(ferrule::geometry_json(drawing)).errors() == 0);
  }
}

TEST_CASE("of two hints that contradict each other the later is refused, and both are named with their lines") {
  const std::string text = lumber_lift("place 0V2 left of 0V1\nplace 0V1 left of 0V2\n");
  const std::size_t lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
  const ferrule::Drawing drawing = drawn::text(text);
  CHECK(drawing.notes == std::vector<std::string>{"`place 0V1 left of 0V2` (line " + std::to_string(lines) +
                                                  ") is not obeyed: that contradicts `place 0V2 left of 0V1` (line " + std::to_string(lines - 1) + ")"});
}

TEST_CASE("what a sheet cannot do is refused with the reason") {
  CHECK(noted(drawn::text(lumber_lift("place 2A1 left of 1A1\n")), "not obeyed: supply and branches stand in the order of the text"));
  CHECK(noted(drawn::text(lumber_lift("place 0P1 same row as 1V1\n")), "not obeyed: one stands in the supply, the other in a branch"));
  CHECK(noted(drawn::text(lumber_lift("place 0P1 on sheet 2\n")), "not obeyed: the circuit stands on one sheet"));
  CHECK(noted(drawn::text(lumber_lift("place 0P1 by marks\n")), "not obeyed: no line leads from 0P1 to a reservoir"));
}

TEST_CASE("returns end in marks or in the trough as told") {
  const Json told_nothing = geometry_of(drawn::text(lumber_lift("")));
  const ferrule::Drawing drawing = drawn::text(lumber_lift("place 0V1 by marks\nplace 0Z4 by marks\n"));
  CHECK(drawing.notes.empty());
  CHECK(marks(told_nothing) == 0);
  CHECK(marks(geometry_of(drawing)) == 2);
  CHECK(measure::of(ferrule::geometry_json(drawing)).errors() == 0);
}

TEST_CASE("whatever is asked of a generated circuit holds or is refused, and nothing touches") {
  int obeyed = 0;
  for (std::uint32_t seed = 1; seed <= 120; ++seed) {
    const std::string text = ferrule::tests::generated_circuit(6 + static_cast<int>(seed % 35), seed);
    std::vector<std::string> tags;
    for (const auto& [tag, spot] : centres(geometry_of(drawn::text(text))))
      if (tag.find_first_of(": ~") == std::string::npos) tags.push_back(tag);
    std::vector<std::array<std::string, 3>> hints;
    std::string asked;
    for (std::uint32_t i = 0; i < 4; ++i) {
      const std::array<std::string, 3> hint{tags[(seed * 7 + i * 13) % tags.size()], relations[(seed + i) % 6], tags[(seed * 11 + i * 5 + 1) % tags.size()]};
      if (hint[0] == hint[2]) continue;
      hints.push_back(hint);
      asked += "place " + hint[0] + " " + hint[1] + " " + hint[2] + "\n";
    }
    const ferrule::Drawing drawing = drawn::text(text + "\n" + asked);
    const std::map<std::string, Spot> spots = centres(geometry_of(drawing));
    REQUIRE_FALSE(spots.empty());
    for (const auto& [a, relation, b] : hints) {
      const bool refused = noted(drawing, "`place " + a + " " + relation + " " + b + "`");
      INFO("seed " << seed << ": " << a << " " << relation << " " << b);
      CHECK((refused || holds(relation, spots.at(a), spots.at(b))));
      obeyed += !refused;
    }
    const measure::Figures figures = measure::of(ferrule::geometry_json(drawing));
    INFO("seed " << seed << "\n" << asked << (figures.faults.empty() ? "" : figures.faults.front()));
    CHECK(figures.errors() == 0);
  }
  CHECK(obeyed > 100);
}
