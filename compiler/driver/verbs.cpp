#include "checks/report/letters.hpp"
#include "compiler/driver/verb.hpp"

namespace ferrule {

extern const Verb check_verb, solve_verb, draw_verb, paths_verb, fmt_verb, explain_verb, section_verb, handout_verb, mark_verb, size_verb, list_verb;

std::span<const Verb* const> commands() {
  static constexpr const Verb* all[] = {&check_verb, &solve_verb, &size_verb, &draw_verb, &paths_verb, &fmt_verb, &explain_verb, &section_verb, &handout_verb, &mark_verb, &list_verb};
  return all;
}

int say(Talk& talk, std::string_view what, int code) {
  talk.err += "ferrule: " + safe(what) + "\n";
  return code;
}

}  // namespace ferrule
