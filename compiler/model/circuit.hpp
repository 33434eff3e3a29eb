// The compiled circuit: plain data that every later step reads and none changes.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/model/definition.hpp"
#include "compiler/model/ids.hpp"
#include "compiler/model/work.hpp"

namespace ferrule {

struct FactValue {
  std::string name;                  // "rated"
  std::string belongs_to;            // port, path ("P>A") or inner element it was said of; "" for the whole part
  FactKind kind = FactKind::quantity;
  std::vector<Quantity> numbers;     // quantity: 1; quantity_at: value, at; range: low, high; list: any
  std::string word;                  // text, choice, tag
  Origin origin = Origin::given;
  Span span;
};

enum class LineFunction : std::uint8_t { pressure, working, return_, suction, drain, pilot, mechanical };
std::string_view word_of(LineFunction function);

struct Port {
  PartId part;
  std::string name;                  // "P"
  const PortSpec* spec = nullptr;    // null for ports that only rows name
  PortUse use = PortUse::main;
  NodeId node;                       // always set; an unjoined port has a node of its own
  enum class End : std::uint8_t { joined, plugged, left_open, unjoined } end = End::unjoined;
  Span span;                         // where it was first joined
};

// A hydraulic point: all ports of one node share one pressure.
struct Node {
  std::vector<PortId> ports;
  PartId inner_of;                   // an inner node of this part
  std::string name;                  // inner nodes
};

struct Part {
  std::string tag;                   // "0V1", "clamp.1V1" inside an assembly
  std::string description;           // the text after the tag
  std::string prose;                 // bare texts of its block
  const Definition* definition = nullptr;
  int circuit_number = -1;           // ISO 1219-2: 0 supply, 1.. in cycle order; -1 when the tag has none
  std::string assembly;              // path of the assembly it belongs to; "" for none
  std::vector<FactValue> facts;
  std::vector<PositionRow> positions;  // directional valves; in the order of the text, left box first
  int rest = -1;                     // index into positions
  std::uint32_t first_port = 0, port_count = 0;
  Span span;                         // its tag in the text
  Span statement;                    // the whole statement

  const FactValue* fact(std::string_view name, std::string_view belongs_to = {}) const;
  std::optional<double> si(std::string_view name) const;  // first number of a fact
  bool has(std::string_view name) const { return fact(name) != nullptr; }
};

// A pipe of a run. It is a part too (kinds `tube`, `hose`, `bore` of the library), so it has facts, ports 1 and 2, an element.
struct Line {
  PartId part;
  LineFunction function = LineFunction::working;
  bool named = false;                // the text gave it a tag
};

// A run as written, for the drawing and for messages: what stands between the dashes, in order.
struct RunStep {
  PortId port;                       // an end; none for a pipe
  LineId line;                       // a pipe; none for an end
};
struct Run {
  LineFunction function = LineFunction::working;
  std::vector<RunStep> steps;        // an in-line part contributes its two ports
  Span span;
};

struct Accept {
  std::string rule, subject, reason, by, date, until;
  Span span;
  bool used = false;
};

struct Requirement {
  Span span;                         // the whole statement
  std::vector<std::string> address;  // "1A1.speed" split at dots; sums keep all addresses, joined by "+"
  std::string comparison;            // "at most", "at least", "between", "within", "is"
  std::vector<Quantity> values;
  std::string during, from, to, while_;  // steps of `during` joined by " and "; `while` as written
  // `while PS1 above 120 bar and 1Y1 on`: all have to hold.
  struct Bound { std::vector<std::string> address; std::string comparison; Quantity value; };
  std::vector<Bound> bounds;
  std::vector<ControlRule::Term> conditions;
};

struct Question {
  std::string text, answer, result;
  double tolerance = 0;
  int marks = 0;
  Span span;
};

// `vary load from 20 kN to 30 kN by 2 kN`: what a `let` may be in other sheets for the same class.
struct Variation {
  std::string name;
  Quantity least, most, step;
  Span value;                        // of what `let` gives it
  Span span;
};

struct PlaceHint {
  std::vector<std::string> words;    // "1A1", "left of", "2A1"
  Span span;
};

struct Fluid {
  std::string tag, kind, description;
  std::vector<FactValue> facts;
  Span span;
};

struct SheetData {
  std::string format;                // "A3"; "" when the drawing chooses
  std::map<std::string, std::string> texts;  // number, revision, owner, created, approved, date, status ...
  double module_mm = 2.0;
  bool drain_like_pilot = false;
  bool codes_2012 = false;
  Span span;
};

struct Circuit {
  std::string title, purpose;        // circuit "title" { "purpose" }
  std::vector<FactValue> facts;      // of the circuit statement: ambient, profile, ...
  SheetData sheet;
  std::vector<Fluid> fluids;
  Table<Part> parts;                 // in the order of the text
  Table<Port> ports;                 // a part's ports are consecutive
  Table<Node> nodes;
  Table<Line> lines;
  Table<Element> elements;
  std::vector<Run> runs;
  std::vector<std::vector<PartId>> ties;      // `tie lift { C1, C2 }`
  std::vector<std::string> tie_names;
  std::vector<std::vector<FactValue>> tie_facts;  // `load 60 kN pushing in`, `mass 1800 kg`
  Work work;
  std::vector<Accept> accepts;
  std::vector<Requirement> requirements;
  std::vector<Question> questions;
  std::vector<Variation> variations;
  std::vector<PlaceHint> hints;
  std::map<std::string, PartId, std::less<>> by_tag;

  PartId part_named(std::string_view tag) const;
  PortId port_of(PartId part, std::string_view name) const;
  std::string name_of(PortId port) const;     // "0P1.P"
};

}  // namespace ferrule
