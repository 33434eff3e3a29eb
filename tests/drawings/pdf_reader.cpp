#include "drawings/pdf_reader.hpp"

#include <regex>

#include "support/files.hpp"
#include "support/programs.hpp"

namespace pdf {
namespace {

using ferrule::tests::printed;
using Matches = std::sregex_iterator;

double number(const std::ssub_match& match) { return std::stod(match.str()); }

std::string unescaped(std::string words) {
  for (const auto& [from, to] : {std::pair{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}})
    for (std::size_t at; (at = words.find(from)) != std::string::npos;) words.replace(at, std::string(from).size(), to);
  return words;
}

// <page width="..." height="..."> <word xMin= yMin= xMax= yMax=>...</word>
std::vector<Page> pages_with_words(const std::string& boxes) {
  static const std::regex row("<page width=\"[0-9.]+\" height=\"([0-9.]+)\"|<word xMin=\"([0-9.-]+)\" yMin=\"([0-9.-]+)\" xMax=\"([0-9.-]+)\" yMax=\"([0-9.-]+)\">([^<]*)<");
  std::vector<Page> pages;
  for (const std::string& line : ferrule::tests::lines_of(boxes)) {
    std::smatch m;
    if (!std::regex_search(line, m, row)) continue;
    if (m[1].matched) pages.push_back({number(m[1]), {}, {}});
    else pages.back().words.push_back({unescaped(m[6].str()), {number(m[2]), number(m[3]), number(m[4]), number(m[5])}});
  }
  return pages;
}

// "   2 [ XYZ  377  439 null      ] "name"": y counts from the bottom.
std::map<std::string, Place> places_of(const std::string& rows, const std::vector<Page>& pages) {
  static const std::regex row(" *(\\d+) \\[ XYZ +(-?\\d+) +(-?\\d+) .*\\] \"(.*)\"");
  std::map<std::string, Place> places;
  for (const std::string& line : ferrule::tests::lines_of(rows)) {
    std::smatch m;
    if (!std::regex_match(line, m, row)) continue;
    const int page = std::stoi(m[1].str());
    places[m[4].str()] = {page, number(m[2]), pages.at(static_cast<std::size_t>(page) - 1).height - number(m[3])};
  }
  return places;
}

std::vector<Bookmark> bookmarks_of(const std::string& rows) {
  static const std::regex item("<item page=\"(\\d+)\">(.*)</item>");
  std::vector<Bookmark> bookmarks;
  int level = -1;
  for (const std::string& line : ferrule::tests::lines_of(rows)) {
    std::smatch m;
    level += line == "<outline>";
    level -= line == "</outline>";
    if (std::regex_match(line, m, item)) bookmarks.push_back({level, std::stoi(m[1].str()), unescaped(m[2].str())});
  }
  return bookmarks;
}

// Pages stand in the file in their order, each with the numbers of its annotations.
void add_links(const std::string& bytes, std::vector<Page>& pages) {
  static const std::regex annotation("(\\d+) 0 obj\n<< /Type /Annot\n[^>]*/Rect \\[ ([0-9.]+) ([0-9.]+) ([0-9.]+) ([0-9.]+) \\]\n *(?:/Dest \\(([^)]*)\\))?");
  static const std::regex page("/Type /Page % (\\d+)\n(?:(?!endobj)[\\s\\S])*?/Annots \\[ ([0-9R ]*)\\]");
  std::map<std::string, std::smatch> links;
  for (Matches it(bytes.begin(), bytes.end(), annotation), end; it != end; ++it) links[(*it)[1].str()] = *it;
  for (Matches it(bytes.begin(), bytes.end(), page), end; it != end; ++it) {
    Page& on = pages.at(std::stoul((*it)[1].str()) - 1);
    static const std::regex reference("(\\d+) 0 R");
    const std::string rows = (*it)[2].str();
    for (Matches one(rows.begin(), rows.end(), reference); one != end; ++one) {
      const std::smatch& link = links.at((*one)[1].str());
      on.links.push_back({{number(link[2]), on.height - number(link[5]), number(link[4]), on.height - number(link[3])}, link[6].str()});
    }
  }
}

}  // namespace

File read(const std::string& bytes) {
  const ferrule::tests::TemporaryFile file(bytes, ".pdf");
  const std::string name = file.path.string();
  File result;
  result.pages = pages_with_words(printed("pdftotext -bbox " + name + " -"));
  result.places = places_of(printed("pdfinfo -dests " + name), result.pages);
  result.bookmarks = bookmarks_of(printed("pdftohtml -xml -i -stdout " + name));
  result.information = printed("pdfinfo " + name);
  result.text = printed("pdftotext -layout " + name + " -");
  add_links(bytes, result.pages);
  return result;
}

}  // namespace pdf
