// Help and manual page, both from the tables that the parser reads.
#include <fmt/format.h>

#include <algorithm>

#include "checks/report/letters.hpp"
#include "compiler/driver/verb.hpp"

namespace ferrule {
namespace {

constexpr std::size_t widest = 80;

constexpr Option everywhere[] = {
    {"--help", "", "this page"},
};

struct ExitCode {
  int code;
  std::string_view text;
};
constexpr ExitCode exit_codes[] = {
    {0, "done; nothing at or above --fail-on (default: error)"},
    {1, "done; findings at or above --fail-on, or differences"},
    {2, "called wrongly: unknown option, no such rule"},
    {3, "an input could not be read or broke a limit"},
    {4, "an output could not be written"},
    {70, "a fault of Ferrule itself"},
};

std::string name_of(const Option& option) {
  return option.value.empty() ? std::string(option.name) : fmt::format("{} {}", option.name, option.value);
}

std::string usage_of(const Verb& command) {
  std::string out = fmt::format("ferrule {}", command.name);
  if (!command.options.empty()) out += " [OPTIONS]";
  if (!command.files.empty()) out += fmt::format(" {}", command.files);
  return out;
}

std::string option_lines(std::span<const Option> options) {
  constexpr std::size_t column = 26;
  std::string out;
  for (const Option& option : options) {
    const std::string name = name_of(option);
    out += "  " + name;
    out += name.size() + 3 < column ? std::string(column - 2 - name.size(), ' ') : "\n" + std::string(column, ' ');
    out += wrapped(option.text, widest - column, std::string(column, ' ')) + "\n";
  }
  return out;
}

// A hyphen that stays one, a leading dot that is no request (man(7)).
std::string for_manual(std::string_view text) {
  std::string out;
  for (const char c : text) out += c == '-' ? "\\-" : c == '\\' ? "\\e" : std::string(1, c);
  return out.starts_with('.') || out.starts_with('\'') ? "\\&" + out : out;
}

std::string manual_of(const Verb& command) {
  std::string out = fmt::format(".SS \"{}\"\n{}.\n", for_manual(usage_of(command)), for_manual(command.text));
  for (const Option& option : command.options)
    out += fmt::format(".TP\n.B {}\n{}\n", for_manual(name_of(option)), for_manual(option.text));
  for (const Example& example : command.examples)
    out += fmt::format(".TP\n{}\n{}\n", for_manual(example.line), for_manual(example.text));
  return out;
}

}  // namespace

std::string_view version() { return "0.1.0"; }

std::string help_of(const Verb& command) {
  std::string out = fmt::format("{}: {}\n\nExamples:\n", usage_of(command), command.text);
  for (const Example& example : command.examples) out += fmt::format("  {}\n      {}\n", example.line, example.text);
  return out + "\nOptions:\n" + option_lines(command.options) + option_lines(everywhere);
}

std::string short_help() {
  std::string out = "ferrule COMMAND [OPTIONS] FILES: fluid-power circuits as text\n";
  for (const Verb* command : commands()) out += fmt::format("  {:<8} {}\n", command->name, command->text);
  out += "Examples:\n  ferrule check press.fer\n  ferrule draw press.fer --output press.pdf\n  ferrule explain pump-outlet-unprotected\n";
  return out + "`ferrule COMMAND --help` shows the rest.\n";
}

std::string manual_page() {
  std::string out = fmt::format(".TH FERRULE 1 \"\" \"ferrule {}\" \"User commands\"\n.SH NAME\n", version());
  out += "ferrule \\- compile, check and draw fluid\\-power circuits\n.SH SYNOPSIS\n.B ferrule\nCOMMAND [OPTIONS] FILES\n";
  out += ".SH DESCRIPTION\nReads circuits as text (.fer), says which way the oil runs, checks them and draws ISO 1219 sheets.\n.SH COMMANDS\n";
  for (const Verb* command : commands()) out += manual_of(*command);
  out += ".SH EXIT STATUS\n";
  for (const ExitCode& code : exit_codes) out += fmt::format(".TP\n.B {}\n{}\n", code.code, for_manual(code.text));
  out += ".SH ENVIRONMENT\n.TP\n.B NO_COLOR\nno colours, whatever the terminal\n.TP\n.B SOURCE_DATE_EPOCH\nthe day that counts as today\n";
  out += ".SH CAUTIONS\nHydraulics hurts people. Everything printed is a calculated aid from the data given, never a certificate; a competent person\n";
  return out + "must check it against ISO 4413, local codes and the makers' data before anything is built, pressurised or changed.\n";
}

}  // namespace ferrule
