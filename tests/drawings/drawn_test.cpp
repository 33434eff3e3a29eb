// Whole circuits, drawn and measured from the emitted geometry alone: nothing touches, every line ends where it should.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

#include "drawings/drawn.hpp"
#include "drawings/measure.hpp"
#include "support/files.hpp"
#include "support/generator.hpp"

namespace {

std::vector<std::string> circuits_in(const std::string& folder) {
  std::vector<std::string> paths = ferrule::tests::files_below(folder, ".fer");
  std::erase_if(paths, [&](const std::string& path) { return path.find('/', folder.size() + 1) != std::string::npos; });
  return paths;
}

std::string first_faults(const measure::Figures& figures) {
  std::string text;
  for (std::size_t i = 0; i < std::min<std::size_t>(figures.faults.size(), 5); ++i) text += figures.faults[i] + "\n";
  return text;
}

}  // namespace

TEST_CASE("every sample, pair and machine is drawn without a hard error or a text that touches") {
  for (const char* folder : {"samples", "samples/pairs", "tests/briefs"})
    for (const std::string& path : circuits_in(folder)) {
      const measure::Figures figures = measure::of(ferrule::geometry_json(drawn::file(path)));
      INFO(path << "\n" << first_faults(figures));
      CHECK(figures.symbols > 5);
      CHECK(figures.errors() == 0);
    }
}

TEST_CASE("500 generated circuits are drawn without a hard error or a text that touches") {
  for (std::uint32_t seed = 1; seed <= 500; ++seed) {
    const int components = 6 + static_cast<int>(seed % 35);
    const measure::Figures figures =
        measure::of(ferrule::geometry_json(drawn::text(ferrule::tests::generated_circuit(components, seed))));
    INFO("seed " << seed << ", " << components << " components\n" << first_faults(figures));
    CHECK(figures.errors() == 0);
    CHECK(figures.gravity() == 1.0);
  }
}

TEST_CASE("the same text gives the same bytes") {
  for (const char* ending : {".pdf", ".svg", ".png", ".json"}) {
    const ferrule::DrawnFile first = ferrule::files_of(drawn::file("samples/platen-press.fer"), ending).front();
    const ferrule::DrawnFile second = ferrule::files_of(drawn::file("samples/platen-press.fer"), ending).front();
    CHECK(first.error.empty());
    CHECK(first.bytes.size() > 1000);
    CHECK(first.bytes == second.bytes);
  }
}

// Crossings, bends, area and format of the same machines laid by hand with the same symbols, counted by the rules of this
// measure (tests/reference/gold). One sheet each.
TEST_CASE("machines are drawn at least as plainly as by hand") {
  struct Hand {
    const char* machine;
    const char* format;
    int crossings, bends;
  };
  for (const Hand& hand : {Hand{"veneer-clamp-press", "A3", 1, 9}, {"card-baler", "A3", 0, 12}, {"picking-platform", "A3", 3, 19}, {"crate-pusher", "A4", 0, 7}}) {
    const ferrule::Drawing drawing = drawn::file("tests/briefs/" + std::string(hand.machine) + ".fer", {"fit", false});
    const measure::Figures figures = measure::of(ferrule::geometry_json(drawing));
    const measure::Figures by_hand = measure::of(drawn::read("tests/reference/gold/" + std::string(hand.machine) + ".json"));
    INFO(hand.machine << ": " << figures.crossings << " crossings, " << figures.bends << " bends, " << figures.area << " mm2");
    CHECK(figures.crossings <= hand.crossings);
    CHECK(figures.bends <= hand.bends);
    CHECK(figures.area <= 1.15 * by_hand.area);
    CHECK(drawing.sheets.front().format.name == hand.format);
  }
}
