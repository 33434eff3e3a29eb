// The physical elements: all that C++ knows of components. Definitions in stdlib are composed of them.
//
// The table in element.cpp gives each kind its word, its ends and its parameters; the reader of definitions, the
// reference in LANGUAGE.md, the paths and the solver all go by that table.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/model/ids.hpp"
#include "compiler/quantities/quantity.hpp"
#include "grammar/source.hpp"

namespace ferrule {

enum class ElementKind : std::uint8_t {
  passage,          // a - b             joined without loss (drilling, tee, block)
  pipe,             // a - b             bore, length, losses, roughness, rise
  restriction,      // a - b             diameter + coefficient, or drop (at a flow; square, `linear`); adjustable
  one_way,          // in > out          cracking, drop
  piloted_one_way,  // in > out          cracking, drop, ratio; senses: pilot X (opens), closes when `closing`
  pressure_path,    // in > out          shut until its weighted pressures reach cracking; open at full-flow
  reducing_path,    // in > out          open until its weighted pressures reach the setting
  regulated_flow,   // in > out [excess] flow, least-drop
  flow_fuse,        // a - b             drop; shuts when the flow from a to b exceeds closing-flow
  displacement,     // in > out [case]   displacement, volumetric, mechanical; turned by a shaft
  shared_shaft,     // no ends           ties displacement elements of one part to one free shaft (gear divider)
  piston,           // cap, rod          bore, rod, stroke, friction; either end may be absent
  selector,         // 1, 2 > out        passes the higher pressure
  gas_volume,       // p                 volume, precharge
  reservoir,        // every port        reference pressure
  atmosphere,       // port              breathes
  dead_end,         // port              gauge, switch, plug: feels pressure, passes nothing
};

enum class Parameter : std::uint8_t {
  bore, length, losses, roughness, rise,                    // pipe
  diameter, coefficient, drop, drop_flow, opening,          // restriction; drop at drop_flow
  cracking, full_flow, full_flow_flow, setting, override_share, ratio,  // valves; full_flow at full_flow_flow
  flow, least_drop, closing_flow,                           // flow controls, fuse
  displacement, least_displacement, volumetric, mechanical, speed,      // displacement units
  full_stroke_pressure, zero_pressure, margin, cut_off, power,          // control laws of a pump
  rod, stroke, friction, efficiency, spring_free, spring_end, stages,   // pistons; spring force at both ends
  volume, precharge, gas_pressure, polytropic,              // gas
  wetted_area, heat_transfer, duty, duty_per_kelvin,        // heat
};

struct ParameterInfo {
  Parameter id;
  std::string_view word;     // as definitions write it: "full-flow"
  Dimension dimension;
};
std::span<const ParameterInfo> parameters();
std::optional<Parameter> parameter_named(std::string_view word);

struct ElementInfo {
  ElementKind kind;
  std::string_view word;                    // "pressure-path"
  std::string_view ends;                    // "in > out", for the reference
  int least_ends, most_ends;
  std::string_view law;                     // one line for the reference
  std::span<const Parameter> parameters;    // those it understands
  std::span<const std::string_view> flags;  // "linear", "adjustable", "closing", "vented", "both-ways" ...
};
std::span<const ElementInfo> element_kinds();
const ElementInfo& info_of(ElementKind kind);
std::optional<ElementKind> element_named(std::string_view word);

// Where a number came from; a verdict that leaned on a default says so.
enum class Origin : std::uint8_t { given, derived, by_default };

struct ParameterValue {
  Parameter id;
  double si = 0;
  Origin origin = Origin::given;
};

// One pressure in the balance of a pressure_path, reducing_path or piloted_one_way:
// the sum of weight * pressure(node) is compared with the setting.
struct Sense {
  NodeId node;
  double weight = 1;
};

// An element of a compiled circuit. Ends are in the order of its ElementInfo; an absent end is NodeId{}.
struct Element {
  ElementKind kind = ElementKind::passage;
  PartId part;
  std::string name;                  // "main", "check"; unique within its part; "P>A" for a path of a valve position
  std::vector<NodeId> ends;
  std::vector<Sense> senses;
  std::vector<ParameterValue> parameters;
  std::vector<std::string_view> flags;
  std::int16_t position = -1;        // exists only in this position of its part; -1 in all
  std::optional<double> value(Parameter id) const;  // none when the text does not say
  const ParameterValue* find(Parameter id) const;
  bool has(std::string_view flag) const;
};

}  // namespace ferrule
