#include "compiler/language/rows.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

using Kind = RowPath::Kind;

struct PathSign {
  std::string_view sign;
  Kind kind;
};
constexpr PathSign path_signs[] = {{">", Kind::arrow}, {"<>", Kind::both}, {"|>", Kind::one_way}, {"~", Kind::restricted}, {"-", Kind::joined}};

const PathSign* sign_at(const Cursor& cursor, std::size_t ahead) {
  for (const PathSign& sign : path_signs)
    if (cursor.at_sign(sign.sign, ahead)) return &sign;
  return nullptr;
}

bool at_port(const Cursor& cursor, std::size_t ahead) {
  return (cursor.at(TermKind::word, ahead) || cursor.at(TermKind::number, ahead)) && is_port_name(cursor.peek(ahead).text);
}

// `P-T` and `P-A-T` are one word, because a hyphen binds; between numbers it is a sign or part of the number.
std::vector<std::string> split_at_hyphens(std::string_view word) {
  std::vector<std::string> ports;
  for (std::size_t begin = 0; begin <= word.size();) {
    const std::size_t end = std::min(word.find('-', begin), word.size());
    ports.emplace_back(word.substr(begin, end - begin));
    begin = end + 1;
  }
  return ports;
}

// `1-2` reaches us as the numbers 1 and -2.
bool at_negative_number(const Cursor& cursor) {
  return cursor.at(TermKind::number) && cursor.peek().text.starts_with('-') && !cursor.peek().space_before;
}

void take_joined(Cursor& cursor, RowPath& path) {
  while (true) {
    if (at_negative_number(cursor)) path.ports.emplace_back(cursor.take().text.substr(1));
    else if (cursor.at_sign("-") && at_port(cursor, 1)) {
      cursor.take();
      for (std::string& port : split_at_hyphens(cursor.take().text)) path.ports.push_back(std::move(port));
    } else return;
  }
}

void take_means(Reading& reading, Cursor& cursor, Actuation& by) {
  const auto means = want_word(reading, cursor, "`by`", "what shifts the valve", "by solenoid 1Y1");
  if (means) by.means = *means;
}

bool ends_actuation(const Cursor& cursor) {
  static constexpr std::string_view words[] = {"by", "and", "ratio", "through", "with", "metered", "closed", "regenerative", "rest"};
  return cursor.done() || std::any_of(std::begin(words), std::end(words), [&](std::string_view word) { return cursor.at_word(word); });
}

void take_details(Reading& reading, Cursor& cursor, Actuation& by) {
  while (true) {
    if (cursor.take_word("ratio")) {
      if (const auto ratio = read_quantity(reading, cursor, dimension::none, "`ratio`")) by.ratio = ratio->si;
    } else if (cursor.take_word("through")) {
      by.through = take_name(cursor);
      // `through pilot` and `through pilot X` alike: the stage is a pilot stage.
      if (by.through == "pilot") by.through = "pilot-stage";
    } else if (cursor.take_word("with")) {
      by.with = take_name(cursor);
      if (by.with == "override") by.with = "manual";
    } else return;
  }
}

void report_row_word(Reading& reading, Cursor& cursor) {
  if (!cursor.at(TermKind::broken))
    reading.report(fault::word_expected, cursor.here(), fmt::format("`{}` is no path of a valve", reading.text(cursor.here())),
                   "write paths as `P>A`, `P-T`, `A|>T`, or `closed`, then `by` and what shifts it");
  // What shifts the valve is read all the same, so that its solenoids are declared; a `by` without it was told of with the word.
  while (!cursor.done() && !(cursor.at_word("by") && cursor.at(TermKind::word, 1))) cursor.take();
}

constexpr std::size_t most_paths = 64;

void report_too_many_paths(Reading& reading, Cursor& cursor, Span at) {
  reading.report(fault::too_many_rows, at, "the position has more than 64 paths", "leave the paths from here on out");
  cursor.skip_all();
}

bool take_row_word(Cursor& cursor, PositionRow& row) {
  if (cursor.take_word("closed")) return row.closed = true;
  if (cursor.take_word("regenerative")) return row.regenerative = true;
  if (cursor.take_word("rest")) return row.rest = true;
  if (!row.paths.empty() && cursor.take_word("metered")) return row.paths.back().metered = true;
  return false;
}

}  // namespace

std::optional<RowPath> take_path(Cursor& cursor) {
  if (!at_port(cursor, 0)) return {};
  const std::size_t mark = cursor.mark();
  RowPath path;
  const Term& first = cursor.take();
  if (const PathSign* sign = sign_at(cursor, 0); sign && sign->kind != Kind::joined && at_port(cursor, 1)) {
    cursor.take();
    path.kind = sign->kind;
    path.ports = {std::string(first.text), std::string(cursor.take().text)};
  } else {
    path.ports = split_at_hyphens(first.text);
    take_joined(cursor, path);
  }
  path.span = cursor.since(mark);
  if (path.ports.size() >= 2 && std::all_of(path.ports.begin(), path.ports.end(), is_port_name)) return path;
  cursor.back_to(mark);
  return {};
}

std::string name_of(const RowPath& path) {
  static constexpr std::string_view signs[] = {">", "<>", "-", "|>", "~"};
  std::string name;
  for (const std::string& port : path.ports) name += (name.empty() ? "" : std::string(signs[static_cast<std::size_t>(path.kind)])) + port;
  return name;
}

void read_actuations(Reading& reading, Cursor& cursor, std::vector<Actuation>& into) {
  do {
    Actuation by;
    by.span = cursor.here();
    take_means(reading, cursor, by);
    if (by.means.empty()) return;
    if (!ends_actuation(cursor) && (cursor.at(TermKind::word) || cursor.at(TermKind::number))) by.tag = take_name(cursor);
    take_details(reading, cursor, by);
    into.push_back(std::move(by));
  } while (cursor.take_word("and") || cursor.take_word("by"));
}

std::optional<PositionRow> read_position(Reading& reading, Cursor& cursor) {
  PositionRow row;
  row.span = cursor.whole();
  const auto name = want_name(reading, cursor, "`position`", "the name of the position", "position a P>A B>T by solenoid 1Y1");
  if (!name) return {};
  row.name = *name;
  read_more_of_position(reading, cursor, row);
  return row;
}

void read_more_of_position(Reading& reading, Cursor& cursor, PositionRow& row) {
  while (!cursor.done()) {
    if (take_row_word(cursor, row)) continue;
    if (cursor.take_word("by")) {
      read_actuations(reading, cursor, row.by);
    } else if (auto path = take_path(cursor)) {
      if (row.paths.size() == most_paths) return report_too_many_paths(reading, cursor, path->span);
      row.paths.push_back(std::move(*path));
    } else {
      report_row_word(reading, cursor);
    }
  }
}

void place_row(std::vector<PositionRow>& rows, PositionRow row) {
  const auto same = std::find_if(rows.begin(), rows.end(), [&](const PositionRow& other) { return other.name == row.name; });
  if (same != rows.end()) *same = std::move(row);
  else rows.push_back(std::move(row));
}

}  // namespace ferrule
