// From words to a command: the only file that reads a command line.
#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>

#include "checks/report/letters.hpp"
#include "compiler/driver/disk.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/driver/verb.hpp"

namespace ferrule {
namespace {

int called_wrongly(Talk& talk, const std::string& why) { return say(talk, why, exit_code::called_wrongly); }

const Verb* command_named(std::string_view name) {
  for (const Verb* command : commands())
    if (command->name == name) return command;
  return nullptr;
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const Verb* command : commands()) names.emplace_back(command->name);
  return names;
}

struct ReadCall {
  Call call;
  std::string fault;
};

ReadCall read_call(const Verb& command, const std::vector<std::string>& words) {
  ReadCall read;
  CLI::App app;
  app.set_help_flag();
  app.allow_extras();
  std::map<std::string, std::vector<std::string>> values;
  std::map<std::string, bool> switches;
  std::vector<std::string> names{"--help"};
  for (const Option& option : command.options) {
    const std::string name(option.name);
    names.push_back(name);
    if (option.value.empty()) app.add_flag(name, switches[name]);
    else app.add_option(name, values[name])->allow_extra_args(false);
  }
  std::vector<std::string> backwards(words.rbegin(), words.rend());
  try {
    app.parse(backwards);
  } catch (const CLI::ParseError& fault) {
    read.fault = fault.what();
    return read;
  }
  bool options_ended = false;
  for (const std::string& word : app.remaining()) {
    if (word == "--" && !options_ended) options_ended = true;
    else if (!options_ended && word.size() > 1 && word.front() == '-')
      read.fault = fmt::format("{} has no option {}{}", command.name, word, did_you_mean(word.substr(0, word.find('=')), names));
    else read.call.files.push_back(word);
  }
  for (auto& [name, given] : values)
    if (!given.empty()) read.call.options[name] = std::move(given);
  for (const auto& [name, given] : switches)
    if (given) read.call.options[name] = {};
  return read;
}

bool asks_for_help(const std::vector<std::string>& words) {
  for (const std::string& word : words) {
    if (word == "--") return false;
    if (word == "--help" || word == "-h") return true;
  }
  return false;
}

// A folder stands for the circuits in it. One without any is a slip that silence would hide.
int run_on_files(const Verb& command, Call call, Talk& talk) {
  std::vector<std::string> files;
  int code = exit_code::done;
  for (const std::string& name : call.files) {
    const std::vector<std::string> meant = files_meant(name);
    files.insert(files.end(), meant.begin(), meant.end());
    if (!meant.empty()) continue;
    code = say(talk, fmt::format("{} holds no .fer file", name), exit_code::unreadable);
  }
  call.files = std::move(files);
  return std::max(code, command.run(call, talk));
}

int run_command(const Verb& command, const std::vector<std::string>& words, Talk& talk) {
  if (asks_for_help(words)) {
    talk.out += help_of(command);
    return exit_code::done;
  }
  const ReadCall read = read_call(command, words);
  if (!read.fault.empty()) return called_wrongly(talk, fmt::format("{}; ferrule {} --help lists the options", read.fault, command.name));
  if (read.call.files.empty() && !command.files.empty() && command.files.front() != '[')
    return called_wrongly(talk, fmt::format("{} needs {}, for example: {}", command.name, command.files, command.examples.front().line));
  if (command.files != "FILES") return command.run(read.call, talk);
  return run_on_files(command, read.call, talk);
}

}  // namespace

std::string Call::value(std::string_view option, std::string_view fallback) const {
  const auto found = options.find(option);
  return found == options.end() || found->second.empty() ? std::string(fallback) : found->second.back();
}

int run(const std::vector<std::string>& words, Talk& talk) {
  if (words.empty()) {
    talk.err += short_help();
    return exit_code::called_wrongly;
  }
  const std::string& first = words.front();
  if (first == "--version" || first == "-V") {
    talk.out += fmt::format("ferrule {}\n", version());
    return exit_code::done;
  }
  if (first == "--manual") {
    talk.out += manual_page();
    return exit_code::done;
  }
  if (first == "--help" || first == "-h" || first == "help") {
    const Verb* wanted = words.size() > 1 ? command_named(words[1]) : nullptr;
    talk.out += wanted ? help_of(*wanted) : short_help();
    return exit_code::done;
  }
  if (const Verb* command = command_named(first)) return run_command(*command, {words.begin() + 1, words.end()}, talk);
  return called_wrongly(talk, fmt::format("there is no command {}{}; ferrule --help lists them", first, did_you_mean(first, command_names())));
}

}  // namespace ferrule
