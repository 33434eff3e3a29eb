// What every kind of paper owes: the same bytes for the same strokes, text that can be found, strangers' names as mere letters.
#include <catch2/catch.hpp>

#include <clocale>
#include <cstdlib>

#include "render/canvas/canvas.hpp"
#include "render/canvas/words.hpp"
#include "support/programs.hpp"

using namespace ferrule::canvas;
using ferrule::tests::printed, ferrule::tests::TemporaryFile;

namespace {

std::string drawn(Format format, const std::string& name) {
  const auto paper = new_canvas(format, {name, "test", "", "", 1'700'000'000, 100});
  REQUIRE(paper != nullptr);
  paper->new_sheet(210, 297, "1");
  paper->begin_group(name, "symbol", name);
  paper->polyline({{20, 10}, {200, 10}, {200, 287}, {20, 287}}, 0.7, Pattern::solid, true);
  paper->polyline({{30, 20}, {60, 20}, {60, 50}}, 0.25, Pattern::pilot);
  paper->arc({100, 100}, 10, 0, 360, 0.25);
  paper->disc({50, 50}, 0.75);
  paper->polygon({{70, 70}, {72, 74}, {68, 74}});
  paper->text({40, 60}, name, {2.5, Anchor::left, false});
  paper->text({45, 90}, name, {3.5, Anchor::middle, true});
  paper->end_group();
  return paper->finish();
}

}  // namespace

TEST_CASE("the same strokes give the same bytes, in any time zone and locale, first or second in a run") {
  for (const Format format : {Format::pdf, Format::svg, Format::png}) {
    const std::string first = drawn(format, "0V1 160 bar");
    setenv("TZ", "Pacific/Chatham", 1);
    setenv("LC_ALL", "de_DE.UTF-8", 1);
    setlocale(LC_ALL, "");
    const std::string second = drawn(format, "0V1 160 bar");
    setlocale(LC_ALL, "C");
    unsetenv("TZ");
    unsetenv("LC_ALL");
    CHECK(first.size() > 500);
    CHECK((first == second));
  }
}

TEST_CASE("the only date of a PDF is the one handed in") {
  const std::string pdf = drawn(Format::pdf, "date");
  CHECK(pdf.find("/CreationDate (D:202311142213)") != std::string::npos);  // 1 700 000 000 s after 1970
  CHECK(pdf.find("/ModDate") == std::string::npos);
}

TEST_CASE("the text of a PDF can be found, greek, superscripts and diameters too") {
  const TemporaryFile file(drawn(Format::pdf, "0P1 16 cm³/r ⌀12 β200 5 µm ö"), ".pdf");
  const std::string text = printed("pdftotext -layout " + file.path.string() + " -");
  CHECK(text.find("0P1 16 cm³/r ⌀12 β200 5 µm ö") != std::string::npos);
}

TEST_CASE("the letters of all sizes stand once in a PDF") {
  const TemporaryFile file(drawn(Format::pdf, "0V1 160 bar"), ".pdf");
  const std::string fonts = printed("pdffonts " + file.path.string() + " | tail -n +3");
  CHECK(fonts.find("osifont") != std::string::npos);
  CHECK(fonts.find('\n') == fonts.size() - 1);
}

TEST_CASE("markup in a name stays a name") {
  const std::string svg = drawn(Format::svg, "\"><script>alert(1)</script>&#0; ]]> x");
  CHECK(svg.find("<script") == std::string::npos);
  CHECK(svg.find("&lt;script&gt;alert(1)&lt;/script&gt;&amp;#0; ]]&gt;") != std::string::npos);
  CHECK(svg.find("href=\"http") == std::string::npos);
  const TemporaryFile file(svg, ".svg");
  CHECK(printed("python3 -c 'import sys,xml.dom.minidom as m; m.parse(sys.argv[1]); print(\"well-formed\")' " + file.path.string()) == "well-formed\n");
}

TEST_CASE("hidden, turning and broken characters become visible marks") {
  CHECK(clean("a\u202Eb") == "a\uFFFDb");
  CHECK(clean("a\u200Bb\uFEFF") == "a\uFFFDb\uFFFD");
  CHECK(clean(std::string_view("a\0b\x1b[31m", 8)) == "a\uFFFDb\uFFFD[31m");
  CHECK(clean("tab\tend\n") == "tab end ");
  CHECK(clean("\xff\xfe ok \xc3") == "\uFFFD\uFFFD ok \uFFFD");
  CHECK(clean("\xed\xa0\x80") == "\uFFFD");  // a surrogate is no character
  CHECK(clean(std::string(1000, 'x'), 10) == "xxxxxxxxxx...");
  CHECK(xml_id("1V1 \"x\"") == "1V1_20_22x_22");
}

TEST_CASE("lettering keeps the proportions measured in the face") {
  // osifont after ISO 3098 type B: 2048 units per em, capitals 1510 high, mean letter advance 0.81 of the capital height.
  CHECK(measured("H", 2.5).height == Approx(2.5));
  CHECK(measured("abcdefghijklmnopqrstuvwxyz", 2.5).width / 26 / 2.5 == Approx(0.81).margin(0.12));
  CHECK(measured("11", 2.5).width == Approx(2 * measured("1", 2.5).width).margin(0.3));
  CHECK(measured("V", 5).width == Approx(2 * measured("V", 2.5).width));
  CHECK(measured("", 2.5).width == 0);
}

TEST_CASE("two sheets stand in one file") {
  for (const Format format : {Format::pdf, Format::svg, Format::png}) {
    const auto paper = new_canvas(format, {"set", "", "", "", 0, 50});
    paper->new_sheet(420, 297, "1");
    paper->text({30, 30}, "one", {});
    paper->new_sheet(210, 297, "2");
    paper->text({30, 30}, "two", {});
    CHECK(paper->finish().size() > 500);
  }
}

TEST_CASE("a picture never grows beyond what can be held") {
  const auto paper = new_canvas(Format::png, {"large", "", "", "", 0, 1e9});
  paper->new_sheet(10, 10, "1");
  CHECK(!paper->finish().empty());
}
