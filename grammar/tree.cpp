#include "grammar/tree.hpp"

namespace ferrule {

std::string unescaped(const Term& text) {
  std::string out;
  out.reserve(text.text.size());
  for (std::size_t i = 0; i < text.text.size(); ++i) {
    const bool escape = text.text[i] == '\\' && i + 1 < text.text.size() && (text.text[i + 1] == '"' || text.text[i + 1] == '\\');
    out += text.text[escape ? ++i : i];
  }
  return out;
}

}  // namespace ferrule
