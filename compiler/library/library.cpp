#include "compiler/library/library.hpp"

#include <optional>

#include <fmt/format.h>

#include "compiler/language/definitions.hpp"
#include "compiler/language/reading.hpp"
#include "grammar/parse.hpp"

namespace ferrule {

struct Library::Text {
  std::string_view file, text;      // library text not parsed yet: its slice
  std::uint32_t lines_before = 0;
  Statement statement;              // set when parsed, or from the user's tree
  Span name;                        // of a user's own
  bool own = false, being_read = false;
  std::unique_ptr<Definition> definition;
  std::unique_ptr<Symbol> symbol;
  std::unique_ptr<StrokePart> part;
};

struct Library::Shelf {
  std::string_view word;
  std::map<std::string, Text, std::less<>> texts;
  std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (const auto& [name, text] : texts) names.push_back(name);
    return names;
  }
};

namespace {

// The word behind the statement word, as `relief-valve` in `define relief-valve "..." {`.
std::string_view name_in(std::string_view line, std::size_t from) {
  const std::size_t begin = line.find_first_not_of(" \t", from);
  if (begin == std::string_view::npos) return {};
  const std::size_t end = line.find_first_of(" \t\"{\n\r", begin);
  return line.substr(begin, std::min(end, line.size()) - begin);
}

bool begins_statement(std::string_view text) {
  return text.starts_with("define ") || text.starts_with("symbol ") || text.starts_with("part ");
}

}  // namespace

Library::Library(Sources& sources, Messages& messages, const std::vector<Surroundings::LibraryFile>& files)
    : sources_(sources), messages_(messages), definitions_(new Shelf{"define", {}}), symbols_(new Shelf{"symbol", {}}),
      parts_(new Shelf{"part", {}}) {
  for (const Surroundings::LibraryFile& file : files) scan(file.name, file.text);
}

Library::~Library() = default;

void Library::scan(std::string_view file, std::string_view text) {
  Text* last = nullptr;
  const char* last_begin = nullptr;
  std::uint32_t line = 0;
  std::string part_name;
  const auto close = [&](const char* end) {
    if (last) last->text = std::string_view(last_begin, static_cast<std::size_t>(end - last_begin));
    if (last && !part_name.empty()) note_operator(last->text, part_name);
    part_name.clear();
  };
  for (std::size_t at = 0; at < text.size(); ++line) {
    const std::string_view rest = text.substr(at);
    if (begins_statement(rest)) {
      close(rest.data());
      Shelf& shelf = rest[0] == 'd' ? *definitions_ : rest[0] == 's' ? *symbols_ : *parts_;
      const std::string name(name_in(rest.substr(0, rest.find('\n')), shelf.word.size()));
      last = &shelf.texts[name];
      if (&shelf == parts_.get()) part_name = name;
      last_begin = rest.data();
      last->file = file;
      last->lines_before = line;
    }
    const std::size_t end = rest.find('\n');
    at = end == std::string_view::npos ? text.size() : at + end + 1;
  }
  close(text.data() + text.size());
}

// `operator WORD`, found without reading the part: every valve of a text asks for a few of these words.
void Library::note_operator(std::string_view text, const std::string& part) {
  constexpr std::string_view statement = "operator";
  for (std::size_t at = text.find(statement); at != std::string_view::npos; at = text.find(statement, at + 1)) {
    const std::size_t before = at == 0 ? at : text.find_last_not_of(" \t", at - 1);
    const bool begins_item = before < at && std::string_view("\n{,").find(text[before]) != std::string_view::npos;
    if (!begins_item) continue;
    const std::string_view word = name_in(text.substr(0, text.find_first_of(",\n}", at)), at + statement.size());
    operators_.try_emplace(word.empty() ? part : std::string(word), part);
    return;
  }
}

// The slice is read as a file of its own, blank lines in front: so places in it are places in the library's file.
Statement Library::statement_of(Text& text) {
  if (text.statement.item) return text.statement;
  const std::uint32_t file = sources_.add("stdlib/" + std::string(text.file), std::string(text.lines_before, '\n') + std::string(text.text));
  Parsed parsed = parse(sources_, file);
  messages_.insert(messages_.end(), parsed.messages.begin(), parsed.messages.end());
  trees_.push_back(std::make_unique<Tree>(std::move(parsed.tree)));
  const Tree& tree = *trees_.back();
  if (tree.blocks.empty() || tree.blocks[0].count == 0) return {};
  return text.statement = {&tree, &tree.items_of(tree.blocks[0])[0]};
}

void Library::add(const Statement& statement) {
  Cursor cursor(*statement.tree, *statement.item);
  Shelf& shelf = cursor.at_word("define") ? *definitions_ : cursor.at_word("symbol") ? *symbols_ : *parts_;
  cursor.take();
  const Term& name = cursor.peek();
  if (name.kind != TermKind::word) return;  // told when it is read
  const auto [place, fresh] = shelf.texts.try_emplace(std::string(name.text));
  if (!fresh) {
    Message message = message_of(fault::definition_twice, name.span,
                                 fmt::format("`{}` is defined twice{}", name.text, place->second.own ? "" : ": the library has it too"),
                                 "give one of them another name", "again here");
    if (place->second.own) message.places.push_back({place->second.name, "first here"});
    messages_.push_back(std::move(message));
    return;
  }
  place->second.statement = statement;
  if (&shelf == parts_.get()) note_operator(sources_.text(statement.span()), std::string(name.text));
  place->second.name = name.span;
  place->second.own = true;
}

// Reads the thing of this name on first use; later it is only handed out.
template <class Thing, class Read>
const Thing* Library::look_up(Shelf& shelf, std::unique_ptr<Thing> Text::* read_thing, std::string_view name, Read read) {
  const auto found = shelf.texts.find(name);
  if (found == shelf.texts.end()) return nullptr;
  Text& text = found->second;
  if (text.*read_thing) return (text.*read_thing).get();
  const Statement statement = statement_of(text);
  if (!statement.item) return nullptr;
  if (text.being_read) {
    messages_.push_back(message_of(fault::like_cycle, statement.span(), fmt::format("`{}` is like itself", name), "make it like another one"));
    return nullptr;
  }
  text.being_read = true;
  Reading reading{sources_, messages_};
  Cursor cursor(*statement.tree, *statement.item);
  cursor.take();
  text.*read_thing = std::make_unique<Thing>(read(reading, cursor));
  (text.*read_thing)->name = name;
  return (text.*read_thing).get();
}

const Definition* Library::definition(std::string_view name) {
  return look_up(*definitions_, &Text::definition, name,
                 [this](Reading& reading, Cursor cursor) { return read_definition(reading, cursor, *this); });
}

const Symbol* Library::symbol(std::string_view name) { return look_up(*symbols_, &Text::symbol, name, read_symbol); }

const StrokePart* Library::part(std::string_view name) { return look_up(*parts_, &Text::part, name, read_stroke_part); }

std::vector<std::string> Library::operator_words() const {
  std::vector<std::string> words;
  for (const auto& [word, part] : operators_) words.push_back(word);
  return words;
}

const StrokePart* Library::operator_part(std::string_view word) {
  const auto found = operators_.find(word);
  return found == operators_.end() ? nullptr : part(found->second);
}

std::vector<std::string> Library::definition_names() const { return definitions_->names(); }
std::vector<std::string> Library::symbol_names() const { return symbols_->names(); }
std::vector<std::string> Library::part_names() const { return parts_->names(); }

}  // namespace ferrule
