// What can be found, pressed and looked up in the PDF of a drawing.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

#include "drawings/drawn.hpp"
#include "drawings/pdf_reader.hpp"

namespace {

pdf::File read(const ferrule::Drawing& drawing) { return pdf::read(files_of(drawing, ".pdf").front().bytes); }

// The place to which a press on that point goes; nullptr when nothing happens there.
const pdf::Place* pressed(const pdf::File& file, const pdf::Page& page, double x, double y) {
  for (const pdf::Link& link : page.links)
    if (link.box.holds(x, y)) return &file.places.at(link.to);
  return nullptr;
}

// A word of the page, right of and below the place, at most that far.
bool shows(const pdf::File& file, const pdf::Place& place, const std::string& word, double within) {
  const auto& words = file.pages[static_cast<std::size_t>(place.page) - 1].words;
  return std::any_of(words.begin(), words.end(), [&](const pdf::Word& w) {
    return w.text == word && w.box.right > place.x && w.box.bottom > place.y && std::hypot(w.box.x() - place.x, w.box.y() - place.y) < within;
  });
}

bool is_reference(const std::string& word) { return word.size() >= 4 && std::isdigit(word[0]) != 0 && word.find('/') != std::string::npos; }

constexpr double near = 170;  // points, 60 mm: a symbol with its texts

}  // namespace

TEST_CASE("a press on a cross reference leads to the mark that names it back") {
  const pdf::File file = read(drawn::file("samples/tile-line.fer"));
  int pressed_on = 0;
  for (std::size_t p = 0; p < file.pages.size(); ++p) {
    const auto& words = file.pages[p].words;
    for (std::size_t w = 1; w < words.size(); ++w) {
      if ((words[w - 1].text != "to" && words[w - 1].text != "from") || !is_reference(words[w].text)) continue;
      if (p == 0) continue;  // the cover explains how references are read
      INFO("page " << p + 1 << ": " << words[w - 1].text << " " << words[w].text);
      const pdf::Place* place = pressed(file, file.pages[p], words[w].box.x(), words[w].box.y());
      REQUIRE(place != nullptr);
      CHECK(std::to_string(place->page) == words[w].text.substr(0, words[w].text.find('/')));
      const auto& there = file.pages[static_cast<std::size_t>(place->page) - 1].words;
      CHECK(std::any_of(there.begin(), there.end(), [&](const pdf::Word& word) {
        return is_reference(word.text) && word.text.starts_with(std::to_string(p + 1) + "/") && std::hypot(word.box.x() - place->x, word.box.y() - place->y) < near;
      }));
      ++pressed_on;
    }
  }
  CHECK(pressed_on == 12);   // four sheets of circuits, pressure and return cut between each two, at both ends
}

TEST_CASE("every row of the parts list leads to its symbol, every row of the index to its sheet") {
  const ferrule::Drawing drawing = drawn::file("samples/tile-line.fer");
  const pdf::File file = read(drawing);
  std::set<std::string> found;
  for (std::size_t p = 1; p < file.pages.size(); ++p) {
    if (drawing.sheets[p].parts.empty()) continue;
    for (const pdf::Word& word : file.pages[p].words) {
      const pdf::Place* place = pressed(file, file.pages[p], word.box.x(), word.box.y());
      if (place == nullptr || word.box.x() > 120) continue;  // the first column holds the codes
      INFO(word.text);
      CHECK(shows(file, *place, word.text, word.text == "0Z1" ? 400 : near));  // the trough is as wide as its lines
      found.insert(word.text);
    }
  }
  for (const char* tag : {"0Z1", "0Z2", "0P1", "0V1", "0Z6", "1A1", "4V3", "10V2", "10A1"}) CHECK(found.contains(tag));
  CHECK(found.size() == 40);  // counted in the text

  std::set<int> sheets;
  for (const pdf::Link& link : file.pages[0].links) sheets.insert(file.places.at(link.to).page);
  CHECK(sheets.size() == file.pages.size() - 1);
}

TEST_CASE("bookmarks lead through sheets and branches to every component once") {
  const ferrule::Drawing drawing = drawn::file("samples/tile-line.fer");
  const pdf::File file = read(drawing);
  std::set<std::string> components;
  int sheets = 0, page = 0;
  for (const pdf::Bookmark& bookmark : file.bookmarks) {
    if (bookmark.level == 0) {
      ++sheets, page = bookmark.page;
      CHECK(bookmark.words.starts_with(std::to_string(page) + " "));
    }
    CHECK(bookmark.page == page);
    if (bookmark.level == 2) CHECK(components.insert(bookmark.words.substr(0, bookmark.words.find(' '))).second);
  }
  CHECK(sheets == static_cast<int>(file.pages.size()));
  for (const char* tag : {"0Z1", "0P1", "1A1", "4V3", "10A1"}) CHECK(components.contains(tag));
  const auto branch = std::find_if(file.bookmarks.begin(), file.bookmarks.end(), [](const pdf::Bookmark& b) { return b.level == 1 && b.words.find("10A1") != std::string::npos; });
  CHECK(branch != file.bookmarks.end());
}

TEST_CASE("a drawing of one sheet has its bookmarks and no links") {
  const pdf::File file = read(drawn::file("samples/bale-squeezer.fer"));
  REQUIRE(file.pages.size() == 1);
  CHECK(file.pages[0].links.empty());
  CHECK(file.bookmarks.size() > 10);
  CHECK(file.bookmarks[1].words == "Supply");
}

TEST_CASE("words of the sheet and data of the document are found") {
  const pdf::File file = read(drawn::file("samples/tile-line.fer"));
  for (const char* words : {"Title:           Roof tile line", "Subject:         Hydraulic circuit diagram", "Author:          Design office",
                            "Keywords:        TL-101, revision A", "JavaScript:      no"})
    CHECK(file.information.find(words) != std::string::npos);
  for (const char* words : {"10A1", "stacker", "63/36 × 900", "45 cm³/r", "ISO VG 46", "Roof tile line", "reducing valve"}) {
    INFO(words);
    CHECK(file.text.find(words) != std::string::npos);
  }
}

TEST_CASE("names that try to leave the attribute they stand in lead nowhere else") {
  const pdf::File file = read(drawn::text("circuit \"a') (b \\\\\" { \"'\" }\nreservoir 0Z1 { volume 63 L, breather }\nelectric-motor 0M1 { power 4 kW, speed 1450 rpm }\n"
                                          "fixed-pump 0P1 { displacement 16 cm3/rev, driven-by 0M1 }\nrelief-valve 0V1 { setting 100 bar }\n"
                                          "suction 0Z1 -- 0P1.S\npressure 0P1.P -- 0V1.P\nreturn 0V1.T -- 0Z1\n"));
  REQUIRE(file.pages.size() == 1);
  REQUIRE(!file.bookmarks.empty());
  CHECK(file.bookmarks[0].words == "1 a') (b \\");
}
