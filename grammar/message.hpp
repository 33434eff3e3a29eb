// One message of any step: made once where the fault is known, rendered late by checks/report.
#pragma once

#include <string>
#include <vector>

#include "grammar/source.hpp"

namespace ferrule {

enum class Severity : std::uint8_t { error, warning, advice };

// A is the narrowest span that still names the fault; B, C ... explain it.
struct Place {
  Span span;
  std::string phrase;  // "set here"; may be empty
};

// A number that carries the verdict.
struct Figure {
  std::string name;    // "velocity in L2"
  std::string value;   // "12.6 m/s"
  std::string limit;   // "6.0 m/s"; empty when there is none
  std::string origin;  // "given", "derived", "default", a source
};

struct Message {
  std::string code;  // "P-01"; opaque, never reused
  std::string rule;  // "pump-outlet-unprotected"
  Severity severity = Severity::error;
  std::string sentence;         // stands alone: who, what, how much against what limit
  std::vector<Place> places;    // A first
  std::string fix;              // what to write instead; never part of the sentence
  std::string subject;          // tag the finding is about; empty for faults of the text
  std::string known_by;         // what its identity goes by where the tag may shift: the two ports of a line; else empty
  std::string cause;            // cause code of the rule; may be empty
  std::string state_class;      // "rest", "idle", "stop", "work", "late"; empty for faults of the text
  std::vector<std::string> states;  // names of the states in which it holds
  std::vector<std::string> trail;   // the proving path as ports: "0P1.P", "1V1.P"
  std::vector<Figure> values;
  std::string limit_source;  // where the limit stands: a standard, "common practice"
  std::string hides;         // what could not be checked because of this
  std::string masked_by;     // rule and subject of the finding that this one only restates
  std::string accepted;      // the reason of the `accept` statement that names it; empty when open
};

using Messages = std::vector<Message>;

}  // namespace ferrule
