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
  file(READ ${folder}/page.md page)
  string(APPEND pages "    {\"${rule}\", R\"PAGE(${page})PAGE\"},\n")
endforeach()
file(WRITE ${OUT} "// Generated from checks/*/*/rule.cpp and page.md.
#include \"checks/machinery/registry.hpp\"

namespace ferrule {
${declarations}
namespace {
const Rule* const unsorted[] = {
${names}};
constexpr RulePage all_pages[] = {
${pages}};
}  // namespace

std::span<const Rule* const> registered_rules() { return unsorted; }
std::span<const RulePage> registered_pages() { return all_pages; }

}  // namespace ferrule
")
