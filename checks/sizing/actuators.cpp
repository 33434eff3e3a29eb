// F = eta (p1 A1 - p2 A2), T = eta dp D / (2 pi) (ISO 4391), solved for the size; a tenth of what the size could do is kept in
// hand for acceleration and wear (common practice). Buckling: Euler, F = pi^2 E I / (S L_k^2), E 210 GPa, S 3.5.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "checks/sizing/choice.hpp"
#include "checks/sizing/demand.hpp"

namespace ferrule::sizing {
namespace {

namespace d = dimension;
using working::Kind;
using working::Subject;

constexpr double in_hand = 0.9, buckling_factor = 3.5, steel = 210e9;

double circle(double diameter) { return std::numbers::pi / 4 * diameter * diameter; }
Quantity none(double value) { return {value, d::none}; }

struct Cylinder {
  const Basis& basis;
  const Subject& subject;
  const Part& part;
  const Element& piston;
  double bore, rod;
  bool through_rod() const { return piston.has("through-rod"); }
  double head() const { return circle(bore) - (through_rod() ? circle(rod) : 0); }
  double ring() const { return circle(bore) - circle(rod); }
};

// Lines for the area that a task needs; the symbol of the area is `area`.
double area_needed(Working& working, const Cylinder& c, const Task& task, std::string_view area) {
  const std::string end = area == "A_w" ? "1" : "2";
  const double driven = task.outward ? c.head() : c.ring(), other = task.outward ? c.ring() : c.head();
  working.given("F" + end, task.outward ? "load to be pushed" : "load to be pulled", {task.load, d::force}, task.origin + ", in " + c.basis.book.states[task.state].name)
      .given("p" + end, "pressure on the side that drives", {task.fed, d::pressure}, found_in(c.basis, task.state))
      .given("b" + end, "pressure on the other side", {task.other, d::pressure}, found_in(c.basis, task.state))
      .given("phi" + end, "other area over driving area, as it is now", none(other / driven), "given");
  const auto& body = *c.subject.body;
  const std::string balance = fmt::format("(p{0} - phi{0} x b{0})", end);
  if (body.friction > 0) {
    working.given("F_f" + end, "friction", {body.friction, d::force}, "given");
    working.law(area, "area needed", d::area, fmt::format("(F{0} + F_f{0}) / (r x {1})", end, balance), "Pascal's law");
  } else {
    working.given("eta" + end, "force efficiency", none(body.efficiency), body.friction_known ? "given" : "default");
    working.law(area, "area needed", d::area, fmt::format("F{0} / (r x eta{0} x {1})", end, balance), "Pascal's law; ISO 4391");
  }
  return working[area];
}

const Task* hardest(const std::vector<Task>& tasks, const Cylinder& c, bool outward) {
  const Task* worst = nullptr;
  double most = 0;
  for (const Task& task : tasks) {
    if (task.outward != outward) continue;
    Working trial("");
    trial.given("r", "", none(in_hand), "");
    const double area = area_needed(trial, c, task, "A_w");
    if (!worst || area > most || !(area > 0)) worst = &task, most = area;
  }
  return worst;
}

// Rod against buckling under the full push of a cylinder with this area; 0 where nothing pushes or no length is stated.
double rod_needed(Working& working, const Cylinder& c, const Task* push, double head) {
  const auto length = c.part.si("buckling-length");
  if (!push || !length) return 0;
  working.given("F_k", "greatest push", {push->fed * head, d::force}, "pressure on the driving side times the area chosen")
      .given("L_k", "buckling length", {*length, d::length}, "given")
      .given("S", "safety", none(buckling_factor), "common practice, 3 to 5")
      .given("E", "modulus of steel", {steel, d::pressure}, "handbook value")
      .law("d_k", "rod that does not buckle", d::length, "(64 x S x F_k x L_k^2 / (pi^3 x E))^0.25", "Euler; fuller method: ISO/TS 13725");
  return working["d_k"];
}

struct Pair {
  const std::vector<double>* row = nullptr;
  double bore = 0, rod = 0;
};

// The smallest bore with a rod that does; of its rods the one whose ratio of areas is nearest to the present one.
Pair smallest(const Cylinder& c, double head_needed, double ring_needed, const Task* push) {
  const Series& sizes = series("cylinder");
  const double ratio = circle(c.bore) / c.ring();
  Pair best;
  for (const auto& row : sizes.rows) {
    const double bore = sizes.si(row, 0), rod = sizes.si(row, 1), ring = circle(bore) - circle(rod);
    if (best.row && bore > best.bore) break;
    const double head = c.through_rod() ? ring : circle(bore);
    Working trial("");
    if (head < head_needed || ring < ring_needed || rod < rod_needed(trial, c, push, head)) continue;
    const auto off = [&](double r) { return std::fabs(circle(bore) / (circle(bore) - circle(r)) - ratio); };
    if (!best.row || off(rod) < off(best.rod)) best = {&row, bore, rod};
  }
  return best;
}

Proposal cylinder_size(const Cylinder& c) {
  Working working(c.part.tag + " bore and rod");
  const std::vector<Task> tasks = tasks_of(c.basis, c.subject);
  const Task *push = hardest(tasks, c, true), *pull = hardest(tasks, c, false);
  if (!push && !pull) return nothing_for(working, "no state gives it a load to move and the pressure for it");
  working.given("r", "share of the force that is used", none(in_hand), "a tenth in hand for acceleration and wear, common practice");
  const double head = push ? area_needed(working, c, *push, "A_w") : 0, ring = pull ? area_needed(working, c, *pull, "a_w") : 0;
  if (push && !c.through_rod()) working.law("d_w", "bore needed", d::length, "sqrt(4 x A_w / pi)", "area of a circle");
  const bool comes_up = head >= 0 && ring >= 0 && std::isfinite(head) && std::isfinite(ring);
  const Pair pair = comes_up ? smallest(c, head, ring, push) : Pair{};
  if (!pair.row) return nothing_for(working, "no bore of the series brings the load up at this pressure");
  rod_needed(working, c, push, c.through_rod() ? circle(pair.bore) - circle(pair.rod) : circle(pair.bore));
  if (!c.part.si("buckling-length")) working.note("no `buckling-length` is stated: the rod is not held against buckling");
  const Series& sizes = series("cylinder");
  Proposal proposal;
  proposal.working = working.worked(), proposal.source = sizes.source;
  choose(c.basis, c.part, {{"bore", fmt::format("{:g} mm", c.bore * 1e3)}, {"rod", fmt::format("{:g} mm", c.rod * 1e3)}},
         {{"bore", sizes.written(*pair.row, 0)}, {"rod", sizes.written(*pair.row, 1)}}, proposal);
  return proposal;
}

Proposal motor_size(const Basis& basis, const Subject& subject, const Part& part) {
  Working working(part.tag + " displacement");
  const std::vector<Task> tasks = tasks_of(basis, subject);
  const auto hardest = std::max_element(tasks.begin(), tasks.end(), [](const Task& a, const Task& b) { return a.load / (a.fed - a.other) < b.load / (b.fed - b.other); });
  if (hardest == tasks.end()) return nothing_for(working, "no state gives it a load to turn and the pressure for it");
  working.given("T", "load to be turned", {hardest->load, d::torque}, hardest->origin + ", in " + basis.book.states[hardest->state].name)
      .given("p1", "pressure on the side that drives", {hardest->fed, d::pressure}, found_in(basis, hardest->state))
      .given("b1", "pressure on the other side", {hardest->other, d::pressure}, found_in(basis, hardest->state))
      .given("eta_hm", "hydro-mechanical efficiency", none(subject.body->efficiency), part.has("mechanical") ? "given" : "default of the definition")
      .given("r", "share of the torque that is used", none(in_hand), "a tenth in hand for starting and wear, common practice")
      .law("D_w", "displacement needed", d::displacement, "2 x pi x T / (r x eta_hm x (p1 - b1))", "ISO 4391");
  return chosen_from(basis, part, working, working["D_w"], series("displacement"));
}

}  // namespace

std::vector<Proposal> actuator_sizes(const Basis& basis) {
  std::vector<Proposal> proposals;
  for (const Subject& subject : basis.book.subjects()) {
    if (!subject.body || !subject.part) continue;
    const Part& part = basis.circuit().parts[subject.part];
    if (!is_stated_in(basis.compilation, part, basis.path)) continue;
    const auto bore = part.si("bore"), rod = part.si("rod");
    if (subject.kind == Kind::cylinder && bore && rod && subject.body->elements.size() == 1)
      proposals.push_back(cylinder_size({basis, subject, part, basis.circuit().elements[subject.element], *bore, *rod}));
    if (subject.kind == Kind::motor && part.has("displacement") && subject.body->elements.size() == 1) proposals.push_back(motor_size(basis, subject, part));
  }
  return proposals;
}

}  // namespace ferrule::sizing
