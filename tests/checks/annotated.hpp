// Circuits that say what is to be found in them, drawn under the line as the report draws it:
//     relief-valve 0V1 { setting 260 bar }
//     #                  A~~~~~~~~~~~~~~~ error P-02 "0V1 lets ..."
#pragma once

#include <string>
#include <vector>

#include "checks/report/report.hpp"

namespace ferrule::test {

// Findings of a text of the project; `path` is where it would stand.
struct Found {
  Messages messages;
  std::vector<Verdict> verdicts;
  std::string annotated;  // the text with its findings drawn under their lines
};
Found found_in(const std::string& path, const std::string& text);

// The text of file `file` with messages drawn under their lines; `text` is that file without expectations.
std::string drawn_under(const Sources& sources, const Messages& messages, std::uint32_t file, const std::string& text);

// True when FERRULE_TESTS=write asks to rewrite expectations in place of comparing them.
bool is_writing();

// The text without expectations.
std::string bare(const std::string& text);

}  // namespace ferrule::test
