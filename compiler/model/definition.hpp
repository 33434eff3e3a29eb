// What a `define`, `symbol` or `part` statement says: one kind of component, ours or a user's own.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "compiler/model/element.hpp"
#include "grammar/tree.hpp"

namespace ferrule {

// ---------------------------------------------------------------- strokes

enum class Side : std::uint8_t { left, right, above, below };

// What stands at a port decides the look of its stub and what may be joined to it.
enum class PortUse : std::uint8_t { main, pilot, drain, mechanical, electrical };

enum class StrokeKind : std::uint8_t {
  line, closed, fill, rect, circle, disc, dot, arc, arrow, arrow2, arc_arrow, arc_arrow2, pilot, drain, chain, thin, text,
  use,     // a stroke part by name, flipped, turned, moved
  symbol,  // a whole symbol by name
};

// Coordinates in modules, x right, y down, angles clockwise in degrees.
struct Stroke {
  StrokeKind kind;
  std::vector<double> numbers;
  std::string name;          // use, symbol: whose strokes; text: the words
  std::uint8_t quarters = 0; // use, symbol: clockwise quarter turns, after the flip
  bool flip = false;         // use, symbol: x to -x
};

struct SymbolPort {
  std::string name;
  double x = 0, y = 0;
  Side side = Side::above;
  PortUse use = PortUse::main;
};

// A stroke part (spring, solenoid, diamond ...): `part spring "spring" { width 2, line 0 0 ... }`.
struct StrokePart {
  std::string name, term;
  double width = 0;           // how far an operator reaches along its slot
  std::string operator_word;  // the word after `by` that means this part; "" when it is no operator
  std::vector<Stroke> strokes;
};

struct Symbol {
  std::string name, term;
  bool upright = false;           // may only be mirrored in the vertical axis
  std::string variant_of;         // the same component for another place (flow downward)
  double centre_x = 0, centre_y = 0;
  std::vector<SymbolPort> ports;
  std::vector<Stroke> strokes;
};

// ---------------------------------------------------------------- facts

// An unevaluated value: terms [first, first+count) of a tree. Defaults and element settings may be formulas.
struct Formula {
  const Tree* tree = nullptr;
  std::uint32_t first = 0, count = 0;
  Span span;
};

enum class FactKind : std::uint8_t { quantity, quantity_at, range, flag, choice, text, tag, list };

struct FactSpec {
  std::string name;
  FactKind kind = FactKind::quantity;
  Dimension dimension;               // quantity, quantity_at, range, list
  Dimension at;                      // quantity_at: `pressure at flow`
  std::vector<std::string> choices;  // choice; of a tag: the roles of which the part that it names has one
  std::string text, source;          // one-line documentation; where a default comes from
  std::optional<Formula> preset;     // the default, may be a formula of other facts; a word for choices
  std::optional<Formula> preset_at;  // second half of a default `5 bar at 40 L/min`
  std::vector<std::string> then;     // words that must follow the value ("pushing in"), kept in FactValue::word
  std::optional<double> low, high;   // limits in SI
  bool command = false;              // a step may set it
  bool at_may_miss = false;          // quantity_at: the second value may be left out
  bool repeats = false;              // may be stated several times: learning aims
  Span span;
};

struct PortSpec {
  std::string name;
  PortUse use = PortUse::main;
  std::string text;        // what it is for
  bool may_stay_open = false;  // a vent or an optional connection
  Span span;
};

// `through IN > OUT` or `through 1 - 2`: the part may stand by its tag alone in a run.
struct Through {
  std::string from, to;
  bool both_ways = false;
};

// `always cracking below full-flow`
struct Relation {
  std::string smaller, larger;
  Span span;
};

// ---------------------------------------------------------------- valve rows

// One path of a position row.
struct RowPath {
  enum class Kind : std::uint8_t { arrow, both, joined, one_way, restricted };  // P>A  P<>A  P-A-T  A|>T  P~A
  Kind kind = Kind::joined;
  std::vector<std::string> ports;  // two; more only for `joined`
  bool metered = false;
  Span span;
};

// What shifts a position: `by solenoid 1Y1`, `by lever`, `by pilot X ratio 3`, `by springs`, `by spring`, `by detent`.
struct Actuation {
  std::string means;   // "solenoid", "lever", "springs", ... the operator part's name in stdlib
  std::string tag;     // solenoid tag; pilot port
  std::string through; // "pilot-stage": acts on a stage that acts on the valve (`through pilot`)
  std::string with;    // "manual": the part outside it (`with override`)
  double ratio = 1;    // pilot area ratio
  Span span;
};

struct PositionRow {
  std::string name;    // "a", "0", "b"
  std::vector<RowPath> paths;
  std::vector<Actuation> by;
  Span span;
  bool rest = false;   // springs bring it here, or the text says so
  bool closed = false; // said to have no paths
  bool regenerative = false;  // a path may enter P or leave T here
};

// ---------------------------------------------------------------- definitions

struct EndRef {
  std::string name;    // a port of the definition or an inner node; "" when the end is absent
  Span span;
};

struct ElementSpec {
  ElementKind kind = ElementKind::passage;
  std::string name;
  std::vector<EndRef> ends;
  struct SenseSpec { std::string node; std::optional<Formula> weight; double sign = 1; };
  std::vector<SenseSpec> senses;                       // `senses P and X ratio less T`
  struct Setting { Parameter id; std::optional<Formula> value; };  // without a value: the definition's own fact of that name
  std::vector<Setting> settings;
  std::vector<std::string> flags;
  std::vector<std::string> when;                       // exists only if these facts are stated; "not bypass" the other way
  std::vector<std::string> positions;                  // exists only in these positions
  Span span;
};

// `symbol filter-bypass when bypass`: the first choice whose facts are stated is drawn.
struct SymbolChoice {
  std::string symbol;
  std::vector<std::string> when;
};

// `role limits P > T`: what checks ask a part for, instead of its name.
struct Role {
  std::string name;                // "limits", "feeds", "returns-by-spring" ...
  std::vector<std::string> ports;
};

// `port P is V1.P`: a port of an assembly is one of a part inside.
struct PortOfInside {
  std::string name, tag, port;
  Span span;
};

struct Definition {
  std::string name, term;          // "relief-valve", "pressure relief valve"
  std::string like;                // the kind it was made from
  std::vector<PortSpec> ports;
  bool ports_from_rows = false;    // a directional valve has the ports its rows name (`ports from rows`)
  bool ports_as_named = false;     // a reservoir has a connection for every run that ends there, all one node (`ports as named`)
  std::vector<std::vector<std::string>> sizes;   // how a size after the kind is read: {"outside","x","wall"}, {"DN","dn"}
  std::vector<Through> through;
  std::vector<FactSpec> facts;
  std::vector<std::vector<std::string>> enough;  // sets of facts, each sufficient
  std::vector<Relation> always;
  std::vector<PositionRow> rows;
  std::vector<ElementSpec> elements;
  std::vector<Role> roles;
  std::vector<SymbolChoice> symbols;
  std::string letter;              // ISO 1219-2 code letter
  std::string tier;                // "supply", "control", "modulation", "actuator", "line", "none" (not drawn)
  std::string family;              // parts of one family share a row of the sheet
  std::vector<std::string> beside; // hints of place: "pump-line", "return", "on-cover" ...
  std::vector<std::string> shows;  // data lines of the sheet, with {fact} in braces
  std::string says;                // one sentence for people, with {fact} in braces
  std::optional<std::uint32_t> assembly_block; // block of its tree that holds components
  std::vector<PortOfInside> ports_of_inside;
  bool unclear = false;            // a statement of it could not be read: what it lacks is unknown
  bool is_pipe = false;            // has a `size` pattern or the role `line`: stands in runs in braces
  const Tree* tree = nullptr;
  Span span;

  const FactSpec* fact(std::string_view name) const;
  const PortSpec* port(std::string_view name) const;
  const Role* role(std::string_view name) const;
  const ElementSpec* element(std::string_view name) const;
};

// All definitions a text can use: the library's and the file's own. Found by name; library entries are read on first
// use (compiler/library/library.hpp).
class Library;

}  // namespace ferrule
