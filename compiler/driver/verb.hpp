// What a command is: a row of a table, with the text of its help and the function that runs it.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ferrule {

struct Option {
  std::string_view name;   // "--report"
  std::string_view value;  // "FORMAT[=PATH]"; empty for a switch
  std::string_view text;
};

struct Example {
  std::string_view line, text;
};

// A command line that was read.
struct Call {
  std::vector<std::string> files;
  std::map<std::string, std::vector<std::string>, std::less<>> options;

  bool has(std::string_view option) const { return options.find(option) != options.end(); }
  // The last one wins; `fallback` when it was not given.
  std::string value(std::string_view option, std::string_view fallback = {}) const;
};

// Where the program runs: what the outside gives, and what is to be said to it. Tests fill it by hand.
struct Talk {
  std::function<std::string()> standard_input;
  std::string today;           // YYYY-MM-DD
  std::size_t columns = 100;
  long source_date_epoch = 0;  // s; the only date a drawing carries, 0 for none
  bool terminal = false;       // standard output is one, and NO_COLOR is not set
  std::string out, err;        // results; talk
  std::shared_ptr<const void> kept;  // what need not be taken to pieces before the program ends
};

// One line on standard error, "ferrule: WHAT"; what would confuse a terminal is replaced. Returns `code`.
int say(Talk& talk, std::string_view what, int code);

struct Verb {
  std::string_view name;
  std::string_view files;      // "FILES", "FILE", "RULE", "" as the usage shows them
  std::string_view text;       // one line
  std::span<const Example> examples;
  std::span<const Option> options;
  int (*run)(const Call&, Talk&);
};

// In the order of the help.
std::span<const Verb* const> commands();

// Exit codes (0 done; 1 findings or differences).
namespace exit_code {
inline constexpr int done = 0, found = 1, called_wrongly = 2, unreadable = 3, not_written = 4, our_fault = 70;
}

// Everything after the program's name. Returns the exit code.
int run(const std::vector<std::string>& words, Talk& talk);

std::string_view version();
std::string help_of(const Verb& command);
std::string short_help();      // a line a command, three examples
std::string manual_page();     // share/man/man1/ferrule.1, from the same tables

}  // namespace ferrule
