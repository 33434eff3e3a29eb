// Facts changed in a text as a person would, in every place where they may stand.
#include "checks/sizing/edits.hpp"
#include "sizing/sized_circuit.hpp"

using namespace ferrule;

namespace {

// The text with these facts of one part.
std::string changed(const std::string& text, const std::string& tag, const std::vector<sizing::Written>& facts) {
  const auto compilation = tests::compiled(text);
  const Part& part = compilation->circuit.parts[compilation->circuit.part_named(tag)];
  return sizing::applied(text, sizing::with_facts(*compilation, part, facts));
}

const std::string run = "reservoir T { volume 9 L }\npressure-switch S { rising 9 bar }\n";

}  // namespace

TEST_CASE("a fact is changed where it stands") {
  CHECK(changed("cylinder C { bore 50 mm, rod 28 mm, stroke 300 mm } # press\n", "C", {{"bore", "63 mm"}, {"rod", "36 mm"}}) ==
        "cylinder C { bore 63 mm, rod 36 mm, stroke 300 mm } # press\n");
  CHECK(changed("reservoir T\n{\n  volume 63 L\n  breather\n}\n", "T", {{"volume", "100 L"}}) == "reservoir T\n{\n  volume 100 L\n  breather\n}\n");
}

TEST_CASE("a fact that is missing is put at the end of the block") {
  CHECK(changed("reservoir T { breather }\n", "T", {{"volume", "100 L"}}) == "reservoir T { breather, volume 100 L }\n");
  CHECK(changed("reservoir T\n", "T", {{"volume", "100 L"}}) == "reservoir T { volume 100 L }\n");
  CHECK(changed("reservoir T {}\n", "T", {{"volume", "100 L"}}) == "reservoir T {volume 100 L }\n");
  CHECK(changed("reservoir T {\n  breather  # on top\n}\n", "T", {{"volume", "100 L"}}) == "reservoir T {\n  breather  # on top\nvolume 100 L }\n");
}

TEST_CASE("what `like` and `every` bring is said anew for one part alone") {
  const std::string text = "cylinder C { bore 50 mm, rod 28 mm, stroke 300 mm }\ncylinder D like C\n";
  CHECK(changed(text, "D", {{"bore", "63 mm"}}) == "cylinder C { bore 50 mm, rod 28 mm, stroke 300 mm }\ncylinder D like C { bore 63 mm }\n");
  const std::string every = "every reservoir { volume 9 L }\nreservoir T { breather }\n";
  CHECK(changed(every, "T", {{"volume", "16 L"}}) == "every reservoir { volume 9 L }\nreservoir T { breather, volume 16 L }\n");
}

TEST_CASE("the size of a pipe is written by its pattern again") {
  const std::vector<sizing::Written> tube{{"outside", "20 mm"}, {"wall", "2 mm"}};
  CHECK(changed(run + "pressure S -- {tube L 16 x 1.5 mm, length 1 m} -- T\n", "L", tube) == run + "pressure S -- {tube L 20 x 2 mm, length 1 m} -- T\n");
  CHECK(changed(run + "pressure S -- {tube L 12 mm, length 1 m} -- T\n", "L", tube) == run + "pressure S -- {tube L 20 x 2 mm, length 1 m} -- T\n");
  CHECK(changed(run + "pressure S -- {tube L bore 12 mm, length 1 m} -- T\n", "L", {{"bore", "16 mm"}}) == run + "pressure S -- {tube L bore 16 mm, length 1 m} -- T\n");
  CHECK(changed(run + "pressure S -- {hose L DN 12, rated 275 bar} -- T\n", "L", {{"dn", "16"}, {"rated", "250 bar"}}) ==
        run + "pressure S -- {hose L DN 16, rated 250 bar} -- T\n");
  CHECK(changed(run + "pressure S -- {hose L 12 mm} -- T\n", "L", {{"dn", "16"}}) == run + "pressure S -- {hose L DN 16} -- T\n");
}

TEST_CASE("changed lines are told from new ones") {
  const auto lines = sizing::changed_lines("tank T { 1 }\nmotor M { 2 }\npump P { 3 }\n", "tank T { 1 }\nmotor M { 9 }\ncooler K\npump P { 4 }\n");
  REQUIRE(lines.size() == 3);
  CHECK((lines[0].number == 2 && !lines[0].is_new && lines[0].text == "motor M { 9 }"));
  CHECK((lines[1].number == 2 && lines[1].is_new && lines[1].text == "cooler K"));
  CHECK((lines[2].number == 3 && !lines[2].is_new && lines[2].text == "pump P { 4 }"));
}
