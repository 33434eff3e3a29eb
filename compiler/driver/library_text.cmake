# Makes the library text part of the program, so that an installed copy works from any folder.
set(entries "")
foreach(path ${TEXTS})
  get_filename_component(name ${path} NAME)
  file(READ ${path} text)
  # g++ has no limit on the length of a raw string; the delimiter can't occur in a .fer file.
  string(APPEND entries "    {\"${name}\", R\"FERRULE(${text})FERRULE\"},\n")
endforeach()
file(WRITE ${OUT} "// Generated from stdlib/*.fer.
#include \"compiler/compile.hpp\"

namespace ferrule {
const std::vector<Surroundings::LibraryFile>& library_text() {
  static const std::vector<Surroundings::LibraryFile> files = {
${entries}  };
  return files;
}
}  // namespace ferrule
")
