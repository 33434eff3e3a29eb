// What an actuator does in a step: `1A1 extends 380 mm against 25 kN`, `HM1 turns A>B 12 turns`, `1A1 held by BR1`.
#include <algorithm>

#include <fmt/format.h>

#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"
#include "compiler/language/work_reading.hpp"

namespace ferrule {
namespace {

using Kind = Motion::Kind;
using Sense = Load::Sense;

constexpr std::string_view words[] = {"extends", "retracts", "turns", "presses", "stands", "held", "still"};

// `A>B`, `B>A`
std::optional<bool> take_turning_sense(Cursor& cursor) {
  for (const bool ab : {true, false})
    if (cursor.at_word(ab ? "A" : "B") && cursor.at_sign(">", 1) && cursor.at_word(ab ? "B" : "A", 2)) {
      for (int term = 0; term < 3; ++term) cursor.take();
      return ab;
    }
  return {};
}

Dimension load_of(const WorkReading& work, const Subject& subject) {
  return turns(work.circuit, subject.part) ? dimension::torque : dimension::force;
}

// `with 42 kN pushing in`: the sense stays whatever moves.
void read_lasting_sense(WorkReading& work, Cursor& cursor, Motion& motion) {
  if (cursor.take_word("pushing")) {
    cursor.take_word("in");
    motion.load.sense = Sense::pushing_in;
  } else if (cursor.take_word("pulling")) {
    cursor.take_word("out");
    motion.load.sense = Sense::pulling_out;
  } else if (cursor.take_word("turning")) {
    const auto ab = take_turning_sense(cursor);
    motion.load.sense = ab.value_or(true) ? Sense::turning_ab : Sense::turning_ba;
  } else {
    work.reading.report(fault::word_expected, cursor.here(), "a load `with` which the actuator moves needs the sense in which it acts",
                        "write `pushing in`, `pulling out` or `turning A>B`");
    cursor.skip_all();
  }
}

// What of the actuator makes a load that turns with the motion senseless; null when nothing does.
const FactValue* lasting_load(const WorkReading& work, const Subject& subject) {
  std::vector<PartId> parts{subject.part};
  if (subject.tie >= 0) {
    parts = work.circuit.ties[subject.tie];
    for (const FactValue& fact : work.circuit.tie_facts[subject.tie])
      if (fact.name == "load" || fact.name == "mass") return &fact;
  }
  for (PartId part : parts)
    for (std::string_view name : {"load", "mass", "vertical", "inclined", "angle"})
      if (const FactValue* fact = work.circuit.parts[part].fact(name)) return fact;
  return nullptr;
}

void check_sense(WorkReading& work, const Subject& subject, Span span) {
  const FactValue* fact = lasting_load(work, subject);
  // The habit of an author is one slip, in however many steps.
  if (!fact || !work.told.insert("against " + subject.name).second) return;
  Message& message = work.reading.report(
      fault::load_without_sense, span,
      fmt::format("a load `against` the motion turns round with it, but the `{}` of {} acts always in one sense", fact->name, subject.name),
      turns(work.circuit, subject.part)
          ? "write `with ... turning A>B` or `turning B>A`, the whole load on the shaft"
          : "write `with ... pushing in` or `with ... pulling out`, the whole load on the rod");
  if (!fact->span.empty()) message.places.push_back({fact->span, "stated here"});
}

void read_load(WorkReading& work, Cursor& cursor, const Subject& subject, Motion& motion) {
  const std::size_t mark = cursor.mark();
  const bool against = cursor.take().text == "against";
  motion.load.force = read_quantity(work.reading, cursor, load_of(work, subject), fmt::format("the load on {}", subject.name));
  if (!motion.load.force) return;
  if (!against) return read_lasting_sense(work, cursor, motion);
  motion.load.sense = Sense::against;
  check_sense(work, subject, cursor.since(mark));
}

void read_holder(WorkReading& work, Cursor& cursor, Motion& motion) {
  const Subject holder = take_subject(work, cursor, "`by`");
  if (holder.kind != Subject::Kind::unknown) motion.held_by = holder.name;
}

void read_stage(WorkReading& work, Cursor& cursor, Motion& motion) {
  cursor.take_word("stage");
  const auto stage = read_quantity(work.reading, cursor, dimension::none, "the stage");
  if (stage) motion.stage = static_cast<int>(stage->si);
}

void read_clauses(WorkReading& work, Cursor& cursor, const Subject& subject, Motion& motion) {
  while (!cursor.done()) {
    if (cursor.at_word("against") || cursor.at_word("with"))
      read_load(work, cursor, subject, motion);
    else if (cursor.take_word("by"))
      read_holder(work, cursor, motion);
    else if (cursor.take_word("on"))
      read_stage(work, cursor, motion);
    else if (cursor.take_word("for"))
      motion.lasts = read_quantity(work.reading, cursor, dimension::time, "how long it lasts");
    else
      return;
  }
}

void read_travel(WorkReading& work, Cursor& cursor, Dimension dimension, Motion& motion) {
  const bool value = cursor.at(TermKind::number) || cursor.at_sign("(") || cursor.at_sign("-") ||
                     (cursor.at(TermKind::word) && !cursor.at_word("against") && !cursor.at_word("with") && !cursor.at_word("on") &&
                      !cursor.at_word("for") && !cursor.at_word("by") && !cursor.at_word("until"));
  if (value) motion.travel = read_quantity(work.reading, cursor, dimension, "the travel");
}

// The shortest way of all that the subject moves; null when no part says one.
const FactValue* shortest_way(const WorkReading& work, const Subject& subject) {
  const std::string_view name = turns(work.circuit, subject.part) ? "swing" : "stroke";
  const FactValue* shortest = nullptr;
  for (const PartId part : subject.tie >= 0 ? work.circuit.ties[subject.tie] : std::vector<PartId>{subject.part}) {
    const FactValue* way = work.circuit.parts[part].fact(name);
    if (way && !way->numbers.empty() && (!shortest || way->numbers[0].si < shortest->numbers[0].si)) shortest = way;
  }
  return shortest;
}

void check_travel(WorkReading& work, const Subject& subject, const Motion& motion, Span at) {
  constexpr double rounding = 1e-6;  // 400 mm typed as 15.748 in
  const FactValue* way = motion.travel ? shortest_way(work, subject) : nullptr;
  if (!way || motion.travel->si <= way->numbers[0].si * (1 + rounding)) return;
  Message& message = work.reading.report(fault::travel_beyond_stroke, at,
                                         fmt::format("{} cannot move {}: its {} is {}", subject.name, shown(*motion.travel), way->name, shown(way->numbers[0])),
                                         fmt::format("write {} or less", shown(way->numbers[0])));
  message.subject = subject.name;
  if (!way->span.empty()) message.places.push_back({way->span, "its " + way->name});
}

// `stands retracted`, `stands extended`, `stands at its stop`, `stands at 200 mm`
void read_place(WorkReading& work, Cursor& cursor, Motion& motion) {
  for (std::string_view place : {"retracted", "extended"})
    if (cursor.take_word(place)) motion.where = place;
  if (!cursor.take_word("at")) return;
  if (cursor.take_word("its") && cursor.take_word("stop"))
    motion.where = "at its stop";
  else
    read_travel(work, cursor, dimension::length, motion);
}

void read_turning(WorkReading& work, Cursor& cursor, Motion& motion) {
  const auto ab = take_turning_sense(cursor);
  if (!ab) {
    work.reading.report(fault::word_expected, cursor.here(), "`turns` needs the sense of the oil through the motor",
                        "write `turns A>B` or `turns B>A`");
    cursor.skip_all();
    return;
  }
  motion.kind = *ab ? Kind::turns_ab : Kind::turns_ba;
  read_travel(work, cursor, dimension::angle, motion);
}

bool does_same(const Motion& motion, const Subject& subject) {
  return subject.tie >= 0 ? motion.tie == subject.tie : motion.tie < 0 && motion.actuator == subject.part;
}

// What the steps before said last of this actuator.
std::optional<Motion> repeated(WorkReading& work, const Subject& subject) {
  const auto& steps = work.circuit.work.steps.rows;
  for (auto step = steps.rbegin(); step != steps.rend(); ++step)
    for (const Motion& motion : step->motions)
      if (does_same(motion, subject)) return motion;
  work.reading.report(fault::cannot_do, subject.span,
                      fmt::format("no step before says what {} does, so `still` repeats nothing", subject.name),
                      "say it in full");
  return {};
}

// A cylinder does not turn and a motor does not extend.
bool can_do(WorkReading& work, const Subject& subject, std::string_view word) {
  if (is_unknown_kind(work, subject)) return false;
  if (!is_actuator(work.circuit, subject.part)) {
    work.reading.report(fault::cannot_do, subject.span, fmt::format("{} is no actuator: it moves nothing", subject.name),
                        "name a cylinder or a motor").places.push_back({work.part(subject).span, "declared here"});
    return false;
  }
  const bool motor = turns(work.circuit, subject.part);
  const bool fits = word == "turns" ? motor : (word != "extends" && word != "retracts") || !motor;
  if (!fits)
    work.reading.report(fault::cannot_do, subject.span,
                        motor ? fmt::format("{} is a motor: it turns", subject.name)
                              : fmt::format("{} has a rod: it extends or retracts", subject.name),
                        motor ? "write `turns A>B` or `turns B>A`" : "write `extends` or `retracts`");
  return fits;
}

void read_kind(WorkReading& work, Cursor& cursor, std::string_view word, Motion& motion) {
  if (word == "turns") return read_turning(work, cursor, motion);
  motion.kind = word == "extends"    ? Kind::extends
                : word == "retracts" ? Kind::retracts
                : word == "presses"  ? Kind::presses
                : word == "held"     ? Kind::held
                                     : Kind::stands;
  if (motion.kind == Kind::extends || motion.kind == Kind::retracts) read_travel(work, cursor, dimension::length, motion);
  if (motion.kind == Kind::stands) read_place(work, cursor, motion);
}

}  // namespace

std::vector<std::string> motion_words() { return {std::begin(words), std::end(words)}; }

bool is_motion_word(std::string_view word) { return std::find(std::begin(words), std::end(words), word) != std::end(words); }

std::optional<Motion> read_motion(WorkReading& work, Cursor& cursor, const Subject& subject) {
  const std::size_t mark = cursor.mark();
  const std::string_view word = cursor.take().text;
  if (subject.kind == Subject::Kind::unknown || !can_do(work, subject, word)) {
    cursor.skip_all();
    return {};
  }
  Motion motion;
  if (word == "still") {
    const auto before = repeated(work, subject);
    if (!before) return {};
    motion = *before;
  } else {
    motion.actuator = subject.part;
    motion.tie = subject.tie;
    const std::size_t before = cursor.mark();
    read_kind(work, cursor, word, motion);
    check_travel(work, subject, motion, cursor.since(before));
  }
  read_clauses(work, cursor, subject, motion);
  motion.span = joined(subject.span, cursor.since(mark));
  return motion;
}

}  // namespace ferrule
