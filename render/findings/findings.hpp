// Findings on the sheet: what a rule found is shown where it is, by a band that a copier keeps, with a number and a list.
//
// Render does not know rules: a finding comes as plain data.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "render/sheet/title_block.hpp"

namespace ferrule {

struct Drawing;
struct DrawnSheet;

struct FindingMark {
  int number = 1;
  std::string code, severity, sentence;  // "P-01", "error"
  std::vector<std::string> parts;        // tags, the subject first; a pipe's tag too
  std::vector<std::string> way;          // the proving path in order: ports "0P1.P", parts "0V1", ends of pipes "L2.1"
  std::vector<std::string> between;      // the ports that the subject joins, if it is a pipe all of its line is: a line without a size to print is known by them
};

// What of one finding stands on one sheet. Lengths in mm.
struct DrawnFinding {
  int number = 1;
  std::string title;                                // as title_of says
  std::vector<std::vector<sheet::Point>> bands;     // along lines
  struct Frame { sheet::Rect box; bool edged = true; };
  std::vector<Frame> frames;                        // around symbols; without an edge where it would cross a text
  struct Flag { sheet::Point foot, at; };           // from the marked thing to the middle of the disc
  std::vector<Flag> flags;
};

// Finds path and parts on the page, and a free place for each number.
void mark_findings(DrawnSheet& page, const Drawing& drawing);

// Marked on the page, or of no place at all and therefore listed on every page.
bool shows_finding(const DrawnSheet& page, const FindingMark& mark);

// "P-01 error: 0P1 can be shut in ..."
std::string title_of(const FindingMark& mark);

// Discs with their numbers, codes and sentences: of the findings on the page, and of those that have no place at all. Its corner
// is the origin; nothing when there is nothing to list.
std::optional<sheet::Panel> findings_list(const DrawnSheet& page, const Drawing& drawing);

void shift(DrawnFinding& finding, sheet::Point by);

// Bands and frames lie under the circuit, flags over it.
sheet::Inks bands_of(const DrawnSheet& page, const Drawing& drawing);
sheet::Inks flag_of(const DrawnFinding& finding, const Drawing& drawing);

// What no text or table may touch.
sheet::Rect box_of(const DrawnFinding::Flag& flag, const Drawing& drawing);

// Radius of a disc with a number in it.
double disc_radius(const Drawing& drawing);

}  // namespace ferrule
