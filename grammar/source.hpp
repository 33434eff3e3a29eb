// The files of a run, and places in them. Everything later points back here by Span.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace ferrule {

// Half-open range of UTF-8 bytes in one file of a Sources table.
struct Span {
  std::uint32_t file = 0;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  friend bool operator==(const Span&, const Span&) = default;
  bool empty() const { return begin == end; }
};

// From the first byte of `from` to the last of `to`; both lie in one file.
Span joined(Span from, Span to);

struct Source {
  std::string path;  // relative to the project root, with `/`; "stdlib/valves.fer" for library text
  std::string text;  // UTF-8; a byte order mark is dropped on reading
};

// Owns the texts. Views into a text stay valid for the life of the table, whatever is added later.
class Sources {
 public:
  std::uint32_t add(std::string path, std::string text);
  const Source& operator[](std::uint32_t file) const { return *files_[file]; }
  std::uint32_t size() const { return static_cast<std::uint32_t>(files_.size()); }
  std::string_view text(Span span) const;

 private:
  std::vector<std::unique_ptr<const Source>> files_;
};

// 1-based; a column counts Unicode code points, a tab counts one.
struct Position {
  std::uint32_t line = 1;
  std::uint32_t column = 1;
};
Position position_of(const Source& source, std::uint32_t offset);

// The whole line (without its end) that holds `offset`, and where it begins.
struct LineText {
  std::string_view text;
  std::uint32_t begin = 0;
};
LineText line_around(const Source& source, std::uint32_t offset);

}  // namespace ferrule
