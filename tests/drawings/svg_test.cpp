// What other programs rely on in the SVG of a drawing: names that stay, a title for everything that has a meaning, nothing that acts.
#include <catch2/catch.hpp>

#include <map>
#include <regex>
#include <set>

#include "drawings/drawn.hpp"
#include "support/files.hpp"
#include "support/generator.hpp"
#include "support/programs.hpp"

namespace {

struct Element {
  std::string classes, role, title;
};
using Elements = std::map<std::string, Element>;   // by id

std::vector<std::string> files(const ferrule::Drawing& drawing) {
  std::vector<std::string> all;
  for (const ferrule::DrawnFile& file : files_of(drawing, ".svg")) all.push_back(file.bytes);
  return all;
}

// Groups with an id. Fails the running test when an id stands twice.
Elements elements_of(const std::string& svg) {
  static const std::regex group("<g id=\"([^\"]*)\" class=\"([^\"]*)\"(?: role=\"([^\"]*)\")?[^>]*>(?:<title>([^<]*)</title>)?"), any(" id=\"([^\"]*)\"");
  std::set<std::string> ids;
  for (std::sregex_iterator it(svg.begin(), svg.end(), any), end; it != end; ++it) {
    INFO((*it)[1].str());
    CHECK(ids.insert((*it)[1].str()).second);
  }
  Elements elements;
  for (std::sregex_iterator it(svg.begin(), svg.end(), group), end; it != end; ++it) elements[(*it)[1].str()] = {(*it)[2].str(), (*it)[3].str(), (*it)[4].str()};
  return elements;
}

Elements all_elements(const ferrule::Drawing& drawing) {
  Elements all;
  for (const std::string& svg : files(drawing)) all.merge(elements_of(svg));
  return all;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

// Every element of the one is in the other with the same classes; symbols and lines to actuators have the same title too.
void check_kept(const Elements& before, const Elements& after) {
  for (const auto& [id, element] : before) {
    INFO(id);
    const auto found = after.find(id);
    REQUIRE(found != after.end());
    CHECK(found->second.classes == element.classes);
    if (element.classes.starts_with("symbol ") || element.classes == "net working") CHECK(found->second.title == element.title);
  }
}

const std::string sample = "samples/bale-squeezer.fer";

}  // namespace

TEST_CASE("every component and every net of a sheet has an id, a class, a role and a title") {
  const Elements elements = all_elements(drawn::file("samples/tile-line.fer"));
  for (const char* tag : {"0Z1", "0M1", "0P1", "0V1", "1V1", "1A1", "4V3", "10V2", "10A1"}) {
    INFO(tag);
    const Element& element = elements.at("symbol-" + std::string(tag));
    CHECK(element.classes.starts_with("symbol "));
    CHECK(element.title.starts_with(tag));
    CHECK(element.role == "graphics-object group");
  }
  CHECK(elements.at("symbol-10A1").title == "10A1 stacker, double-acting cylinder");
  CHECK(elements.at("net-10V2.C1").title == "working line: 10V2.C1, 10A1.A");
  for (const auto& [id, element] : elements)
    if (id.starts_with("symbol-") || id.starts_with("net-")) CHECK(!element.title.empty());
}

TEST_CASE("ids are unique whatever is drawn") {
  for (const std::string& path : ferrule::tests::files_below("samples", ".fer")) {
    INFO(path);
    all_elements(drawn::file(path));
  }
  for (std::uint32_t seed = 1; seed <= 20; ++seed) all_elements(drawn::text(ferrule::tests::generated_circuit(40, seed)));
}

TEST_CASE("an edit leaves the ids of everything else as they were") {
  const std::string text = drawn::read("samples/tile-line.fer");
  const Elements before = all_elements(drawn::text(text));
  SECTION("a value") { check_kept(before, all_elements(drawn::text(replaced(text, "bore 100 mm, rod 56 mm, stroke 200 mm", "bore 80 mm, rod 45 mm, stroke 250 mm")))); }
  SECTION("a branch before the others, with lines of its own to pressure and reservoir") {
    check_kept(before, all_elements(drawn::text(replaced(
                           replaced(text, "# --- 1 clay gate", "valve 11V1 { position 0 A>T by spring, position a P>A by solenoid 11Y1, drop 3 bar at 40 L/min }\n"
                                                               "spring-return-cylinder 11A1 { bore 40 mm, rod 22 mm, stroke 60 mm, horizontal }\n# --- 1 clay gate"),
                           "suction  0Z1", "return 11V1.T -- 0Z1\npressure 11V1.P -- 0V2.OUT\nworking 11V1.A -- 11A1.A\nsuction  0Z1"))));
  }
}

TEST_CASE("the document is named, and nothing in it acts or comes from outside") {
  const std::string svg = files(drawn::file(sample)).front();
  CHECK(svg.find(" role=\"graphics-document document\" aria-labelledby=\"title\" aria-describedby=\"subject\"") != std::string::npos);
  CHECK(svg.find("<title id=\"title\">Bale squeezer</title>") != std::string::npos);
  CHECK(svg.find("<desc id=\"subject\">Hydraulic circuit diagram</desc>") != std::string::npos);
  CHECK_FALSE(std::regex_search(svg, std::regex("<script|<foreignObject|<style|<image|\\son[a-z]+=|href=\"[^#]|javascript:|url\\(")));
  const ferrule::tests::TemporaryFile file(svg, ".svg");
  const std::string name = file.path.string();
  CHECK(ferrule::tests::printed("python3 -c 'import sys,xml.dom.minidom as m; print(m.parse(sys.argv[1]).documentElement.tagName)' " + name) == "svg\n");
  // A renderer of its own shows the sheet in its size: 420 mm at 96 dots an inch.
  CHECK(ferrule::tests::printed("rsvg-convert --width 420 " + name + " 2>/dev/null | od -An -tx1 -j16 -N8 | tr -d ' \\n'") == "000001a400000129");
}
