// ferrule fmt: the canonical layout of a text.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "checks/report/letters.hpp"
#include "compiler/driver/difference.hpp"
#include "compiler/driver/disk.hpp"
#include "compiler/driver/verb.hpp"
#include "compiler/driver/outputs.hpp"
#include "grammar/format.hpp"
#include "grammar/parse.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule fmt press.fer", "lays the file out the usual way"},
    {"ferrule fmt --check machines/", "names the files that are laid out otherwise; exit code 1 if there is one"},
    {"ferrule fmt -", "from standard input to standard output"},
};
constexpr Option options[] = {
    {"--check", "", "write nothing; exit code 1 if a file would change"},
    {"--diff", "", "write nothing; print the difference"},
};

int put(const Call& call, Talk& talk, const std::string& file, const std::string& before, const std::string& after) {
  if (file == "-" && !call.has("--check") && !call.has("--diff")) {
    talk.out += after;
    return exit_code::done;
  }
  if (before == after) return exit_code::done;
  if (call.has("--diff")) talk.out += without_log_commands(difference(file, before, after));
  else if (call.has("--check")) talk.out += without_log_commands(safe(file) + " is laid out otherwise\n");
  else return put_file(file, after, talk);
  return exit_code::found;
}

int format_one(const Call& call, Talk& talk, const std::string& file) {
  Input input = file == "-" ? from_standard_input(talk.standard_input()) : opened(file);
  if (!input.error.empty()) return say(talk, file + " cannot be read: " + input.error, exit_code::unreadable);
  Sources sources;
  const std::uint32_t number = sources.add(input.path, input.text);
  const Parsed parsed = parse(sources, number);
  if (parsed.refused) return say(talk, file + " was left alone: " + parsed.messages.front().sentence, exit_code::unreadable);
  const std::optional<std::string> text = formatted(sources[number], parsed.tree);
  if (!text) return say(talk, file + " was left alone: laying it out would have changed its words, a fault of ours to report", exit_code::our_fault);
  return put(call, talk, file, input.text, *text);
}

int run_fmt(const Call& call, Talk& talk) {
  int code = exit_code::done;
  for (const std::string& file : call.files) code = std::max(code, format_one(call, talk, file));
  return code;
}

}  // namespace

extern const Verb fmt_verb;
const Verb fmt_verb{"fmt", "FILES", "lay the text out the usual way", examples, options, run_fmt};

}  // namespace ferrule
