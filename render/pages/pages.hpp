// Blocks to pages with a head and a foot, and pages to a file.
#pragma once

#include <string>
#include <vector>

#include "render/pages/block.hpp"
#include "render/pages/paper.hpp"

namespace ferrule::pages {

// Begins on a page of its own.
struct Section {
  std::vector<Block> blocks;
  bool wide = false;         // on the larger, lying page
};

struct Document {
  std::string title, number; // at the left and right of every head
  std::string date, note;    // at the left and in the middle of every foot
  std::string page_of;       // "page {0} of {1}", at the right of every foot
  std::string subject;       // of the file
  std::vector<Section> sections;
};

struct Page {
  double width = 0, height = 0;  // mm
  sheet::Inks inks;              // head, blocks, foot, in the order in which they are read
};

std::vector<Page> pages_of(const Document& document, const Paper& paper);

// The bytes of a PDF; `error` for people when there are none. The same document gives the same bytes.
struct Printed {
  std::string bytes, error;
};
Printed pdf_of(const Document& document, const std::vector<Page>& pages, long source_date_epoch);

}  // namespace ferrule::pages
