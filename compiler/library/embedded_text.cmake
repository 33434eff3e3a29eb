# Makes a text of stdlib part of the program: a std::string_view NAME in namespace ferrule.
file(READ ${TEXT} text)
get_filename_component(file ${TEXT} NAME)
file(WRITE ${OUT} "// Generated from stdlib/${file}.
#include <string_view>

namespace ferrule {
extern const std::string_view ${NAME};
const std::string_view ${NAME} = R\"FERRULE(${text})FERRULE\";
}  // namespace ferrule
")
