# Makes the phrases part of the program.
file(READ ${TEXT} text)
file(WRITE ${OUT} "// Generated from stdlib/phrases.txt.
#include <string_view>

namespace ferrule {
extern const std::string_view phrase_text;
const std::string_view phrase_text = R\"FERRULE(${text})FERRULE\";
}  // namespace ferrule
")
