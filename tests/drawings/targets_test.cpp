// 2000 generated circuits of 5 to 300 components against the figures a careful sheet should have (house targets; the hand-laid
// sheets of tests/reference/gold set them). Takes minutes: a ctest entry of its own.
#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>

#include "drawings/drawn.hpp"
#include "drawings/measure.hpp"
#include "support/edits.hpp"
#include "support/generator.hpp"

namespace {

struct Size { int components, circuits; };
constexpr Size sizes[] = {{5, 300}, {10, 500}, {20, 500}, {30, 500}, {100, 150}, {300, 50}};

// Where the generated circuits of one size must lie, in the median. Crossings at 100 and 300 are those of a whole set of sheets.
struct Target {
  int components, crossings;
  double bends_per_net, straight, bends_of_two_ended, area;
};
constexpr Target targets[] = {{5, 2, 1.1, 0.75, 0.55, 11},   {10, 2, 1.1, 0.75, 0.55, 11},  {20, 8, 1.1, 0.75, 0.55, 11},
                              {30, 8, 1.1, 0.75, 0.55, 14},  {100, 45, 1.5, 0.69, 0.65, 18}, {300, 180, 1.5, 0.67, 0.70, 18}};

double median(std::vector<double> values) {
  std::nth_element(values.begin(), values.begin() + static_cast<long>(values.size() / 2), values.end());
  return values[values.size() / 2];
}

std::string geometry(const std::string& text) { return ferrule::geometry_json(drawn::text(text)); }

std::string first_fault(const measure::Figures& figures) { return figures.faults.empty() ? "" : figures.faults.front(); }

}  // namespace

TEST_CASE("2000 generated circuits are drawn as well as a careful sheet", "[targets]") {
  for (std::size_t i = 0; i < std::size(sizes); ++i) {
    const auto& [components, circuits] = sizes[i];
    std::vector<double> crossings, bends, straight, two_ended, area, rows, left;
    int worst_two_ended = 0;
    for (int seed = 1; seed <= circuits; ++seed) {
      const measure::Figures f = measure::of(geometry(ferrule::tests::generated_circuit(components, static_cast<std::uint32_t>(seed))));
      INFO(components << " components, seed " << seed << ": " << first_fault(f));
      CHECK(f.errors() == 0);
      CHECK(f.gravity() == 1.0);
      CHECK(f.branch_order() == 1.0);
      CHECK(f.branches_apart() == 1.0);
      worst_two_ended = std::max(worst_two_ended, f.worst_two_ended);
      crossings.push_back(f.crossings), bends.push_back(f.bends_per_net()), straight.push_back(f.straight());
      two_ended.push_back(f.bends_of_two_ended()), area.push_back(f.area_ratio()), rows.push_back(f.row_alignment()), left.push_back(f.supply_left());
    }
    std::cout << components << " components: crossings " << median(crossings) << ", bends a net " << median(bends) << ", straight " << median(straight)
              << ", bends of two-ended " << median(two_ended) << " (at most " << worst_two_ended << "), area " << median(area) << ", rows " << median(rows)
              << ", supply left " << median(left) << "\n";
    const Target& target = targets[i];
    CAPTURE(components);
    CHECK(median(crossings) <= target.crossings);
    CHECK(median(bends) <= target.bends_per_net);
    CHECK(median(straight) >= target.straight);
    CHECK(median(two_ended) <= target.bends_of_two_ended);
    CHECK(median(area) <= target.area);
    CHECK(median(rows) >= 0.95);
    CHECK(median(left) >= 0.90);
    CHECK(worst_two_ended <= 4);
  }
}

TEST_CASE("an edit of one line moves little", "[targets]") {
  for (const auto& [components, circuits] : {Size{10, 40}, {20, 40}, {30, 30}, {100, 6}}) {
    std::vector<double> order, moved, corners;
    for (int seed = 1; seed <= circuits; ++seed) {
      const std::string text = ferrule::tests::generated_circuit(components, static_cast<std::uint32_t>(seed));
      const ferrule::Drawing first = drawn::text(text);
      for (const auto& [name, edited] : ferrule::tests::small_edits(text)) {
        const measure::Kept kept = measure::kept(ferrule::geometry_json(first), geometry(edited), first.module_mm);
        INFO(components << " components, seed " << seed << ", " << name);
        CHECK(kept.pair_order >= (components < 20 ? 0.8 : 0.97));   // of ten symbols one that steps aside is more than 3 % of all pairs
        order.push_back(kept.pair_order), moved.push_back(kept.moved), corners.push_back(kept.corners);
      }
    }
    std::cout << components << " components, " << order.size() << " edits: pair order " << median(order) << " (at least "
              << *std::min_element(order.begin(), order.end()) << "), moved " << median(moved) << ", corners kept " << median(corners) << "\n";
    CAPTURE(components);
    CHECK(median(order) >= 0.995);
    if (components < 100) continue;
    CHECK(median(moved) <= 0.10);
    CHECK(median(corners) >= 0.97);
  }
}
