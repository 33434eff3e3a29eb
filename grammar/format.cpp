#include "grammar/format.hpp"

#include <algorithm>

#include "grammar/lines.hpp"
#include "grammar/parse.hpp"

namespace ferrule {
namespace {

void write(std::string& out, const SetLine& line) {
  if (line.untouched) {
    out += line.source;
  } else {
    std::size_t column = 0;
    for (const Piece& piece : line.pieces) {
      out.append(piece.column - column, ' ');
      out += piece.text;
      column = piece.column;
      for (char c : piece.text) column += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }
  }
  out += '\n';
}

bool is_blank(const SetLine& line) { return line.pieces.empty() && !line.untouched; }

// At most one blank line in a row, none at either end.
std::string written(const std::vector<SetLine>& lines) {
  std::string out;
  bool blank_owed = false;
  for (const SetLine& line : lines) {
    if (is_blank(line)) {
      blank_owed = !out.empty();
      continue;
    }
    if (blank_owed) out += '\n';
    blank_owed = false;
    write(out, line);
  }
  return out;
}

bool braces_work_out(const std::vector<Token>& tokens) {
  int depth = 0;
  for (const Token& token : tokens) {
    depth += (token.kind == TokenKind::opening_brace) - (token.kind == TokenKind::closing_brace);
    if (depth < 0) return false;
  }
  return depth == 0;
}

// With a brace missing the indentation is the only witness of what was meant, so nothing may touch it.
std::string laid_out(const Source& source, const Tree& tree) {
  const std::vector<Token> tokens = tokens_of(source.text);
  std::vector<SetLine> lines = lines_of(source, tree, tokens);
  if (!braces_work_out(tokens))
    for (SetLine& line : lines) line.untouched = true;
  set_columns(lines);
  return written(lines);
}

// What must not change: every token and remark, their order, and on which line they stand. A number that is written with
// blanks inside, `1 1/4`, is one token and keeps them.
std::vector<std::pair<TokenKind, std::string_view>> substance(std::string_view text) {
  std::vector<std::pair<TokenKind, std::string_view>> kept;
  for (const Token& token : tokens_of(text)) {
    const bool line_end = token.kind == TokenKind::line_end;
    if (line_end && (kept.empty() || kept.back().first == TokenKind::line_end)) continue;
    kept.emplace_back(token.kind, line_end ? std::string_view() : text.substr(token.begin, token.end - token.begin));
  }
  return kept;
}

std::string laid_out_again(const std::string& text) {
  Sources sources;
  const Parsed parsed = parse(sources, sources.add("", text));
  return laid_out(sources[0], parsed.tree);
}

}  // namespace

std::optional<std::string> formatted(const Source& source, const Tree& tree) {
  std::string text = laid_out(source, tree);
  if (substance(text) != substance(source.text) || laid_out_again(text) != text) return std::nullopt;
  return text;
}

}  // namespace ferrule
