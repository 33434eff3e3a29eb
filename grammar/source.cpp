#include "grammar/source.hpp"

#include <algorithm>

namespace ferrule {

Span joined(Span from, Span to) { return {from.file, std::min(from.begin, to.begin), std::max(from.end, to.end)}; }

std::uint32_t Sources::add(std::string path, std::string text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
  files_.push_back(std::make_unique<const Source>(std::move(path), std::move(text)));
  return size() - 1;
}

std::string_view Sources::text(Span span) const {
  return std::string_view(files_[span.file]->text).substr(span.begin, span.end - span.begin);
}

LineText line_around(const Source& source, std::uint32_t offset) {
  const std::string_view text = source.text;
  const std::size_t at = std::min<std::size_t>(offset, text.size());
  const std::size_t before = at == 0 ? std::string_view::npos : text.rfind('\n', at - 1);
  const std::size_t begin = before == std::string_view::npos ? 0 : before + 1;
  std::size_t end = std::min(text.find('\n', at), text.size());
  if (end > begin && text[end - 1] == '\r') --end;
  return {text.substr(begin, end - begin), static_cast<std::uint32_t>(begin)};
}

Position position_of(const Source& source, std::uint32_t offset) {
  const std::string_view text = source.text;
  const std::size_t at = std::min<std::size_t>(offset, text.size());
  Position position;
  position.line = 1 + static_cast<std::uint32_t>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
  for (std::size_t i = line_around(source, offset).begin; i < at; ++i)
    if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80) ++position.column;
  return position;
}

}  // namespace ferrule
