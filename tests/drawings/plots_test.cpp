// Diagrams: scales that hold what they show, and files that say in words and black on white what was computed.
#include <catch2/catch.hpp>

#include <cmath>

#include "compiler/driver/verb.hpp"
#include "render/plots/axis.hpp"
#include "support/files.hpp"

using namespace ferrule;

namespace {

struct Said {
  int code;
  std::string out, err;
};
Said say(const std::vector<std::string>& words, const std::string& input) {
  Talk talk{[&] { return input; }, "2026-01-01", 100, 0, false, {}, {}, {}};
  const int code = run(words, talk);
  return {code, talk.out, talk.err};
}

std::string svg_of(const std::string& circuit) {
  const auto path = std::filesystem::temp_directory_path() / "ferrule-plots-test.svg";
  std::filesystem::remove(path);
  const Said said = say({"solve", "-", "--plot", path.string(), "--state", "rest"}, circuit);
  INFO(said.err);
  CHECK(said.code == 0);
  std::string bytes = tests::text_of(path);
  std::filesystem::remove(path);
  return bytes;
}

}  // namespace

TEST_CASE("a scale holds all values and nil, in steps of 1, 2 or 5") {
  for (const auto& values : std::vector<std::vector<double>>{{3}, {0.02, 0.7}, {-4, 9}, {1e5, 3e5}, {-2e-3}, {}, {0}, {99.999, 100.001}}) {
    const plots::Axis axis = plots::axis_for(values);
    for (const double value : values) CHECK((axis.low <= value && value <= axis.high));
    CHECK((axis.low <= 0 && 0 <= axis.high));
    REQUIRE(axis.ticks.size() >= 2);
    CHECK(axis.ticks.size() <= 8);
    const double step = axis.ticks[1] - axis.ticks[0], mantissa = step / std::pow(10, std::floor(std::log10(step) + 1e-9));
    CHECK((std::abs(mantissa - 1) < 1e-6 || std::abs(mantissa - 2) < 1e-6 || std::abs(mantissa - 5) < 1e-6));
  }
  CHECK(plots::axis_for({NAN, INFINITY, 5}).high == Approx(5));
}

TEST_CASE("diagrams are black on white, the same twice, for every sample") {
  for (const std::string& sample : tests::files_below("samples", ".fer")) {
    INFO(sample);
    const std::string text = tests::project_text(sample), once = svg_of(text);
    REQUIRE_FALSE(once.empty());
    CHECK(once == svg_of(text));
    std::size_t colours = 0;
    for (const std::string_view attribute : {"fill=\"#", "stroke=\"#"})
      for (std::size_t at = once.find(attribute); at != once.npos; at = once.find(attribute, at + 1)) {
        const std::size_t from = at + attribute.size();
        const std::string colour = once.substr(from, once.find('"', from) - from);
        CHECK((colour == "000" || colour == "000000" || colour == "fff" || colour == "ffffff"));
        ++colours;
      }
    CHECK(colours > 10);
  }
}

TEST_CASE("a plot of two files, or with another ending, is refused before anything is written") {
  const std::string text = tests::project_text("samples/platen-press.fer");
  CHECK(say({"solve", "-", "--plot", "press.bmp"}, text).code == exit_code::called_wrongly);
  CHECK(say({"solve", "-", "-", "--plot", "press.pdf"}, text).code == exit_code::called_wrongly);
  CHECK(say({"solve", "-", "--plot", "/no/such/folder/press.pdf"}, text).code == exit_code::not_written);
}
