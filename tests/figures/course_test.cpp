// What diagrams of a cycle are drawn from: places by hand from the text, curves and bars against the solved states.
#include <catch2/catch.hpp>

#include "compiler/figures/course.hpp"
#include "figures/book_of.hpp"

using namespace ferrule;
using tests::Open;

namespace {

Open sample(const std::string& name) { return Open(tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/samples/" + name)); }

// Of a series of points from left to right.
double read_off(const std::vector<std::pair<double, double>>& curve, double x) {
  for (std::size_t i = 1; i < curve.size(); ++i)
    if (x <= curve[i].first) {
      const auto [x0, y0] = curve[i - 1];
      const auto [x1, y1] = curve[i];
      return x1 - x0 < 1e-9 ? y1 : y0 + (y1 - y0) * (x - x0) / (x1 - x0);
    }
  return curve.back().second;
}

}  // namespace

TEST_CASE("an actuator stands where the travels of its steps add up to") {
  const auto open = sample("platen-press.fer");  // extends 250 mm, 30 mm, presses, retracts 280 mm, held
  const working::Course course = working::course_of(*open.book);
  REQUIRE(course.lanes.size() == 1);
  const double expected[] = {0, 0.25, 0.28, 0.28, 0, 0};
  REQUIRE(course.lanes[0].at.size() == std::size(expected));
  for (std::size_t i = 0; i < std::size(expected); ++i) CHECK(course.lanes[0].at[i].value() == Approx(expected[i]).margin(1e-12));
  CHECK(course.lanes[0].stroke == Approx(0.28));
  REQUIRE(course.lasts.size() == 5);
  CHECK(course.lasts[0] == Approx(0.25 / open.si("1A1.speed", "lower")));
  CHECK(course.lasts[2] == Approx(4));   // as stated
  CHECK(course.lasts[4] == Approx(25));
}

TEST_CASE("every state of a pump stands on its curve, and below it only where a load is sensed") {
  int stood = 0, kinds = 0;
  for (const auto& path : tests::all_circuits()) {
    const Open open(tests::contents_of(path));
    for (const working::PumpChart& chart : working::pump_charts(*open.book)) {
      const PartId pump = open.compilation->circuit.part_named(chart.tag);
      REQUIRE(pump);
      const bool senses = open.compilation->circuit.parts[pump].definition->name == "load-sensing-pump";
      kinds += senses;
      for (const auto& stand : chart.stands) {
        INFO(path << " " << chart.tag << " in " << stand.state);
        const double on_curve = read_off(chart.curve, stand.pressure), allowed = 0.005 * chart.curve.front().second;
        if (!senses) CHECK(std::abs(stand.flow) >= on_curve - allowed);
        CHECK(std::abs(stand.flow) <= on_curve + allowed);
        ++stood;
      }
    }
  }
  CHECK(stood > 100);
  CHECK(kinds > 0);
}

TEST_CASE("the bars of heat add up to the heat of the cycle, the greatest first") {
  for (const auto& path : tests::all_circuits()) {
    const Open open(tests::contents_of(path));
    const working::HeatBars heat = working::heat_bars(*open.book);
    double sum = 0;
    for (const auto& [place, watts] : heat.bars) sum += watts;
    if (!open.book->cycle().time) continue;
    INFO(path);
    CHECK(sum == Approx(open.si("cycle.heat")).epsilon(0.006));  // what is under half a percent of all may be left out
    for (std::size_t i = 1; i < heat.bars.size(); ++i)
      if (heat.bars[i].first != "others") CHECK(heat.bars[i].second <= heat.bars[i - 1].second);
  }
}

TEST_CASE("a circuit without a cycle has no course, and its heat is that of its hottest state") {
  std::string text = tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/samples/platen-press.fer");
  text.erase(text.find("cycle {"));
  const Open open(text);
  CHECK(working::course_of(*open.book).steps.empty());
  const working::HeatBars heat = working::heat_bars(*open.book);
  CHECK(heat.basis.rfind("in ", 0) == 0);
  double most = 0;
  for (const std::size_t state : open.book->told()) most = std::max(most, open.book->moment(state).heat_of_all());
  double sum = 0;
  for (const auto& [place, watts] : heat.bars) sum += watts;
  CHECK(sum == Approx(most).epsilon(0.006));
}

// Common practice: which side of a closed circuit stands under pressure follows the way that the pump is swung.
TEST_CASE("a pump swung over centre is shown by the side that it delivers to") {
  const Open open(tests::contents_of(std::string(FERRULE_SOURCE_DIR) + "/tests/figures/behaviours/closed-circuit-turns-both-ways.fer"));
  const working::Course course = working::course_of(*open.book);
  REQUIRE(course.pressures.size() == 2);
  for (const auto& [state, port] : {std::pair{"one", "0P1.A.pressure"}, std::pair{"other", "0P1.B.pressure"}}) {
    const std::size_t step = state == std::string("one") ? 0 : 1;
    CHECK(course.pressures[0].by_step[step].value() == Approx(open.si(port, state)));
    CHECK(course.pressures[0].by_step[step].value() > 200e5);
  }
}
