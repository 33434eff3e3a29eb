#include "compiler/hydraulics/motions.hpp"

#include "compiler/hydraulics/units.hpp"

namespace ferrule::hydraulics {
namespace {

constexpr double least_friction = 1e-3;  // bar: keeps "moves out" and "moves in" apart (numerical)

const Motion* stated_motion(const State& state, const MovingBody& body) {
  for (const Motion& motion : state.motions)
    if (motion.actuator == body.part || (body.tie >= 0 && motion.tie == body.tie)) return &motion;
  return nullptr;
}

}  // namespace

std::optional<Body> motion_of(const State& state, const MovingBody& body) {
  if (!(body.reference > 0)) return std::nullopt;
  const Motion* motion = stated_motion(state, body);
  Resistances load = body.load;
  if (motion && motion->load.force) load = resisting(motion->load.force->si, motion->load.sense);
  const bool work = state.motions.empty() && (state.state_class == StateClass::work || state.state_class == StateClass::late);
  const bool moves = body.by_itself || (motion ? motion->moves() : work);
  const bool at_work = motion && motion->kind == Motion::Kind::presses;
  if (!moves && (at_work || !load.keeps_its_sense)) return std::nullopt;
  // Of a spring's two forces the one at the end of the motion decides whether it gets there.
  const bool retracts = motion && motion->kind == Motion::Kind::retracts;
  const double spring = retracts ? body.spring_retracted : body.spring_extended;
  const double unit = body.reference * bar;
  Body law;
  law.area = body.area;
  law.load_out = (load.out + spring) / unit;
  law.load_in = (load.in + spring) / unit;
  law.friction = (moves ? body.friction / unit : 0) + least_friction;
  law.efficiency = moves ? body.efficiency : 1;
  return law;
}

}  // namespace ferrule::hydraulics
