#include "compiler/language/valve_facts.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "compiler/language/rows.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

void add_row(Reading& reading, FactsText& into, PositionRow row) {
  constexpr std::size_t most_rows = 64;
  if (into.rows.size() == most_rows) {
    if (!std::exchange(into.rows_left_out, true))
      reading.report(fault::too_many_rows, row.span, "the valve has more than 64 positions", "leave the positions from here on out");
    return;
  }
  const auto same = std::find_if(into.rows.begin(), into.rows.end(), [&](const PositionRow& other) { return other.name == row.name; });
  if (same == into.rows.end()) return into.rows.push_back(std::move(row));
  Message& message = reading.report(fault::position_twice, row.span, fmt::format("position `{}` has two rows", row.name),
                                    "give one of them another name", "again here");
  message.places.push_back({same->span, "first here"});
  // Kept under another name: its solenoids are declared.
  row.name += " (again)";
  into.rows.push_back(std::move(row));
}

// `a P>A B>T by solenoid 1Y1`: a row whose word was forgotten.
bool lacks_position_word(Cursor cursor) {
  if (take_path(cursor)) return false;
  return !take_name(cursor).empty() && take_path(cursor);
}

void read_row(Reading& reading, Cursor& cursor, FactsText& into) {
  const std::size_t before = reading.messages.size();
  if (auto row = read_position(reading, cursor)) add_row(reading, into, std::move(*row));
  into.rows_unclear = into.rows_unclear || reading.messages.size() > before;
}

// `position a P>A, B>T by ...`: the comma ended the row, and what follows is more of it.
bool read_rest_of_row(Reading& reading, Cursor& cursor, FactsText& into) {
  Cursor ahead = cursor;
  if (into.rows.empty() || !take_path(ahead)) return false;
  while (take_path(ahead)) {}
  if (!ahead.done() && !ahead.at_word("by")) return false;
  PositionRow& row = into.rows.back();
  reading.report(fault::words_left_over, cursor.here(), fmt::format("a comma ends the row of position `{}` before this path", row.name),
                 "part paths by blanks, as in `position a P>A B>T by solenoid 1Y1`");
  read_more_of_position(reading, cursor, row);
  return true;
}

}  // namespace

bool read_valve_item(Reading& reading, Cursor& cursor, const FactOwner& owner, FactsText& into) {
  if (owner.rows && cursor.take_word("position")) return read_row(reading, cursor, into), true;
  if (owner.rows && lacks_position_word(cursor)) {
    reading.report(fault::word_expected, cursor.here(), "a row of a valve begins with `position`",
                   fmt::format("write `position {}`", reading.text(cursor.whole())));
    return read_row(reading, cursor, into), true;
  }
  if (owner.rows && read_rest_of_row(reading, cursor, into)) return true;
  if (owner.rows && cursor.at_word("rest") && cursor.left() == 2) {
    cursor.take();
    into.rest_span = cursor.here();
    into.rest = take_name(cursor);
    return true;
  }
  const bool named = (cursor.at(TermKind::word) || cursor.at(TermKind::number)) && cursor.at_word("by", 1);
  if (!named && !(cursor.at_word("by") && !owner.definition.fact("by"))) return false;
  FactsText::Operated operated;
  operated.span = cursor.whole();
  if (named) operated.position = take_name(cursor);
  cursor.take();
  read_actuations(reading, cursor, operated.by);
  used_up(reading, cursor, "what shifts the valve");
  into.operated.push_back(std::move(operated));
  return true;
}

}  // namespace ferrule
