#include "checks/report/cautions.hpp"

#include <algorithm>

namespace ferrule {
namespace {

constexpr const char* always =
    "This is a calculated aid from the data given. It is not a certificate, an inspection, a risk assessment or a proof of conformity. "
    "A competent person must check it against ISO 4413, ISO 12100, ISO 13849-1/-2, local law and the makers' data before anything is "
    "built, pressurised or changed.";
constexpr const char* jet =
    "Never feel for a leak with the hand. A jet from a pinhole can inject oil through skin; injuries look small and are surgical "
    "emergencies: go to hospital at once and say 'high-pressure injection', fluid and pressure.";
constexpr const char* gas =
    "Nitrogen only, never oxygen or air. Do not open, weld or loosen under gas or oil pressure; pressure-vessel inspection rules apply.";
constexpr const char* hung = "Hydraulics alone is not a support: fit props or locks before reaching under.";

// Injection injuries are reported from about this pressure on (health and safety authorities' leaflets, from memory).
constexpr double injection_from = 7e5;

template <class Test>
bool any_element(const Circuit& circuit, Test test) {
  return std::any_of(circuit.elements.begin(), circuit.elements.end(), test);
}

bool may_exceed_injection_pressure(const Circuit& circuit) {
  const bool pumped = any_element(circuit, [](const Element& e) { return e.kind == ElementKind::displacement; });
  const auto limited_high = [](const Element& e) {
    const auto reached = e.value(Parameter::full_flow) ? e.value(Parameter::full_flow) : e.value(Parameter::setting);
    return e.kind == ElementKind::pressure_path && reached && *reached > injection_from;
  };
  const bool limited = any_element(circuit, [](const Element& e) { return e.kind == ElementKind::pressure_path; });
  return pumped && (!limited || any_element(circuit, limited_high));
}

bool hangs_a_load(const Circuit& circuit) {
  const auto hangs = [](const Part& part) { return part.has("mass") || (part.definition && part.definition->role("holds")); };
  return std::any_of(circuit.parts.begin(), circuit.parts.end(), hangs);
}

}  // namespace

std::vector<std::string> cautions_for(const Circuit& circuit) {
  std::vector<std::string> cautions{always};
  if (may_exceed_injection_pressure(circuit)) cautions.push_back(jet);
  if (any_element(circuit, [](const Element& e) { return e.kind == ElementKind::gas_volume; })) cautions.push_back(gas);
  if (hangs_a_load(circuit)) cautions.push_back(hung);
  return cautions;
}

}  // namespace ferrule
