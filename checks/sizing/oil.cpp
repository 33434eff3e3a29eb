// Reservoir: three minutes of the pumps' flow (of a mobile machine one), and the oil that the rods displace (common practice).
// Cooler: what the walls do not give off, P = P_h - k A (T - T_a) (Newton's law of cooling).
#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "checks/machinery/evidence.hpp"
#include "checks/sizing/choice.hpp"

namespace ferrule::sizing {
namespace {

namespace d = dimension;
using working::Kind;
using working::Subject;

constexpr double celsius = 273.15, allowed_without_word = 60 + celsius;
constexpr double wall = 10;  // W/(m2 K), free air (the library's default)

const FactValue* fact_of(const std::vector<FactValue>& facts, std::string_view name) {
  const auto found = std::find_if(facts.begin(), facts.end(), [&](const FactValue& fact) { return fact.name == name; });
  return found == facts.end() ? nullptr : &*found;
}

std::vector<PartId> parts_with_role(const Circuit& circuit, std::string_view role) {
  std::vector<PartId> found;
  for (const Part& part : circuit.parts)
    if (part.definition && part.definition->role(role)) found.push_back(circuit.parts.id_of(part));
  return found;
}

bool is_mobile(const Circuit& circuit) {
  const FactValue* profile = fact_of(circuit.facts, "profile");
  return profile && profile->word == "mobile";
}

// Of the state in which the pumps give the most; what only goes round in a closed loop does not come from the reservoir.
struct Most {
  double flow = 0;
  std::size_t state = 0;
};
Most greatest_delivery(const Basis& basis) {
  Most most;
  for (std::size_t state : basis.book.told()) {
    double sum = 0;
    for (const Subject& subject : basis.book.subjects())
      if (subject.kind == Kind::pump && !has_role(basis.circuit(), subject.part, "closed-loop")) sum += basis.book.result(subject, "flow", state).result().si.value_or(0);
    if (sum > most.flow) most = {sum, state};
  }
  return most;
}

// What the level falls when all rods are out.
double rods(const Basis& basis) {
  double sum = 0;
  for (const Element& element : basis.circuit().elements)
    if (element.kind == ElementKind::piston && !element.has("through-rod")) {
      const double rod = element.value(Parameter::rod).value_or(0);
      sum += std::numbers::pi / 4 * rod * rod * element.value(Parameter::stroke).value_or(0);
    }
  return sum;
}

Proposal reservoir_size(const Basis& basis, const Part& part) {
  Working working(part.tag + " volume");
  const Most most = greatest_delivery(basis);
  if (!(most.flow > 0)) return nothing_for(working, "no pump draws from it in a state with numbers");
  const bool mobile = is_mobile(basis.circuit());
  working.given("q", "greatest delivery of the pumps", {most.flow, d::flow}, found_in(basis, most.state))
      .given("t", "minutes of it", {mobile ? 60.0 : 180.0, d::time}, mobile ? "mobile machine, common practice" : "three to five minutes, common practice")
      .given("dV", "oil that the rods displace", {rods(basis), d::volume}, "rod area times stroke of all cylinders")
      .law("V_w", "oil needed", d::volume, "q x t + dV", "common practice");
  working.note("above the oil a tenth of the volume stays free for air (common practice)");
  return chosen_from(basis, part, working, working["V_w"], series("reservoir"));
}

double oil_allowed(const Basis& basis, std::string& origin) {
  const Circuit& circuit = basis.circuit();
  const FactValue* stated = circuit.fluids.empty() ? nullptr : fact_of(circuit.fluids.front().facts, "temperature");
  origin = stated ? "given for the fluid" : "highest at the inlet of a pump, ISO 4413 (as reported)";
  return stated && !stated->numbers.empty() ? stated->numbers.front().si : allowed_without_word;
}

// A cube with the oil standing full: four sides and the bottom.
void put_wall(const Basis& basis, Working& working) {
  const double stated = basis.book.climate().wall;
  if (stated > 0) {
    working.given("kA", "heat the walls give off for each kelvin", {stated, d::duty_per_kelvin}, "wetted area times heat transfer, given");
    return;
  }
  double volume = 0;
  for (PartId id : parts_with_role(basis.circuit(), "tank")) volume += basis.circuit().parts[id].si("volume").value_or(0);
  working.given("V", "oil", {volume, d::volume}, "given")
      .law("A", "wetted area", d::area, "5 x V^0.66667", "reservoir taken as a cube, no area is stated")
      .given("k", "heat transfer of the wall", {wall, d::heat_transfer}, "free air, textbook value (8 to 15)")
      .law("kA", "heat the walls give off for each kelvin", d::duty_per_kelvin, "k x A", "");
}

// Before the reservoir in the run that brings the most oil back; none where no run does.
std::optional<Edit> spliced(const Basis& basis, const std::string& tag) {
  const Circuit& circuit = basis.circuit();
  const Run* best = nullptr;
  double most = 0;
  for (const Run& run : circuit.runs) {
    if (run.function != LineFunction::return_ || run.span.file >= basis.compilation.sources.size() || basis.compilation.sources[run.span.file].path != basis.path) continue;
    if (run.steps.empty() || !run.steps.back().port || !has_role(circuit, circuit.ports[run.steps.back().port].part, "tank")) continue;
    double flow = 0;
    const NodeId end = circuit.ports[run.steps.back().port].node;
    for (const Element& element : circuit.elements)
      for (std::size_t state : basis.book.told())
        if (const OperatingPoint& point = basis.book.point(state); point.settled && element.kind == ElementKind::pipe && std::find(element.ends.begin(), element.ends.end(), end) != element.ends.end())
          flow = std::max(flow, std::fabs(point.flow[circuit.elements.id_of(element).index]));
    if (!best || flow > most) best = &run, most = flow;
  }
  if (!best) return {};
  const std::string_view text = basis.compilation.sources.text(best->span);
  const std::size_t dash = text.rfind("--");
  if (dash == text.npos) return {};
  const std::uint32_t at = best->span.begin + static_cast<std::uint32_t>(dash);
  return Edit{{best->span.file, at, at}, "-- " + tag + " "};
}

std::string free_tag(const Circuit& circuit) {
  for (int number = 1;; ++number)
    if (std::string tag = fmt::format("0Z{}", number); !circuit.part_named(tag)) return tag;
}

Edit statement_after(const Basis& basis, const Part& part, const std::string& statement) {
  const std::string& text = basis.compilation.sources[part.statement.file].text;
  const auto end = static_cast<std::uint32_t>(std::min(text.find('\n', part.statement.end), text.size()));
  return {{part.statement.file, end, end}, "\n" + statement};
}

void put_new_cooler(const Basis& basis, const std::string& size, Proposal& proposal) {
  const Circuit& circuit = basis.circuit();
  const std::string tag = free_tag(circuit);
  const auto splice = spliced(basis, tag);
  const Part* tank = nullptr;
  for (PartId id : parts_with_role(circuit, "tank"))
    if (const Part& part = circuit.parts[id]; is_stated_in(basis.compilation, part, basis.path)) tank = &part;
  proposal.chosen = fmt::format("{} {} {{ duty {} }}", series("cooler").name, tag, size);
  if (splice && tank) proposal.edits = {statement_after(basis, *tank, proposal.chosen), *splice};
  else proposal.working.notes.push_back("no return run ends at a reservoir of this file: say yourself where the cooler stands");
}

}  // namespace

std::vector<Proposal> reservoir_sizes(const Basis& basis) {
  const auto tanks = parts_with_role(basis.circuit(), "tank");
  std::vector<Proposal> proposals;
  for (PartId id : tanks) {
    const Part& part = basis.circuit().parts[id];
    if (!is_stated_in(basis.compilation, part, basis.path) || !part.definition->fact("volume")) continue;
    if (tanks.size() > 1) proposals.push_back(nothing_for(Working(part.tag + " volume"), "several reservoirs share the oil: which pump draws from which is left to you"));
    else proposals.push_back(reservoir_size(basis, part));
  }
  return proposals;
}

std::vector<Proposal> cooler_sizes(const Basis& basis) {
  Working working("cooler duty");
  const working::Climate& climate = basis.book.climate();
  const working::CycleTotal& cycle = basis.book.cycle();
  if (!cycle.time || !std::isfinite(cycle.heat)) return {nothing_for(working, "the mean heat has no value: " + (cycle.why_none.empty() ? std::string("a step has none") : cycle.why_none))};
  std::string origin;
  const double allowed = oil_allowed(basis, origin);
  working.given("P_h", "mean heat over the cycle", {cycle.heat, d::power}, "conservation: power in = work + heat");
  put_wall(basis, working);
  working.given("T", "temperature the oil may have", {allowed, d::temperature}, origin)
      .given("T_a", "ambient temperature", {climate.ambient, d::temperature}, fact_of(basis.circuit().facts, "ambient") ? "given" : "default")
      .law("P_c", "heat that a cooler has to take", d::power, "P_h - kA x (T - T_a)", "Newton's law of cooling");
  if (!(working["P_c"] > 0)) return {nothing_for(working, "the walls give off more than that: no cooler is needed")};
  const auto coolers = parts_with_role(basis.circuit(), "cooler");
  if (!coolers.empty()) {
    const Part& part = basis.circuit().parts[coolers.front()];
    if (coolers.size() > 1 || !is_stated_in(basis.compilation, part, basis.path)) return {nothing_for(working, "the coolers that are there share it")};
    if (part.has("duty-per-kelvin")) return {nothing_for(working, fmt::format("{} states its duty for each kelvin: compare with `oil.temperature`", part.tag))};
    return {chosen_from(basis, part, working, working["P_c"], series("cooler"))};
  }
  const auto* row = at_least(series("cooler"), working["P_c"]);
  if (!row) return {nothing_for(working, "the series has no cooler as large as that")};
  Proposal proposal;
  proposal.working = working.worked(), proposal.source = series("cooler").source;
  put_new_cooler(basis, series("cooler").written(*row), proposal);
  return {proposal};
}

}  // namespace ferrule::sizing
