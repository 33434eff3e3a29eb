#include "compiler/model/element.hpp"

#include <algorithm>

namespace ferrule {
namespace {

namespace d = dimension;
using enum Parameter;

constexpr ParameterInfo parameter_table[] = {
    {bore, "bore", d::length},
    {length, "length", d::length},
    {losses, "losses", d::none},
    {roughness, "roughness", d::length},
    {rise, "rise", d::length},
    {diameter, "diameter", d::length},
    {coefficient, "coefficient", d::none},
    {drop, "drop", d::pressure},
    {drop_flow, "drop-flow", d::flow},
    {opening, "opening", d::none},
    {cracking, "cracking", d::pressure},
    {full_flow, "full-flow", d::pressure},
    {full_flow_flow, "full-flow-flow", d::flow},
    {setting, "setting", d::pressure},
    {override_share, "override", d::none},
    {ratio, "ratio", d::none},
    {flow, "flow", d::flow},
    {least_drop, "least-drop", d::pressure},
    {closing_flow, "closing-flow", d::flow},
    {displacement, "displacement", d::displacement},
    {least_displacement, "least-displacement", d::displacement},
    {volumetric, "volumetric", d::none},
    {mechanical, "mechanical", d::none},
    {speed, "speed", d::rotation},
    {full_stroke_pressure, "full-stroke-up-to", d::pressure},
    {zero_pressure, "zero-at", d::pressure},
    {margin, "margin", d::pressure},
    {cut_off, "cut-off", d::pressure},
    {power, "power", d::power},
    {rod, "rod", d::length},
    {stroke, "stroke", d::length},
    {friction, "friction", d::force},
    {efficiency, "efficiency", d::none},
    {spring_free, "spring-retracted", d::force},
    {spring_end, "spring-extended", d::force},
    {stages, "stages", d::none},
    {volume, "volume", d::volume},
    {precharge, "precharge", d::pressure},
    {gas_pressure, "gas-pressure", d::pressure},
    {polytropic, "polytropic", d::none},
    {wetted_area, "wetted-area", d::area},
    {heat_transfer, "heat-transfer", d::heat_transfer},
    {duty, "duty", d::power},
    {duty_per_kelvin, "duty-per-kelvin", d::duty_per_kelvin},
};

constexpr Parameter of_pipe[] = {bore, length, losses, roughness, rise};
constexpr Parameter of_restriction[] = {diameter, coefficient, drop, drop_flow, opening, duty, duty_per_kelvin};
constexpr Parameter of_one_way[] = {cracking, drop, drop_flow};
constexpr Parameter of_piloted[] = {cracking, drop, drop_flow, ratio};
constexpr Parameter of_pressure[] = {cracking, full_flow, full_flow_flow, setting, override_share, drop, drop_flow};
constexpr Parameter of_reducing[] = {setting, drop, drop_flow};
constexpr Parameter of_regulated[] = {flow, least_drop, opening};
constexpr Parameter of_fuse[] = {drop, drop_flow, closing_flow};
constexpr Parameter of_displacement[] = {displacement,         least_displacement, volumetric, mechanical, speed, opening,
                                         full_stroke_pressure, zero_pressure,      margin,     cut_off,    power};
constexpr Parameter of_piston[] = {bore, rod, stroke, friction, efficiency, spring_free, spring_end, stages};
constexpr Parameter of_gas[] = {volume, precharge, gas_pressure, polytropic};
constexpr Parameter of_reservoir[] = {volume, wetted_area, heat_transfer, setting};

constexpr std::string_view flags_of_restriction[] = {"linear", "adjustable", "shut-off", "shut"};
constexpr std::string_view flags_of_piloted[] = {"closing", "vented"};
constexpr std::string_view flags_of_pressure[] = {"drained", "vented", "remote", "two-stage"};
constexpr std::string_view flags_of_displacement[] = {"pump", "motor", "both-ways", "hand"};
constexpr std::string_view flags_of_piston[] = {"through-rod", "brake"};

constexpr ElementInfo table[] = {
    {ElementKind::passage, "passage", "a - b", 2, 16, "joined without loss", {}, {}},
    {ElementKind::pipe, "pipe", "a - b", 2, 2, "Darcy-Weisbach with loss coefficients and rise", of_pipe, {}},
    {ElementKind::restriction, "restriction", "a - b", 2, 2, "orifice by diameter, or drop at a flow (square, or linear)",
     of_restriction, flags_of_restriction},
    {ElementKind::one_way, "one-way", "in > out", 2, 2, "shut below cracking, then drop at a flow", of_one_way, {}},
    {ElementKind::piloted_one_way, "piloted-one-way", "in > out", 2, 2,
     "one-way, held open (or, closing, held shut) when ratio times the pilot pressure overcomes the load side", of_piloted,
     flags_of_piloted},
    {ElementKind::pressure_path, "pressure-path", "in > out", 2, 2,
     "shut until the weighted pressures reach cracking, straight to fully open at full-flow", of_pressure, flags_of_pressure},
    {ElementKind::reducing_path, "reducing-path", "in > out", 2, 2, "open until the weighted pressures reach the setting",
     of_reducing, flags_of_pressure},
    {ElementKind::regulated_flow, "regulated-flow", "in > out excess", 2, 3,
     "the set flow while least-drop remains, an orifice below that; the rest goes to excess", of_regulated, {}},
    {ElementKind::flow_fuse, "flow-fuse", "a - b", 2, 2, "free both ways until the flow from a to b exceeds closing-flow",
     of_fuse, {}},
    {ElementKind::displacement, "displacement", "in > out case", 2, 3,
     "flow by displacement and speed less leakage, torque by pressure difference", of_displacement, flags_of_displacement},
    {ElementKind::shared_shaft, "shared-shaft", "", 0, 0, "the displacement elements of the part turn as one", {}, {}},
    {ElementKind::piston, "piston", "cap - rod-end", 1, 2, "force is area times pressure, friction against the motion",
     of_piston, flags_of_piston},
    {ElementKind::selector, "selector", "one - two > out", 3, 3, "the higher of two pressures", {}, {}},
    {ElementKind::gas_volume, "gas-volume", "port", 1, 1, "a gas behind oil: pressure by its volume", of_gas, {}},
    {ElementKind::reservoir, "reservoir", "ports", 1, 16, "oil at reference pressure", of_reservoir, {}},
    {ElementKind::atmosphere, "atmosphere", "port", 1, 1, "breathes air", {}, {}},
    {ElementKind::dead_end, "dead-end", "port", 1, 2, "feels pressure, passes nothing", {}, {}},
};

template <class Range>
auto by_word(const Range& range, std::string_view word) {
  return std::find_if(std::begin(range), std::end(range), [&](const auto& row) { return row.word == word; });
}

}  // namespace

std::span<const ParameterInfo> parameters() { return parameter_table; }

std::optional<Parameter> parameter_named(std::string_view word) {
  const auto found = by_word(parameter_table, word);
  return found == std::end(parameter_table) ? std::nullopt : std::optional(found->id);
}

std::span<const ElementInfo> element_kinds() { return table; }

const ElementInfo& info_of(ElementKind kind) { return table[static_cast<std::size_t>(kind)]; }

std::optional<ElementKind> element_named(std::string_view word) {
  const auto found = by_word(table, word);
  return found == std::end(table) ? std::nullopt : std::optional(found->kind);
}

const ParameterValue* Element::find(Parameter id) const {
  const auto found = std::find_if(parameters.begin(), parameters.end(), [&](const ParameterValue& p) { return p.id == id; });
  return found == parameters.end() ? nullptr : &*found;
}

std::optional<double> Element::value(Parameter id) const {
  const ParameterValue* found = find(id);
  return found ? std::optional(found->si) : std::nullopt;
}

bool Element::has(std::string_view flag) const { return std::find(flags.begin(), flags.end(), flag) != flags.end(); }

}  // namespace ferrule
