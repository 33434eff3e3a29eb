// What the readers of the work share: who a word means, and the shapes of commands, motions and conditions.
#pragma once

#include <map>
#include <optional>
#include <set>

#include "compiler/language/reading.hpp"

namespace ferrule {

// Whom a command, motion or condition is about.
struct Subject {
  enum class Kind : std::uint8_t { unknown, part, solenoid, tie } kind = Kind::unknown;
  PartId part;           // the valve of a solenoid, the first of a tie
  int position = -1;     // that the solenoid brings
  int tie = -1;
  std::string name;
  Span span;
};

struct WorkReading {
  struct Solenoid { std::string tag; PartId valve; int position; };

  Reading& reading;
  Circuit& circuit;
  std::vector<Solenoid> solenoids = {};  // in the order of the text
  std::map<std::string, std::size_t, std::less<>> solenoid_named = {};  // the first of that tag
  std::set<std::string> told = {};       // unknown names, told once each
  std::map<std::string, StepId, std::less<>> step_named = {};

  const Part& part(const Subject& subject) const { return circuit.parts[subject.part]; }
};

WorkReading work_reading(Reading& reading, Circuit& circuit);

// The subject a word names; an unknown one is told, with what it may have meant.
Subject subject_named(WorkReading& work, std::string_view name, Span span);
// Takes a word (or number) and resolves it; kind unknown when none stands there (told) or it is unknown (told).
Subject take_subject(WorkReading& work, Cursor& cursor, std::string_view after);

// A part whose kind was not found: that was told, and what it can do is unknown.
bool is_unknown_kind(const WorkReading& work, const Subject& subject);
bool is_drive(const Part& part);                                 // role prime-mover
bool is_actuator(const Circuit& circuit, PartId part);           // has a piston or turns
bool turns(const Circuit& circuit, PartId part);                 // a motor: loads are torques, travel is turns
std::vector<std::string> step_names(const Circuit& circuit);
bool is_step(const Circuit& circuit, std::string_view name);
// The text has faults and not one step: its cycle was lost with them, and nothing more is to be said of steps.
bool steps_are_lost(const WorkReading& work);

// `on`, `lever a at 38 L/min`, `at 40 %`, `gas 140 bar`, `stopped`: what may follow a subject in a step or a rule.
bool is_command_word(const WorkReading& work, const Subject& subject, const Cursor& cursor);
std::optional<Command> read_command(WorkReading& work, Cursor& cursor, const Subject& subject);
std::vector<std::string> command_words();
// The position of a valve with this name, or -1 (told).
int position_named(WorkReading& work, const Part& valve, std::string_view name, Span span);

// `extends 380 mm against 25 kN`, `turns A>B 12 turns`, `stands retracted`, `held by BR1`, `still`.
bool is_motion_word(std::string_view word);
std::optional<Motion> read_motion(WorkReading& work, Cursor& cursor, const Subject& subject);
std::vector<std::string> motion_words();

// `1Y1 and PS1 closed or "start pressed"`; ends where no `and`, `or` follows.
std::vector<std::vector<ControlRule::Term>> read_condition(WorkReading& work, Cursor& cursor, std::string_view after);
std::optional<ControlRule::Term> read_term(WorkReading& work, Cursor& cursor, std::string_view after);

void read_cycle(WorkReading& work, Cursor& cursor);
void read_control(WorkReading& work, Cursor& cursor);
void read_requirement(WorkReading& work, Cursor& cursor);
void read_accept(WorkReading& work, Cursor& cursor);
void read_question(WorkReading& work, Cursor& cursor);

// `1A1.speed`, `up-1.time + up-2.time`: segments, sums joined by "+". `unit` and `other` are the dimensions the result may
// have. None when it was told that something is unknown.
struct Address {
  std::vector<std::string> segments;
  Dimension unit, other;
};
std::optional<Address> read_address(WorkReading& work, Cursor& cursor, std::string_view after);
// A value that fits the address; another dimension is told.
std::optional<Quantity> read_result_value(WorkReading& work, Cursor& cursor, const Address& address);

}  // namespace ferrule
