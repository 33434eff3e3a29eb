// Circuits that say what is to be found in them, drawn under the line as the report draws it:
//     relief-valve 0V1 { setting 260 bar }
//     #                  A~~~~~~~~~~~~~~~ error P-02 "0V1 lets ..."
#pragma once

#include <string>
#include <vector>

#include "checks/report/report.hpp"

namespace ferrule::test {

std::string read_file(const std::string& path);
// All .fer files below a folder of the project, sorted, relative to the project.
std::vector<std::string> circuits_below(const std::string& folder);

// Findings of a text of the project; `path` is where it would stand.
struct Found {
  Messages messages;
  std::vector<Verdict> verdicts;
  std::string annotated;  // the text with its findings drawn under their lines
};
Found found_in(const std::string& path, const std::string& text);

// The text without expectations.
std::string bare(const std::string& text);

}  // namespace ferrule::test
