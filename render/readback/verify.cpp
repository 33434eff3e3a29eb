#include "render/readback/verify.hpp"

#include <fmt/format.h>

#include <set>

#include "render/readback/compare.hpp"
#include "render/sheet/format.hpp"

namespace ferrule::readback {
namespace {

std::string sentence(const Geometry& geometry, const Fault& fault) {
  if (!fault.spot) return fault.what;
  const Sheet& sheet = geometry.sheets[fault.spot->sheet];
  const double x = static_cast<double>(fault.spot->at.x) / 100, y = static_cast<double>(fault.spot->at.y) / 100;
  const std::string field = sheet::field_at({"", sheet.width, sheet.height}, {x, y});
  return fmt::format("sheet {}, field {}, {} mm from the left, {} mm from the top: {}", sheet.id, field, x, y, fault.what);
}

// Parts without a port of oil, such as switches: no net would miss them.
std::vector<Fault> parts_not_drawn(const Circuit& circuit, const Geometry& geometry) {
  std::set<std::string> drawn;
  for (const Sheet& sheet : geometry.sheets)
    for (const Symbol& symbol : sheet.symbols) drawn.insert(symbol.id);
  std::vector<Fault> faults;
  for (const Part& part : circuit.parts)
    if (part.port_count == 0 && part.definition != nullptr && !part.definition->symbols.empty() && !drawn.contains(part.tag))
      faults.push_back({{}, part.tag + " is not drawn"});
  return faults;
}

}  // namespace

Verdict verify(const Circuit& circuit, std::string_view geometry_json) {
  const Geometry geometry = geometry_in(geometry_json);
  if (!geometry.fault.empty()) return {geometry.fault, {}, 0, 0};
  const Netlist read = netlist_of(geometry);
  const Compared oil = compared_oil(circuit, geometry, read);
  Verdict verdict{{}, {}, oil.ports, oil.nets};
  for (const auto& faults : {read.faults, oil.faults, compared_shafts(circuit, read), parts_not_drawn(circuit, geometry)})
    for (const Fault& fault : faults) verdict.differences.push_back(sentence(geometry, fault));
  return verdict;
}

}  // namespace ferrule::readback
