# Writes the list of all rules and their explain pages from the folders checks/FAMILY/RULE/.
set(names "")
set(declarations "")
set(pages "")
foreach(source ${RULES})
  get_filename_component(folder ${source} DIRECTORY)
  get_filename_component(rule ${folder} NAME)
  string(REPLACE "-" "_" name ${rule})
  string(APPEND declarations "extern const Rule ${name};\n")
  string(APPEND names "    &${name},\n")
  if(EXISTS ${folder}/page.md)
    file(READ ${folder}/page.md page)
    string(APPEND pages "    {\"${rule}\", R\"PAGE(${page})PAGE\"},\n")
  endif()
endforeach()
# Vectors, because a language without rules (an empty array) would not compile.
file(WRITE ${OUT} "// Generated from checks/*/*/rule.cpp and page.md.
#include \"checks/machinery/registry.hpp\"

namespace ferrule {
${declarations}
std::span<const Rule* const> registered_rules() {
  static const std::vector<const Rule*> all = {
${names}  };
  return all;
}

std::span<const RulePage> registered_pages() {
  static const std::vector<RulePage> all = {
${pages}  };
  return all;
}

}  // namespace ferrule
")
