// What an element says in one state: its parameters, what the step commands instead, what had to be assumed.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/hydraulics/solve.hpp"

namespace ferrule::hydraulics {

class Reading {
 public:
  Reading(const Circuit& circuit, const State& state);

  const Circuit& circuit;
  const State& state;

  // SI; what the step commands goes before what the text states.
  std::optional<double> value(const Element& element, Parameter id);
  // The default of the assumptions table, noted as assumed.
  double value_or(const Element& element, Parameter id, double otherwise, std::string_view shown_as);
  bool commanded_shut(const Element& element) const;
  bool commanded_open(const Element& element) const;
  std::optional<double> gas_pressure(const Element& element);
  // The oil at its first end.
  const Oil& oil_of(const Element& element) const { return oils_[oils_.size() == 1 ? 0 : element.ends.front().index]; }
  // Does the element exist in this state's valve positions?
  bool in_force(const Element& element) const;
  bool running(PartId pump) const;
  // The step commands something of this part: its laws are read anew.
  bool commands(PartId part) const { return !commands_.empty() && !commands_[part.index].empty(); }
  // Something of this element had to be assumed; told only if the element plays a part in the result.
  void assume(const Element& element, std::string_view text);
  // Appends to `texts` what was assumed of elements that play a part.
  void tell_assumed(const std::vector<bool>& plays_a_part, std::vector<std::string>& texts) const;

 private:
  std::vector<Oil> oils_;
  const Command* command_for(const Element& element, Parameter id) const;
  struct Assumption {
    std::uint32_t element;
    std::string text;
  };
  std::vector<Assumption> assumed_;
  std::vector<std::vector<const Command*>> commands_;  // by part; empty when the step commands nothing
};

}  // namespace ferrule::hydraulics
