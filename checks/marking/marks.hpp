// From differences to marks, a likely cause and a page in words.
#pragma once

#include "checks/marking/differences.hpp"
#include "checks/machinery/rule.hpp"

namespace ferrule::marking {

struct Task {
  double tolerance = 0.10;       // of pressures, speeds and forces
  std::string_view today;        // for the checks
  std::size_t most_solutions = 2000;  // spent on the search for a cause
};

struct Mark {
  std::array<double, aspects> of{}, got{};   // marks by aspect; `of` sums to 100
  double saved = 0;              // given back: differences that one change explains cost once
  double total = 0;              // rounded down to whole marks
  std::vector<Difference> differences;
  std::string cause;             // "with the lines at 1A1 exchanged all states agree"; empty when no single change explains half
  bool gave_up = false;          // the search for a cause reached its bound
  bool unsafe = false;           // an unsafe difference halves what can be reached
  std::vector<std::pair<std::string, bool>> states;  // state of the model as people say it, agrees
};

// What a text with its findings is to marking.
struct Judgement {
  const Circuit& circuit;
  const Messages& findings;      // of check()
};

// Shares (a proposal, from memory of common marking practice): 60 functions, 15 holds, 10 idle, 10 numbers, 5 findings. An
// aspect that the model does not ask for gives its share to the functions. Differences that one change explains cost once.
Mark mark(const Judgement& model, const Judgement& student, const Task& task);

// "kim.fer: 78 of 100" and what led to it; never a text or a tag of the model.
std::string page(const std::string& student, const Mark& mark);
// One line per student: name, marks, each state agrees or not, cause. Quoted by RFC 4180.
std::string class_table(const std::vector<std::pair<std::string, Mark>>& students);

}  // namespace ferrule::marking
