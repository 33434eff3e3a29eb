// Columns of a text that is being formatted.
//
// A piece keeps to the piece exactly above it when the author moved one of the two there with more than one blank. Nothing else is
// aligned: columns that a tool invents make one changed word a change of many lines.
#include <algorithm>

#include "grammar/lines.hpp"

namespace ferrule {
namespace {

constexpr std::uint32_t widest_gap = 6;  // that a column keeps in its longest row

struct Position {
  std::uint32_t column;  // in the source
  std::size_t line, piece;
};

std::uint32_t width_of(const Piece& piece) {
  return static_cast<std::uint32_t>(
      std::count_if(piece.text.begin(), piece.text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

bool has_columns(const SetLine& line) { return !line.untouched && line.pieces.size() > 1; }

bool keep_together(const SetLine& above, const SetLine& below) {
  return has_columns(above) && has_columns(below) && above.indent == below.indent;
}

// A word may stand under a number, but a word under a colon stands there by chance.
bool alike(TokenKind a, TokenKind b) {
  const auto says_something = [](TokenKind kind) {
    return kind == TokenKind::word || kind == TokenKind::number || kind == TokenKind::text || kind == TokenKind::date;
  };
  return a == b || (says_something(a) && says_something(b));
}

class Group {
 public:
  Group(std::vector<SetLine>& lines, std::size_t first, std::size_t end) : lines_(lines), first_(first), end_(end) {}

  // From left to right: what stands left of a piece has a smaller column in the source too, so it is placed before.
  void set() {
    std::vector<Position> positions;
    for (std::size_t line = first_; line < end_; ++line)
      for (std::size_t piece = 0; piece < lines_[line].pieces.size(); ++piece)
        positions.push_back({lines_[line].pieces[piece].source_column, line, piece});
    std::sort(positions.begin(), positions.end(), [](const Position& a, const Position& b) {
      return a.column != b.column ? a.column < b.column : a.line < b.line;
    });
    for (std::size_t begin = 0; begin < positions.size();) {
      std::size_t end = begin + 1;
      while (end < positions.size() && aligned(positions[end - 1], positions[end])) ++end;
      place(positions.data() + begin, positions.data() + end);
      begin = end;
    }
  }

 private:
  Piece& at(const Position& position) { return lines_[position.line].pieces[position.piece]; }

  bool aligned(const Position& above, const Position& below) {
    if (above.column != below.column || above.line + 1 != below.line || above.piece == 0 || below.piece == 0) return false;
    const Piece &a = at(above), &b = at(below);
    return alike(a.kind, b.kind) && !a.glued && !b.glued && std::max(a.blanks, b.blanks) > 1;
  }

  void place(const Position* begin, const Position* end) {
    std::uint32_t gap = widest_gap, column = 0;
    for (const Position* p = begin; p != end; ++p) gap = std::min(gap, std::max(at(*p).blanks, at(*p).least_gap));
    for (const Position* p = begin; p != end; ++p) column = std::max(column, nearest_column(*p, end - begin > 1 ? gap : 0));
    for (const Position* p = begin; p != end; ++p) at(*p).column = column;
  }

  std::uint32_t nearest_column(const Position& position, std::uint32_t gap) {
    SetLine& line = lines_[position.line];
    if (position.piece == 0) return line.indent;
    const Piece& before = line.pieces[position.piece - 1];
    return before.column + width_of(before) + std::max(gap, at(position).least_gap);
  }

  std::vector<SetLine>& lines_;
  std::size_t first_, end_;
};

}  // namespace

void set_columns(std::vector<SetLine>& lines) {
  for (std::size_t first = 0; first < lines.size();) {
    std::size_t end = first + 1;
    while (end < lines.size() && keep_together(lines[end - 1], lines[end])) ++end;
    if (!lines[first].untouched) Group(lines, first, end).set();
    first = end;
  }
}

}  // namespace ferrule
