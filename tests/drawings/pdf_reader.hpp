// What a reader of a PDF sees and can press, found by poppler and, for the links, in the plain objects of the file.
// Lengths in points (1/72 inch) from the top left corner of the page.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace pdf {

struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
  bool holds(double x, double y) const { return x >= left && x <= right && y >= top && y <= bottom; }
  double x() const { return (left + right) / 2; }
  double y() const { return (top + bottom) / 2; }
};

struct Word {
  std::string text;
  Box box;
};

struct Place {
  int page = 0;
  double x = 0, y = 0;
};

struct Link {
  Box box;
  std::string to;                         // name of a place
};

struct Bookmark {
  int level = 0, page = 0;
  std::string words;
};

struct Page {
  double height = 0;
  std::vector<Word> words;
  std::vector<Link> links;
};

struct File {
  std::vector<Page> pages;                // the first is pages[0]
  std::map<std::string, Place> places;
  std::vector<Bookmark> bookmarks;
  std::string information, text;          // as pdfinfo and pdftotext print them
};

File read(const std::string& bytes);

}  // namespace pdf
