// The work a circuit is there for: control rules, the cycle, its steps.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/model/ids.hpp"
#include "compiler/quantities/quantity.hpp"
#include "grammar/source.hpp"

namespace ferrule {

// What a step or a control rule does to a part: energise a solenoid, hold a lever, stop a drive, set a command.
struct Command {
  enum class Kind : std::uint8_t { on, off, lever, at, pulse, stopped, running, gas, open, closed, stage };
  Kind kind = Kind::on;
  PartId part;                       // the valve (for its solenoids too), drive, pump, accumulator ...
  std::string solenoid;              // tag of the solenoid, when one is meant
  int position = -1;                 // valve position it brings
  std::optional<Quantity> amount;    // `at 38 L/min`, `at 40 %`, `gas 140 bar`
  std::string fact;                  // which fact the amount sets; "" for the commanded flow or opening
  Span span;
};

struct Load {
  std::optional<Quantity> force;     // or torque
  enum class Sense : std::uint8_t { none, against, pushing_in, pulling_out, turning_ab, turning_ba } sense = Sense::none;
};

struct Motion {
  enum class Kind : std::uint8_t { extends, retracts, turns_ab, turns_ba, presses, stands, held };
  Kind kind = Kind::stands;
  PartId actuator;                   // for a tie: its first; see `tie`
  int tie = -1;
  std::optional<Quantity> travel;    // length, angle
  Load load;
  std::optional<Quantity> lasts;     // `for 2 s`
  std::string where;                 // stands "retracted", "extended", "at its stop"; "" when the text does not say
  std::string held_by;               // tag of the brake or catch
  int stage = -1;                    // `on stage 2` of a telescopic cylinder
  Span span;

  bool moves() const { return kind <= Kind::turns_ba; }
  bool turns() const { return kind == Kind::turns_ab || kind == Kind::turns_ba; }
  bool is_outward() const { return kind == Kind::extends || kind == Kind::turns_ab; }
};

struct Step {
  std::string name;
  std::string text;                  // for people: name with capital, quoted form if given
  std::vector<Command> commands;
  std::vector<Motion> motions;
  std::string until;                 // what ends it: an operator's words, or a switch: "PS1 opens", "S2"
  PartId until_part;                 // the switch; none for words
  std::optional<Quantity> lasts;
  Span span;
};

// `0Y1 on whenever 1Y1 or 1Y2`, `never 1Y1 with 1Y2`, `2Y1 only with 1Y1`: kept as a condition over terms.
struct ControlRule {
  enum class Kind : std::uint8_t { whenever, from_until, never_with, only_with } kind = Kind::whenever;
  Command command;                   // what follows (whenever, from_until); the first of never/only
  struct Term { PartId part; std::string solenoid, state, text; Span span; };
  std::vector<std::vector<Term>> any_of_all;  // `or` of `and`s
  Term from, until;
  Span span;
};

struct Work {
  std::vector<ControlRule> control;
  std::vector<Command> starts;       // `cycle { starts V1 b }`
  std::string text;                  // prose about the cycle
  Table<Step> steps;
  Span span;                         // the cycle statement; empty when there is none
};

}  // namespace ferrule
