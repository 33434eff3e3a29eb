// The lines of a text as `fmt` sets them: which pieces stand on each, and how far apart.
#pragma once

#include <string_view>
#include <vector>

#include "grammar/tokens.hpp"
#include "grammar/tree.hpp"

namespace ferrule {

struct Piece {
  TokenKind kind = TokenKind::word;
  std::string_view text;
  std::uint32_t source_column = 0;  // code points, as the author wrote it
  std::uint32_t blanks = 0;         // that stood before it
  std::uint32_t least_gap = 1;      // blanks that have to stand before it
  bool glued = false;               // exactly `least_gap`, whatever stands above and below
  std::uint32_t column = 0;         // where it will stand
};

struct SetLine {
  std::string_view source;     // as written, without its end
  bool untouched = false;      // broken, or between `# ferrule: keep` and `# ferrule: end keep`
  std::uint32_t indent = 0;
  std::vector<Piece> pieces;   // none on a blank line
};

// Line for line as in the source. Columns are not set yet.
std::vector<SetLine> lines_of(const Source& source, const Tree& tree, const std::vector<Token>& tokens);

// Sets the columns: one blank between pieces; what the author put exactly under one another stays under one another.
void set_columns(std::vector<SetLine>& lines);

}  // namespace ferrule
