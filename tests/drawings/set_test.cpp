// Sets of sheets. That every net of the text is joined through its references is read back by `drawn::text` for each of them.
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "drawings/drawn.hpp"
#include "drawings/set_kit.hpp"
#include "render/sheet/format.hpp"
#include "support/generator.hpp"

using set_kit::Json;

namespace {

std::set<std::string> formats_of(const ferrule::Drawing& drawing) {
  std::set<std::string> names;
  for (const ferrule::DrawnSheet& page : drawing.sheets) names.insert(page.format.name);
  return names;
}

std::vector<const ferrule::DrawnSheet*> circuit_sheets(const ferrule::Drawing& drawing) {
  std::vector<const ferrule::DrawnSheet*> pages;
  for (const ferrule::DrawnSheet& page : drawing.sheets)
    if (!page.symbols.empty()) pages.push_back(&page);
  return pages;
}

std::size_t references(const ferrule::Drawing& drawing) {
  std::size_t count = 0;
  for (const ferrule::DrawnSheet& page : drawing.sheets) count += page.references.size();
  return count;
}

bool noted(const ferrule::Drawing& drawing, const std::string& words) {
  return std::any_of(drawing.notes.begin(), drawing.notes.end(), [&](const std::string& note) { return note.find(words) != std::string::npos; });
}

std::string with_supply(const std::string& more) {
  return "circuit \"Odd\" { \"made for a test\" }\nfluid mineral-oil { grade ISO VG 46 }\nreservoir 0Z1 { volume 100 L, breather }\n"
         "electric-motor 0M1 { power 5.5 kW, speed 1450 rpm }\n" + more;
}

void put(std::string& text, const std::string& after, const std::string& more) {
  const std::size_t at = text.find(after);
  REQUIRE(at != std::string::npos);
  text.insert(at + after.size(), more);
}

// With an eleventh circuit at the end.
std::string with_one_more(std::string text) {
  put(text, "9V1.P -- 10V1.P", " -- 11V1.P");
  put(text, "9V1.T -- 10V1.T", " -- 11V1.T");
  return text +
         "closed-centre-valve 11V1 { a by solenoid 11Y1, b by solenoid 11Y2, drop 4 bar at 40 L/min, rated 315 bar, T rated 160 bar }\n"
         "cylinder 11A1 \"added\" { bore 50 mm, rod 28 mm, stroke 100 mm, rated 210 bar, horizontal }\n"
         "working 11V1.A -- 11A1.A\nworking 11V1.B -- 11A1.B\n";
}

}  // namespace

TEST_CASE("ten circuits on A3 are a set: cover, supply, circuits in their order, work cycle, parts list") {
  const ferrule::Drawing drawing = drawn::file("samples/tile-line.fer");
  const Json file = set_kit::check(drawing);
  CHECK(drawing.sheets.front().title == "Index of sheets");
  CHECK(drawing.sheets[1].title == "Supply");
  CHECK(drawing.sheets.back().title == "Parts list");
  CHECK(circuit_sheets(drawing).size() >= 3);
  for (const ferrule::DrawnSheet* page : circuit_sheets(drawing)) CHECK(page->format.name == "A3");
  int branch = 0;
  for (const ferrule::DrawnSheet* page : circuit_sheets(drawing)) {
    int least = 100, most = branch;
    for (const ferrule::DrawnSymbol& symbol : page->symbols)
      if (symbol.kind == "cylinder" || symbol.kind == "directional-valve") least = std::min(least, symbol.branch), most = std::max(most, symbol.branch);
    CHECK(least > branch);
    branch = most;
  }
  CHECK(references(drawing) == 2 * 2 * (circuit_sheets(drawing).size() - 1));   // pressure and return, a mark at each end of each gap
}

TEST_CASE("generated circuits on every format are whole, paired and free of overlaps") {
  const std::vector<std::string> names{"A4", "A3", "A2", "A1"};
  for (std::uint32_t seed = 1; seed <= 75; ++seed)
    for (const std::string& name : names) {
      const int components = 10 + static_cast<int>(seed % 50);
      INFO("seed " << seed << ", " << components << " components on " << name);
      const ferrule::Drawing drawing = drawn::text(ferrule::tests::generated_circuit(components, seed), "circuit", {name, false});
      if (drawing.sheets.size() > 1) set_kit::check(drawing);
      else CHECK(drawing.sheets.front().format.name == name);
    }
}

TEST_CASE("1000 components are a set of the smallest format that holds every circuit") {
  const ferrule::Drawing drawing = drawn::text(ferrule::tests::generated_circuit(1000, 3));
  set_kit::check(drawing);
  CHECK(formats_of(drawing) == std::set<std::string>{"A3", "A4"});
  CHECK(circuit_sheets(drawing).size() < 200);
}

TEST_CASE("the same text gives the same set, file by file") {
  const ferrule::Drawing one = drawn::file("samples/tile-line.fer"), two = drawn::file("samples/tile-line.fer");
  for (const char* ending : {".pdf", ".json", ".svg", ".png"}) {
    const auto first = ferrule::files_of(one, ending, 0, 60), second = ferrule::files_of(two, ending, 0, 60);
    const bool together = std::string(ending) == ".pdf" || std::string(ending) == ".json";
    CHECK(first.size() == (together ? 1 : one.sheets.size()));
    REQUIRE(first.size() == second.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
      CHECK(first[i].error.empty());
      CHECK(first[i].bytes == second[i].bytes);
      CHECK(first[i].sheet == (together ? "" : std::to_string(i + 1)));
    }
  }
}

TEST_CASE("a circuit appended at the end moves nothing on the sheets before the last") {
  const std::string text = drawn::read("samples/tile-line.fer");
  const ferrule::Drawing few = drawn::text(text), more = drawn::text(with_one_more(text));
  const auto before = circuit_sheets(few), after = circuit_sheets(more);
  REQUIRE(after.size() >= before.size());
  for (std::size_t s = 0; s + 1 < before.size(); ++s) {
    REQUIRE(before[s]->symbols.size() == after[s]->symbols.size());
    for (std::size_t i = 0; i < before[s]->symbols.size(); ++i) {
      CHECK(before[s]->symbols[i].id == after[s]->symbols[i].id);
      CHECK(before[s]->symbols[i].centre.x == after[s]->symbols[i].centre.x);
      CHECK(before[s]->symbols[i].centre.y == after[s]->symbols[i].centre.y);
    }
  }
}

TEST_CASE("the wish for a format goes before the text, and fit asks for one sheet") {
  const ferrule::Drawing fit = drawn::file("samples/tile-line.fer", {"fit", false});
  REQUIRE(fit.sheets.size() == 1);
  CHECK(fit.sheets.front().references.empty());
  CHECK(fit.notes.empty());
  const ferrule::Drawing small = drawn::file("samples/bale-squeezer.fer", {"A2", false});
  REQUIRE(small.sheets.size() == 1);
  CHECK(small.sheets.front().format.name == "A2");
}

TEST_CASE("when only the tables are too much the circuit stays on one sheet") {
  const ferrule::Drawing drawing = drawn::file("samples/mould-clamp.fer");
  if (drawing.sheets.size() == 1) return;   // a better layout made room for the table
  set_kit::check(drawing);
  CHECK(noted(drawing, "does not fit one sheet of A3"));
}

// 2.5 mm on A3 is 1.77 mm on A4, which the series of ISO 3098 calls 1.8.
TEST_CASE("a set that has to be read on A4 has no lettering under 1.8 mm there") {
  for (const char* path : {"samples/tile-line.fer", "samples/bale-squeezer.fer", "samples/mould-clamp.fer"}) {
    const ferrule::Drawing drawing = drawn::file(path, {"fit", true});
    for (const ferrule::DrawnSheet& page : drawing.sheets) {
      const double scale = 210 / std::min(page.format.width, page.format.height);
      CHECK(std::max(page.format.width, page.format.height) <= 420);
      CHECK(drawing.capital_mm * scale > 1.75);
      const auto legible = [&](const ferrule::sheet::Inks& inks) {
        for (const ferrule::sheet::Ink& ink : inks)
          if (ink.kind == ferrule::sheet::Ink::Kind::words) {
            INFO(path << " sheet " << page.id << ": " << ink.words);
            CHECK(ink.style.capital_mm * scale > 1.75);
          }
      };
      legible(page.furniture);
      for (const ferrule::DrawnSymbol& symbol : page.symbols) legible(symbol.inks);
    }
  }
}

TEST_CASE("fields are those of the frame on every format") {
  for (const ferrule::sheet::Format& format : ferrule::sheet::formats())
    for (double x = 21; x < format.width; x += 7)
      for (double y = 11; y < format.height; y += 7)
        CHECK(ferrule::sheet::field_at(format, {x, y}) == set_kit::field_of(format.width, format.height, x, y));
}

TEST_CASE("what is wider than the format stands on a larger sheet, and the note says how wide it is") {
  std::string text = with_supply("");
  for (int i = 1; i <= 8; ++i)   // pumps of one drive are never parted
    text += fmt::format("fixed-pump 0P{0} {{ displacement 8 cm3/rev, driven-by 0M1, rated 210 bar }}\nsuction 0Z1 -- 0P{0}.S\n"
                        "cylinder {0}A1 {{ bore 50 mm, rod 28 mm, stroke 100 mm }}\npressure 0P{0}.P -- {0}A1.A\nreturn {0}A1.B -- 0Z1\n", i);
  const ferrule::Drawing drawing = drawn::text(text, "circuit", {"A4", false});
  set_kit::check(drawing);
  CHECK(noted(drawing, "more than A4 holds: drawn on A"));
  CHECK(noted(drawing, " mm, "));
}

TEST_CASE("a net with 500 ends goes on from sheet to sheet") {
  std::string text = with_supply("fixed-pump 0P1 { displacement 8 cm3/rev, driven-by 0M1, rated 210 bar }\nsuction 0Z1 -- 0P1.S\n"), run = "working 0P1.P";
  for (int i = 1; i <= 500; ++i) {
    text += fmt::format("pressure-switch {0}S1 {{ at 100 bar rising }}\n", i);
    run += fmt::format(" -- {}S1", i);
  }
  const ferrule::Drawing drawing = drawn::text(text + run + "\n", "circuit", {"A3", false});
  set_kit::check(drawing);
  CHECK(circuit_sheets(drawing).size() > 3);
}

TEST_CASE("names of 300 characters are cut where they have no room and touch nothing") {
  const std::string name(300, 'n');
  std::string text = drawn::read("samples/tile-line.fer");
  for (const std::string& word : {std::string("\"press\""), std::string("\"ejector\"")}) text.replace(text.find(word), word.size(), "\"" + name + "\"");
  text.replace(text.find("Roof tile line\""), 14, name);
  const ferrule::Drawing drawing = drawn::text(text);
  set_kit::check(drawing);
  CHECK(noted(drawing, "too long for the cell Title"));
}
