// Whatever is asked, the layout is sound: circuits by the hundred from a seeded generator, judged by code of its own.
#include <catch2/catch.hpp>

#include <chrono>
#include <iostream>

#include "layout/generator.hpp"
#include "layout/judge.hpp"
#include "layout/picture.hpp"

using namespace ferrule::layout;

namespace {

void check_sound(const std::string& name, const Problem& problem) {
  const Layout layout = lay_out(problem);
  const auto faults = judge::faults(problem, layout);
  if (faults.empty()) return;
  picture::write_if_asked(name, problem, layout);
  INFO(name << ": " << faults.size() << " faults, first: " << faults[0]);
  CHECK(faults.empty());
}

std::string text_of(const Layout& layout) {
  std::string text;
  const auto put = [&](int v) { text += std::to_string(v) + ' '; };
  for (const Placed& p : layout.items) put(p.at.x), put(p.at.y), put(p.pose);
  for (const Routed& net : layout.nets)
    for (const Path& path : net.paths)
      for (const Point& point : path.points) put(point.x), put(point.y);
  for (const PlacedText& t : layout.texts) text += t.id, put(t.box.left), put(t.box.top);
  return text;
}

double milliseconds(const Problem& problem) {
  const auto start = std::chrono::steady_clock::now();
  lay_out(problem);
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

}  // namespace

TEST_CASE("generated circuits are drawn without a fault") {
  for (int seed = 1; seed <= 60; ++seed) check_sound("circuit-" + std::to_string(seed), generator::circuit(seed, seed % 9));
  for (int seed = 1; seed <= 30; ++seed) check_sound("loose-" + std::to_string(seed), generator::circuit(seed, seed % 7, false));
}

TEST_CASE("nonsense is drawn without a fault") {
  for (int seed = 1; seed <= 120; ++seed)
    check_sound("nonsense-" + std::to_string(seed), generator::nonsense(seed, 1 + seed % 25, seed % 40));
}

TEST_CASE("odd problems") {
  check_sound("empty", {});
  kit::Maker one;
  one.add("V1", "directional", Tier::control, 1, kit::valve());
  check_sound("one-symbol", one.problem);
  one.net("own", NetKind::working, {"V1.A", "V1.T"});
  one.net("own2", NetKind::working, {"V1.B", "V1.P"});
  check_sound("own-ports", one.problem);
  kit::Maker wide;
  Net rail{"rail", NetKind::pressure, {}, {}, {}, {}};
  for (int i = 0; i < 500; ++i) {
    wide.add("G" + std::to_string(i), "gauge", Tier::supply, 0, kit::gauge());
    rail.ends.push_back({i, 0});
  }
  wide.problem.nets.push_back(rail);
  check_sound("five-hundred-ends", wide.problem);
  kit::Maker bad;
  bad.problem.items.push_back({});
  bad.problem.nets.push_back({"n", NetKind::pilot, {{0, 0}, {7, 1}, {-3, 2}}, {}, {}, {}});
  CHECK(lay_out(bad.problem).items.size() == 1);
}

TEST_CASE("the same problem gives the same layout, and what is appended moves nothing before it") {
  const Problem few = generator::circuit(7, 4), more = generator::circuit(7, 5);
  CHECK(text_of(lay_out(few)) == text_of(lay_out(few)));
  const Layout a = lay_out(few), b = lay_out(more);
  for (std::size_t i = 0; i < few.items.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      if (few.items[i].branch < 1 || few.items[j].branch < 1 || few.items[i].branch == few.items[j].branch) continue;
      CHECK((a.items[i].at.x < a.items[j].at.x) == (b.items[i].at.x < b.items[j].at.x));
    }
}

TEST_CASE("large circuits take about as long as they are large") {
  for (const int branches : {20, 200, 2000}) {
    const Problem problem = generator::circuit(3, branches);
    std::cout << problem.items.size() << " components: " << milliseconds(problem) << " ms\n";
  }
}
