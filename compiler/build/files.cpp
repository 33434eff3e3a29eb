#include "compiler/build/files.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/reading.hpp"

namespace ferrule {
namespace {

constexpr std::size_t most_files = 2000, most_bytes = 64u << 20;
constexpr int most_deep = 32;

class Gathering {
 public:
  Gathering(const Surroundings& surroundings, Compilation& compilation)
      : surroundings_(surroundings), compilation_(compilation), reading_{compilation.sources, compilation.messages} {}

  void add_file(const std::string& path, std::string text) {
    bytes_ += text.size();
    compilation_.files.push_back(path);
    const std::uint32_t file = compilation_.sources.add(path, std::move(text));
    Parsed parsed = parse(compilation_.sources, file);
    compilation_.messages.insert(compilation_.messages.end(), parsed.messages.begin(), parsed.messages.end());
    compilation_.trees.push_back(std::make_unique<Tree>(std::move(parsed.tree)));
    const Tree& tree = *compilation_.trees.back();
    open_.push_back(path);
    if (!tree.blocks.empty())
      for (const Item& item : tree.items_of(tree.blocks[0])) add_item(tree, item, path);
    open_.pop_back();
  }

  Gathered gathered;

 private:
  void add_item(const Tree& tree, const Item& item, const std::string& path) {
    if (item.count == 0) return;
    Cursor cursor(tree, item);
    if (!cursor.at_word("include")) return gathered.statements.push_back({&tree, &item});
    cursor.take();
    const Term* name = cursor.take_kind(TermKind::text);
    if (item.broken) return fail();
    if (!name) {
      reading_.report(fault::word_expected, cursor.here(), "`include` needs the path of a file in quotes", "write `include \"parts/valves.fer\"`");
      return fail();
    }
    used_up(reading_, cursor, "the path");
    include(path, unescaped(*name), name->span);
  }

  void fail() { gathered.names_missing = true; }

  void include(const std::string& from, const std::string& name, Span at) {
    const auto path = path_from(from, name);
    if (!path) {
      reading_.report(fault::include_outside, at, fmt::format("`{}` is not inside the project", name),
                      "write a path below the project's root, relative to this file, with `/`");
      return fail();
    }
    if (const auto cycle = std::find(open_.begin(), open_.end(), *path); cycle != open_.end())
      return (void)reading_.report(fault::include_cycle, at, fmt::format("`{}` includes itself{}", *path, open_.size() > 1 && open_.back() != *path ? " by way of `" + open_.back() + "`" : ""),
                                   "leave one of the includes out");
    if (std::find(compilation_.files.begin(), compilation_.files.end(), *path) != compilation_.files.end()) return;  // a second way to it adds nothing
    if (within_limits(at)) read_and_add(*path, name, at);
  }

  bool within_limits(Span at) {
    const bool deep = open_.size() > static_cast<std::size_t>(most_deep);
    const bool many = compilation_.files.size() >= most_files || bytes_ > most_bytes;
    if (deep) reading_.report(fault::too_deep, at, fmt::format("includes stand more than {} deep", most_deep), "include fewer files in one another");
    else if (many) reading_.report(fault::too_many_files, at, "the text has more than 2000 files or 64 MiB", "split it into circuits of their own");
    if (deep || many) {
      compilation_.unreadable = true;
      fail();
    }
    return !deep && !many;
  }

  void read_and_add(const std::string& path, const std::string& name, Span at) {
    Surroundings::Read read = surroundings_.read(path);
    if (read.error.empty()) return add_file(path, std::move(read.text));
    reading_.report(fault::include_unreadable, at, fmt::format("`{}` cannot be read: {}", name, read.error),
                    "look at the path; it is relative to the file that includes");
    compilation_.unreadable = true;
    fail();
  }

  const Surroundings& surroundings_;
  Compilation& compilation_;
  Reading reading_;
  std::vector<std::string> open_;  // the files that are being read, outermost first
  std::size_t bytes_ = 0;
};

}  // namespace

std::optional<std::string> path_from(const std::string& from, const std::string& name) {
  const bool strange = name.empty() || name.front() == '/' || name.find('\\') != std::string::npos || name.find('\0') != std::string::npos ||
                       name.find(':') != std::string::npos;
  if (strange) return {};
  std::vector<std::string> parts;
  const std::size_t folder = from.rfind('/');
  const std::string whole = (folder == std::string::npos ? std::string{} : from.substr(0, folder + 1)) + name;
  for (std::size_t begin = 0; begin <= whole.size();) {
    const std::size_t end = std::min(whole.find('/', begin), whole.size());
    const std::string part = whole.substr(begin, end - begin);
    begin = end + 1;
    if (part == "..") {
      if (parts.empty()) return {};
      parts.pop_back();
    } else if (!part.empty() && part != ".") {
      parts.push_back(part);
    }
  }
  std::string path;
  for (const std::string& part : parts) path += (path.empty() ? "" : "/") + part;
  return path.empty() ? std::nullopt : std::optional(path);
}

Gathered gather(const Surroundings& surroundings, Compilation& compilation, const std::string& path, std::string text) {
  Gathering gathering(surroundings, compilation);
  gathering.add_file(path, std::move(text));
  return std::move(gathering.gathered);
}

}  // namespace ferrule
