#include "compiler/figures/book.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "compiler/figures/climate.hpp"
#include "compiler/figures/laws.hpp"
#include "compiler/figures/totals.hpp"

namespace ferrule::working {
namespace {

const State& no_step() {
  static const State state;
  return state;
}

std::vector<hydraulics::MovingBody> all_bodies(const Circuit& circuit) {
  hydraulics::Reading reading(circuit, no_step());
  return hydraulics::bodies_of(reading);
}

// One actuator held still (it presses against a stop) or let go; all others go on as before.
State with_motion(const State& state, const std::vector<hydraulics::MovingBody>& bodies, const hydraulics::MovingBody& held, Motion::Kind how,
                  Quantity load = {}) {
  State out = state;
  const auto put = [&](const hydraulics::MovingBody& body, Motion::Kind kind) {
    Motion motion;
    motion.kind = kind, motion.actuator = body.part, motion.tie = body.tie;
    out.motions.push_back(motion);
  };
  if (out.motions.empty())
    for (const auto& body : bodies)
      if (&body != &held) put(body, Motion::Kind::extends);
  std::erase_if(out.motions, [&](const Motion& m) { return m.actuator == held.part || (held.tie >= 0 && m.tie == held.tie); });
  put(held, how);
  if (load.si > 0) out.motions.back().load = {load, Load::Sense::against};
  return out;
}

struct KindOf {
  Kind kind;
  std::uint32_t element;
};

// What a part is to people, by the most telling of its elements.
std::optional<KindOf> kind_of(const Circuit& circuit, std::span<const std::uint32_t> elements, const std::vector<const hydraulics::MovingBody*>& body) {
  std::optional<KindOf> valve;
  for (std::uint32_t i : elements) {
    const Element& e = circuit.elements.rows[i];
    if (e.kind == ElementKind::pipe) return KindOf{Kind::line, i};
    if (e.kind == ElementKind::displacement) return KindOf{body[i] ? Kind::motor : Kind::pump, i};
    if (e.kind == ElementKind::piston && body[i]) return KindOf{Kind::cylinder, i};
    if (e.kind == ElementKind::gas_volume) return KindOf{Kind::store, i};
    const bool passes = e.ends.size() > 1 && e.kind != ElementKind::reservoir && e.kind != ElementKind::passage && e.kind != ElementKind::dead_end;
    if (passes && !valve) valve = KindOf{Kind::valve, i};
  }
  return valve;
}

// `0Z4.pressure`: what passes no oil stands for the pressure it feels.
std::optional<Subject> felt_by(const Circuit& circuit, Subject subject) {
  const Part& part = circuit.parts[subject.part];
  if (part.port_count == 0) return std::nullopt;
  subject.kind = Kind::port, subject.port = PortId{part.first_port};
  return subject;
}

constexpr LineFunction functions[] = {LineFunction::pressure, LineFunction::working, LineFunction::return_,
                                      LineFunction::suction,  LineFunction::drain,   LineFunction::pilot};

}  // namespace

struct Book::Kept {
  std::map<std::size_t, std::unique_ptr<Moment>> moments;
  std::map<std::tuple<std::size_t, std::size_t, Motion::Kind>, std::unique_ptr<OperatingPoint>> moving;
  std::unique_ptr<Solver> solver;
  std::optional<CycleTotal> cycle;
  std::optional<Climate> climate;
  std::vector<const hydraulics::MovingBody*> body_of;  // by element

  OperatingPoint solved(const Book& book, const State& state) {
    if (!solver) solver = std::make_unique<Solver>(book.circuit);
    return solver->at(state);
  }
};

Book::Book(const Circuit& of, std::span<const State> in, const Points& points)
    : circuit(of), states(in), points_(points), bodies_(all_bodies(of)), elements_(of.parts.size()), kept_(new Kept) {
  for (std::uint32_t i = 0; i < of.elements.size(); ++i) elements_[of.elements.rows[i].part.index].push_back(i);
  kept_->body_of.resize(of.elements.size());
  for (const auto& body : bodies_)
    for (ElementId id : body.elements) kept_->body_of[id.index] = &body;
}
Book::~Book() = default;

const Moment& Book::moment(std::size_t state) const {
  auto& kept = kept_->moments[state];
  if (!kept) kept = std::make_unique<Moment>(circuit, states[state], points_[state], bodies_);
  return *kept;
}

const OperatingPoint& Book::held(std::size_t state, const hydraulics::MovingBody& body) const {
  auto& kept = kept_->moving[{state, static_cast<std::size_t>(&body - bodies_.data()), Motion::Kind::presses}];
  if (!kept) kept = std::make_unique<OperatingPoint>(kept_->solved(*this, with_motion(states[state], bodies_, body, Motion::Kind::presses)));
  return *kept;
}

namespace {

// More than all its pressures could bring up.
double beyond(const hydraulics::MovingBody& body, const OperatingPoint& held) {
  double sum = 0;
  for (std::size_t i = 0; i < body.chambers.size(); ++i) {
    const double p = held.pressure[body.chambers[i].index];
    if (std::isfinite(p)) sum += std::fabs(body.area[i] * body.reference * p);
  }
  return sum;
}

}  // namespace

const OperatingPoint& Book::hardly_moving(std::size_t state, const hydraulics::MovingBody& body, bool outward) const {
  const Motion::Kind how = outward ? Motion::Kind::extends : Motion::Kind::retracts;
  auto& kept = kept_->moving[{state, static_cast<std::size_t>(&body - bodies_.data()), how}];
  if (kept) return *kept;
  const OperatingPoint& still = held(state, body);
  double moves = 0, stalls = beyond(body, still);
  kept = std::make_unique<OperatingPoint>(still);
  for (int halving = 0; halving < 20 && stalls > 0; ++halving) {
    const double load = 0.5 * (moves + stalls);
    OperatingPoint point = kept_->solved(*this, with_motion(states[state], bodies_, body, how, {load, body.turns ? dimension::torque : dimension::force}));
    const bool goes = point.settled && !stands_still(body, point.speed[body.elements.front().index]);
    (goes ? moves : stalls) = load;
    if (goes) *kept = std::move(point);
  }
  return *kept;
}

std::vector<std::size_t> Book::told() const {
  std::vector<std::size_t> out;
  std::vector<bool> step_seen(circuit.work.steps.size(), false);
  for (std::size_t i = 0; i < states.size(); ++i) {
    const State& state = states[i];
    if (state.state_class == StateClass::late || state.state_class == StateClass::stop) continue;
    if (state.step && step_seen[state.step.index]) continue;
    if (state.step) step_seen[state.step.index] = true;
    out.push_back(i);
  }
  return out;
}

std::optional<std::size_t> Book::state_of(StepId step) const {
  for (std::size_t i : told())
    if (states[i].step == step) return i;
  return std::nullopt;
}

std::optional<std::size_t> Book::state_named(std::string_view name) const {
  for (std::size_t i : told()) {
    if (states[i].name == name) return i;
    if (states[i].step && circuit.work.steps[states[i].step].name == name) return i;
  }
  return std::nullopt;
}

const CycleTotal& Book::cycle() const {
  if (!kept_->cycle) kept_->cycle = totals_of(*this);
  return *kept_->cycle;
}

const Climate& Book::climate() const {
  if (!kept_->climate) kept_->climate = climate_of(*this);
  return *kept_->climate;
}

std::span<const std::uint32_t> Book::elements_of(PartId part) const { return elements_[part.index]; }

std::optional<Subject> Book::subject(std::string_view where, std::string_view what) const {
  Subject subject;
  subject.where = where;
  if (where == "cycle" || where == "oil") {
    subject.kind = where == "oil" ? Kind::oil : Kind::cycle;
    return subject;
  }
  if (const PartId part = circuit.part_named(where)) {
    subject.part = part;
    const Definition* definition = circuit.parts[part].definition;
    if (definition && definition->role("prime-mover")) return subject.kind = Kind::drive, subject;
    const auto kind = kind_of(circuit, elements_of(part), kept_->body_of);
    if (!kind) return felt_by(circuit, std::move(subject));
    subject.kind = kind->kind, subject.element = ElementId{kind->element}, subject.body = kept_->body_of[kind->element];
    return subject;
  }
  for (const auto& body : bodies_)
    if (body.tie >= 0 && circuit.tie_names[static_cast<std::size_t>(body.tie)] == where) {
      subject.kind = body.turns ? Kind::motor : Kind::cylinder, subject.part = body.part, subject.element = body.elements.front(), subject.body = &body;
      return subject;
    }
  const auto steps_words = words_for(Kind::step);
  const bool fits_a_step = what.empty() || std::find(steps_words.begin(), steps_words.end(), what) != steps_words.end();
  for (const Step& step : circuit.work.steps)
    if (step.name == where && fits_a_step) return subject.kind = Kind::step, subject.step = circuit.work.steps.id_of(step), subject;
  for (LineFunction function : functions)
    if (word_of(function) == where) return subject.kind = Kind::function, subject.function = function, subject;
  const std::size_t dot = where.rfind('.');
  const PartId part = dot == where.npos ? PartId{} : circuit.part_named(where.substr(0, dot));
  const PortId port = part ? circuit.port_of(part, where.substr(dot + 1)) : PortId{};
  if (!port) return std::nullopt;
  subject.kind = Kind::port, subject.part = part, subject.port = port;
  return subject;
}

std::vector<Subject> Book::subjects() const {
  std::vector<Subject> out;
  for (const Part& part : circuit.parts)
    if (auto one = subject(part.tag)) out.push_back(std::move(*one));
  return out;
}

std::vector<std::string_view> Book::words_for(Kind kind) const {
  std::vector<std::string_view> out;
  for (const Answer& answer : answers())
    if (answer.kind == kind) out.push_back(answer.what);
  return out;
}

namespace {

std::string no_law(const Book& book, const Subject& subject, std::string_view what) {
  std::string words;
  for (std::string_view word : book.words_for(subject.kind)) words += (words.empty() ? "" : ", ") + std::string(word);
  return fmt::format("{} has no {}: it has {}", subject.where, what, words);
}

void put_reason(Worked& worked, std::string_view what, std::string why) {
  Value value;
  value.symbol = std::string(what), value.meaning = std::string(what), value.why_none = std::move(why);
  worked.values.push_back(std::move(value));
}

}  // namespace

Worked Book::result(const Subject& subject, std::string_view what, std::size_t state) const {
  Worked worked;
  worked.address = address_of(subject, what);
  worked.what = what;
  const bool of_state = subject.kind != Kind::cycle && subject.kind != Kind::oil && subject.kind != Kind::step;
  if (of_state && state < states.size()) worked.state = states[state].name;
  const auto answer = std::find_if(answers().begin(), answers().end(), [&](const Answer& a) { return a.kind == subject.kind && a.what == what; });
  if (answer == answers().end()) {
    put_reason(worked, what, no_law(*this, subject, what));
  } else if (of_state && !point(state).settled) {
    std::string names;
    for (const std::string& name : point(state).alternating) names += (names.empty() ? "" : ", ") + name;
    const bool told = names.empty() && !point(state).notes.empty();
    put_reason(worked, what, told ? point(state).notes.front() : "the state does not settle" + (names.empty() ? "" : ": " + names + " alternate"));
  } else {
    const Asked asked{*this, subject, state, worked};
    work_out(asked, answer->symbol);
    if (of_state) worked.notes.insert(worked.notes.end(), point(state).notes.begin(), point(state).notes.end());
  }
  return worked;
}

std::string address_of(const Subject& subject, std::string_view what) { return subject.where + "." + std::string(what); }

bool is_joined(const Circuit& circuit, const Node& node) {
  return !node.inner_of && std::any_of(node.ports.begin(), node.ports.end(), [&](PortId port) { return circuit.ports[port].end == Port::End::joined; });
}

std::string place_of(const Circuit& circuit, PartId id) {
  const Part& part = circuit.parts[id];
  const auto bore = part.si("bore");
  if (!part.definition || !part.definition->role("line") || !bore) return part.tag;
  const auto outside = part.si("outside"), wall = part.si("wall"), dn = part.si("dn");
  if (outside && wall) return fmt::format("{} ({} {:g} x {:g} mm)", part.tag, part.definition->name, *outside * 1000, *wall * 1000);
  if (dn) return fmt::format("{} ({} DN {:g})", part.tag, part.definition->name, *dn);
  return fmt::format("{} ({} {:g} mm)", part.tag, part.definition->name, *bore * 1000);
}

}  // namespace ferrule::working
