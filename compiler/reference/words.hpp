// How facts, ports and rows are put into words, for the terminal and for the page.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "compiler/library/library.hpp"

namespace ferrule {

// "pressure at flow", "range of pressure", "stands alone", "`a`, `b` or `c`"; then the words that must follow.
std::string value_of(const FactSpec& fact);
// "1 um to 1000 um", "from 1 mm", "" without limits.
std::string limits_of(const FactSpec& fact);
// "8 bar (common practice)", "`setting / 1.25`", "" without a default.
std::string preset_of(const FactSpec& fact);
// All of it: "pressure at flow, as `5 bar at 24 L/min`, from 1 bar to 700 bar, default 8 bar (common practice)".
std::string type_of(const FactSpec& fact);

std::string paths_of(const PositionRow& row);      // "P>A B>T by solenoid", "closed by springs"
std::string use_of(const PortSpec& port);          // " (pilot, may stay open)"; "" for a main port
std::string size_of(const std::vector<std::string>& pattern);  // "outside x wall"

// What the kind says of itself, its facts and ports in backquotes: "keeps `P` below `setting`".
std::string said_of(const Definition& kind);

// The kinds of one file of the library, by name.
struct Group {
  std::string title;                               // "Pressure valves"
  std::vector<const Definition*> kinds;
};
std::vector<Group> groups_of(Library& library, const Sources& sources);

// The units of one dimension, as the table lists them.
struct UnitRow {
  std::string dimension, example;
  std::vector<std::string> units;
};
std::vector<UnitRow> unit_rows();

template <class Words>
std::string in_a_row(const Words& words, std::string_view before = "", std::string_view after = "") {
  std::string text;
  for (const auto& word : words) {
    if (!text.empty()) text += ", ";
    text.append(before).append(word).append(after);
  }
  return text;
}

}  // namespace ferrule
