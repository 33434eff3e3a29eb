// Lines: continuity, Reynolds number, friction after Darcy and Weisbach.
#include <cmath>

#include <fmt/format.h>

#include "compiler/figures/laws.hpp"
#include "compiler/hydraulics/laws.hpp"

namespace ferrule::working {
namespace {

namespace d = dimension;
using enum Parameter;

constexpr Dimension mass_density = d::density;

void read_flow(const Asked& asked, Value& value) {
  const double flow = asked.moment().point.flow[asked.subject.element.index];
  read_solved(value, std::fabs(flow), "how the flow is shared is left to friction");
  if (flow != 0) value.meaning = fmt::format("flow, from end {} to end {}", flow > 0 ? 1 : 2, flow > 0 ? 2 : 1);
}

void read_bore(const Asked& asked, Value& value) { read_fact(asked, value, bore, 0.012, "12 mm"); }
void read_length(const Asked& asked, Value& value) { read_fact(asked, value, length, 0, "no length stated"); }
void read_losses(const Asked& asked, Value& value) { read_fact(asked, value, losses, 0, "none stated"); }
void read_rise(const Asked& asked, Value& value) {
  read_fact(asked, value, rise, 0, "level");
  if (value.si && asked.moment().point.flow[asked.subject.element.index] < 0) *value.si = -*value.si, value.meaning = "rise along the flow";
}
void read_roughness(const Asked& asked, Value& value) { read_fact(asked, value, roughness, 1.5e-6, "drawn tube and hose, common practice"); }

const Oil& oil_in(const Asked& asked) { return asked.moment().reading.oil_of(asked.element()); }

void read_viscosity(const Asked& asked, Value& value) {
  const Oil& oil = oil_in(asked);
  value.si = oil.kinematic_viscosity;
  value.origin = oil.by_default ? "default (an oil of 32 mm2/s)" : "fluid as stated";
}
void read_density(const Asked& asked, Value& value) {
  value.si = oil_in(asked).density;
  value.origin = "fluid";
}

void read_friction(const Asked& asked, Value& value) {
  const double reynolds = work_out(asked, "Re").si.value_or(0), eps = work_out(asked, "eps").si.value_or(0);
  value.origin = reynolds < 4000 ? "straight between 64/2300 at Re 2300 and Colebrook-White at Re 4000"
                                 : "1/sqrt(f) = -2 lg(eps/3.7 + 2.51/(Re sqrt(f))), solved for f";
  value.si = hydraulics::friction_factor(reynolds, eps);
}

double reynolds_of(const Asked& asked) { return work_out(asked, "Re").si.value_or(0); }
bool still(const Asked& asked) { return work_out(asked, "q").si.value_or(0) == 0; }
bool laminar(const Asked& asked) { return reynolds_of(asked) <= 2300; }
bool rises(const Asked& asked) { return asked.moment().reading.value(asked.element(), rise).value_or(0) != 0; }
bool bends(const Asked& asked) { return asked.moment().reading.value(asked.element(), losses).value_or(0) != 0; }

void read_nil(const Asked&, Value& value) {
  value.si = 0;
  value.origin = "no flow, no loss";
}

constexpr std::string_view darcy = "H. Darcy and J. Weisbach (any text on fluid mechanics)";

constexpr Law table[] = {
    {Kind::line, "q", "flow", d::flow, "", "continuity: at every junction the flows sum to nil", read_flow},
    {Kind::line, "d", "inside diameter", d::length, "", "", read_bore},
    {Kind::line, "A", "flow area", d::area, "pi / 4 x d^2", ""},
    {Kind::line, "v", "mean velocity", d::speed, "q / A", "continuity"},
    {Kind::line, "nu", "kinematic viscosity", d::kinematic_viscosity, "", "ISO 3448, ASTM D341", read_viscosity},
    {Kind::line, "Re", "Reynolds number", d::none, "v x d / nu", "O. Reynolds 1883; laminar below 2300"},
    {Kind::line, "k", "roughness", d::length, "", "", read_roughness},
    {Kind::line, "eps", "relative roughness", d::none, "k / d", ""},
    {Kind::line, "f", "friction factor, laminar", d::none, "64 / Re", "Hagen and Poiseuille", nullptr, laminar},
    {Kind::line, "f", "friction factor, turbulent", d::none, "", "C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939)", read_friction},
    {Kind::line, "L", "length", d::length, "", "", read_length},
    {Kind::line, "K", "sum of loss coefficients", d::none, "", "", read_losses},
    {Kind::line, "rho", "density", mass_density, "", "", read_density},
    {Kind::line, "h", "rise", d::length, "", "", read_rise},
    {Kind::line, "g", "gravity", {1, 0, -2, 0, 0}, "", "standard acceleration, CGPM 1901",
     [](const Asked&, Value& value) { value.si = 9.80665, value.origin = "constant"; }},
    {Kind::line, "dp_f", "pressure loss", d::pressure, "", "", read_nil, still},
    {Kind::line, "dp_f", "pressure loss of friction and fittings", d::pressure, "(f x L / d + K) x rho / 2 x v^2", darcy, nullptr, bends},
    {Kind::line, "dp_f", "pressure loss of friction", d::pressure, "f x L / d x rho / 2 x v^2", darcy},
    {Kind::line, "dp", "pressure drop", d::pressure, "dp_f + rho x g x h", "Bernoulli", nullptr, rises},
    {Kind::line, "dp", "pressure drop, all of it loss", d::pressure, "dp_f", ""},
    {Kind::line, "P_h", "heat", d::power, "dp_f x q", "every loss heats the oil"},
};

}  // namespace

std::span<const Law> laws_of_lines() { return table; }

}  // namespace ferrule::working
