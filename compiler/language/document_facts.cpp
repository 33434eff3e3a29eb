// The facts of statements that are no components: the circuit, its fluids, ties.
#include "compiler/language/facts.hpp"

namespace ferrule {
namespace {

namespace d = dimension;

FactSpec quantity(std::string name, Dimension dimension, std::string text) {
  FactSpec fact;
  fact.name = std::move(name);
  fact.dimension = dimension;
  fact.text = std::move(text);
  return fact;
}

FactSpec between(double low, double high, FactSpec fact) {
  fact.low = low;
  fact.high = high;
  return fact;
}

FactSpec of_kind(std::string name, FactKind kind, std::string text) {
  FactSpec fact;
  fact.name = std::move(name);
  fact.kind = kind;
  fact.text = std::move(text);
  return fact;
}

FactSpec at(FactSpec fact, Dimension second) {
  fact.kind = FactKind::quantity_at;
  fact.at = second;
  fact.at_may_miss = true;
  return fact;
}

FactSpec then(FactSpec fact, std::vector<std::string> words) {
  fact.then = std::move(words);
  return fact;
}

FactSpec several(FactSpec fact) {
  fact.repeats = true;
  return fact;
}

FactSpec one_of(std::string name, std::vector<std::string> choices, std::string text) {
  FactSpec fact = of_kind(std::move(name), FactKind::choice, std::move(text));
  fact.choices = std::move(choices);
  return fact;
}

Definition of(std::string name, std::string term, std::vector<FactSpec> facts) {
  Definition definition;
  definition.name = std::move(name);
  definition.term = std::move(term);
  definition.facts = std::move(facts);
  return definition;
}

}  // namespace

const Definition& circuit_facts() {
  static const Definition facts = of(
      "circuit", "the circuit as a whole",
      {quantity("ambient", d::temperature, "mean temperature around the machine"),
       quantity("hottest-ambient", d::temperature, "highest temperature around the machine"),
       quantity("coldest-start", d::temperature, "lowest temperature at which the machine is started"),
       quantity("altitude", d::length, "height above the sea"),
       one_of("profile", {"industrial", "mobile", "teaching"}, "shifts severities, never limits"),
       of_kind("lockable-isolation", FactKind::flag, "the drive can be locked off"),
       several(of_kind("aim", FactKind::text, "learning aim of a lesson; may be said several times")),
       of_kind("author", FactKind::text, "who wrote it")});
  return facts;
}

const Definition& fluid_facts() {
  static const Definition facts = of(
      "fluid", "the oil",
      {of_kind("grade", FactKind::text, "ISO VG grade (ISO 3448)"), quantity("index", d::none, "viscosity index (ISO 2909)"),
       quantity("temperature", d::temperature, "working temperature of the oil"),
       between(1e-7, 1, at(quantity("viscosity", d::kinematic_viscosity, "kinematic viscosity, at the working or a stated temperature"), d::temperature)),
       between(100, 20e3, at(quantity("density", d::density, "density, at the working or a stated temperature"), d::temperature)),
       of_kind("cleanliness", FactKind::text, "cleanliness class (ISO 4406)")});
  return facts;
}

const Definition& tie_facts() {
  static const Definition facts =
      of("tie", "actuators that move one load",
         {then(quantity("load", d::force, "load on all of them, with its sense"), {"pushing in", "pulling out"}),
          quantity("mass", d::mass, "mass that they move")});
  return facts;
}

}  // namespace ferrule
