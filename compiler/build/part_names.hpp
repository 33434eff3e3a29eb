// The words of a definition's formulas: facts of the part, and facts of parts it names (`driven-by.speed`).
#pragma once

#include "compiler/build/building.hpp"

namespace ferrule {

class PartNames : public Names {
 public:
  PartNames(Building& building, PartId part) : building_(building), part_(part) {}
  Meaning find(std::string_view word, Span use) override;
  std::vector<std::string> known() const override;
  // Of what was found so far: derived from facts that are given, or by default as soon as one is.
  Origin origin() const { return leaned_on_default_ || !found_ ? Origin::by_default : Origin::derived; }

 private:
  Meaning value_of(PartId part, std::string_view name);
  Meaning through(std::string_view tag_fact, std::string_view name);

  Building& building_;
  PartId part_;
  bool found_ = false, leaned_on_default_ = false;
};

}  // namespace ferrule
