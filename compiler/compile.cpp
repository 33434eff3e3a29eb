#include "compiler/compile.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "compiler/build/building.hpp"
#include "compiler/build/files.hpp"
#include "compiler/language/document.hpp"
#include "compiler/language/lets.hpp"
#include "compiler/language/variation.hpp"
#include "grammar/nearest.hpp"
#include "compiler/language/work.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

// The statements of a text by what they are, each sort in the order of the text: meaning never hangs on the order of sorts.
struct Sorted {
  std::vector<Statement> definitions, lets, variations, circuit, sheets, fluids, every, components, runs, ties, places, closed, work;
};

struct StatementWord {
  std::string_view word;
  std::vector<Statement> Sorted::* sort;
};
constexpr StatementWord statement_words[] = {
    {"define", &Sorted::definitions}, {"symbol", &Sorted::definitions}, {"part", &Sorted::definitions}, {"let", &Sorted::lets},
    {"vary", &Sorted::variations},
    {"circuit", &Sorted::circuit},    {"sheet", &Sorted::sheets},       {"fluid", &Sorted::fluids},     {"every", &Sorted::every},
    {"tie", &Sorted::ties},           {"place", &Sorted::places},       {"plugged", &Sorted::closed},   {"open", &Sorted::closed},
    {"pressure", &Sorted::runs},      {"working", &Sorted::runs},       {"return", &Sorted::runs},      {"suction", &Sorted::runs},
    {"drain", &Sorted::runs},         {"pilot", &Sorted::runs},         {"mechanical", &Sorted::runs},  {"cycle", &Sorted::work},
    {"require", &Sorted::work},       {"accept", &Sorted::work},        {"ask", &Sorted::work},         {"never", &Sorted::work},
};

// What only blocks hold.
struct InnerWord {
  std::string_view word, owner, example;
};
constexpr InnerWord inner_words[] = {
    {"step", "a cycle", "cycle { step press { 1Y1 on, 1A1 presses } }"},
    {"starts", "a cycle", "cycle { starts 1V1 b }"},
    {"position", "a valve", "valve 1V1 { position a P>A B>T by solenoid 1Y1 }"},
    {"fact", "a definition", "define house-valve \"what it is\" { fact rated : pressure }"},
    {"inside", "a definition", "define house-valve \"what it is\" { inside { pressure-path main P > T { cracking } } }"},
    {"assembly", "a definition", "define jack \"what it is\" { assembly { cylinder A1 { bore 50 mm } } }"},
};

bool has_dash(const Statement& statement) {
  const auto terms = statement.tree->terms_of(*statement.item);
  return std::any_of(terms.begin(), terms.end(), [](const Term& term) { return term.kind == TermKind::dash; });
}

std::vector<std::string> all_statement_words() {
  std::vector<std::string> words;
  for (const StatementWord& word : statement_words) words.emplace_back(word.word);
  return words;
}

class Compiling {
 public:
  Compiling(const Surroundings& surroundings, Compilation& result)
      : result_(result), reading_{result.sources, result.messages}, lets_(reading_) {
    reading_.names = &lets_;
    result.library = std::make_shared<Library>(result.sources, result.messages, surroundings.library());
  }

  void run(const Gathered& gathered) {
    reading_.names_missing = gathered.names_missing;
    for (const Statement& statement : gathered.statements)
      if (is_definition(statement)) result_.library->add(statement);
    for (const Statement& statement : gathered.statements) sort(statement);
    read_definitions();
    for (const Statement& statement : sorted_.lets) lets_.add(statement);
    lets_.compute_all();
    for (const Statement& statement : sorted_.variations) quiet_when_broken(statement, [&] { read_variation(reading_, lets_, statement, result_.circuit); });
    for (const Statement& statement : sorted_.circuit) quiet_when_broken(statement, [&] { read_circuit(reading_, statement, result_.circuit); });
    for (const Statement& statement : sorted_.sheets) quiet_when_broken(statement, [&] { read_sheet(reading_, statement, result_.circuit); });
    for (const Statement& statement : sorted_.fluids) quiet_when_broken(statement, [&] { read_fluid(reading_, statement, result_.circuit); });
    build();
  }

 private:
  static bool is_definition(const Statement& statement) {
    const Cursor cursor(*statement.tree, *statement.item);
    return cursor.at_word("define") || cursor.at_word("symbol") || cursor.at_word("part");
  }

  void sort(const Statement& statement) {
    const Cursor cursor(*statement.tree, *statement.item);
    if (!cursor.at(TermKind::word)) return report_no_statement(statement);
    const std::string_view word = cursor.peek().text;
    for (const StatementWord& known : statement_words)
      if (known.word == word) return (sorted_.*known.sort).push_back(statement);
    if (word == "edition") return;
    if (result_.library->definition(word)) return sorted_.components.push_back(statement);
    if (has_dash(statement)) return sorted_.runs.push_back(statement);
    if (statement.item->broken) return broken_.push_back(statement);
    if (is_work_statement(statement)) return sorted_.work.push_back(statement);
    report_or_declare(statement, cursor);
  }

  void report_no_statement(const Statement& statement) {
    const Cursor cursor(*statement.tree, *statement.item);
    if (statement.item->broken || cursor.at(TermKind::broken)) return;
    if (has_dash(statement)) return sorted_.runs.push_back(statement);
    const std::string_view text = result_.sources.text(cursor.here());
    reading_.report(fault::statement_unknown, cursor.here(), fmt::format("`{}` begins no statement", text.substr(0, text.find('\n'))),
                    "begin the line with a kind of component or a statement word");
  }

  // A statement of a block that stands outside of it.
  bool report_misplaced(const Cursor& cursor) {
    const auto found = std::find_if(std::begin(inner_words), std::end(inner_words), [&](const InnerWord& inner) { return cursor.at_word(inner.word); });
    if (found == std::end(inner_words)) return false;
    reading_.report(fault::statement_misplaced, cursor.here(), fmt::format("`{}` stands in the block of {}", found->word, found->owner),
                    fmt::format("move it there, as in `{}`", found->example));
    return true;
  }

  // `SF1 { rating 10 um }`: the kind in front was forgotten; the tag is declared all the same.
  bool report_kind_missing(const Statement& statement, const Cursor& cursor) {
    if (!cursor.at(TermKind::block, cursor.at(TermKind::text, 1) ? 2 : 1) || !nearest(cursor.peek().text, all_statement_words()).empty()) return false;
    reading_.report(fault::statement_unknown, cursor.here(), fmt::format("no kind of component stands before `{}`", cursor.peek().text),
                    fmt::format("write it in front, as `relief-valve {} {{ ... }}`; `ferrule list` names the kinds", cursor.peek().text));
    kindless_.push_back(statement);
    return true;
  }

  // `reliefvalve 0V1 { ... }` is a component of unknown kind; what else does not begin like a statement is reported as such.
  void report_or_declare(const Statement& statement, const Cursor& cursor) {
    const std::string_view word = cursor.peek().text;
    std::vector<std::string> known = all_statement_words();
    const bool near_statement = !nearest(word, known).empty() && nearest(word, result_.library->definition_names()).empty();
    const bool like_component = cursor.at(TermKind::word, 1) || cursor.at(TermKind::number, 1);
    if (report_misplaced(cursor) || report_kind_missing(statement, cursor)) return;
    if (like_component && !near_statement) return sorted_.components.push_back(statement);
    const std::vector<std::string> kinds = result_.library->definition_names();
    known.insert(known.end(), kinds.begin(), kinds.end());
    reading_.report(fault::statement_unknown, cursor.here(), fmt::format("`{}` is neither a kind of component nor a statement", word),
                    write_instead(word, known, "begin the line with a kind of component or a statement word"));
  }

  void read_definitions() {
    for (const Statement& statement : sorted_.definitions) {
      Cursor cursor(*statement.tree, *statement.item);
      const bool define = cursor.at_word("define"), symbol = cursor.at_word("symbol");
      cursor.take();
      const std::string_view name = cursor.peek().text;
      if (define) result_.library->definition(name);
      else if (symbol) result_.library->symbol(name);
      else result_.library->part(name);
    }
  }

  void read_every(Building& building, const Statement& statement) {
    Cursor cursor(*statement.tree, *statement.item);
    cursor.take();
    const Span at = cursor.here();
    const auto kind = want_word(reading_, cursor, "`every`", "a kind of component", "every line { roughness 0.0015 mm }");
    if (!kind) return;
    const Definition* definition = result_.library->definition(*kind);
    if (!definition) return report_unknown_kind(reading_, *kind, at, *result_.library);
    const Block* block = want_block(reading_, cursor, "`every`", "every " + *kind + " { ... }");
    if (block) building.every.push_back({*kind, read_facts(reading_, *statement.tree, *block, {*definition, result_.library.get(), false})});
  }

  // What the grammar could not read has its message; whatever else it seems to lack is not told.
  template <class Read>
  void quiet_when_broken(const Statement& statement, Read read) {
    const std::size_t before = reading_.messages.size();
    read();
    if (statement.item->broken) reading_.messages.resize(before);
  }

  // A run with a slip may have lost any end.
  void read_run_of(Building& building, const Statement& statement) {
    const std::size_t before = reading_.messages.size();
    quiet_when_broken(statement, [&] { building.runs.push_back({read_run(reading_, statement, *result_.library), {}}); });
    if (statement.item->broken || reading_.messages.size() > before) building.lost_ends = true;
  }

  void declare(Building& building, const Statement& statement) {
    const std::size_t before = building.texts.size();
    quiet_when_broken(statement, [&] { declare_component(building, statement, {}); });
    for (std::size_t i = before; i < building.texts.size() && statement.item->broken; ++i)
      building.texts[i].silent = building.texts[i].rows_unclear = reading_.solenoids_missing = true;
  }

  // The tag behind the first words is declared, so that its uses stay silent.
  void declare_unread(Building& building, const Statement& statement, int words) {
    Cursor cursor(*statement.tree, *statement.item);
    for (; words > 0 && !cursor.done(); --words) cursor.take();
    reading_.solenoids_missing = true;
    ComponentText text;
    text.definition = &unknown_definition();
    text.tag_span = cursor.here();
    text.statement = statement.span();
    text.tag = take_name(cursor);
    if (!text.tag.empty() && !result_.circuit.by_tag.contains(text.tag)) add_part(building, std::move(text), {});
  }

  void build() {
    Building building{reading_, *result_.library, result_.circuit};
    for (const Statement& statement : sorted_.every) quiet_when_broken(statement, [&] { read_every(building, statement); });
    for (const Statement& statement : sorted_.components) declare(building, statement);
    for (const Statement& statement : sorted_.runs) read_run_of(building, statement);
    for (const Statement& statement : broken_) declare_unread(building, statement, 1);
    for (const Statement& statement : kindless_) declare_unread(building, statement, 0);
    copy_alike(building);
    settle_rows(building);
    make_ports(building);
    join_runs(building);
    copy_every(building);
    for (const Statement& statement : sorted_.ties) read_tie(reading_, statement, result_.circuit);
    complete_facts(building);
    for (const Statement& statement : sorted_.closed) close_port(building, statement);
    settle_nodes(building);
    make_elements(building);
    for (const Statement& statement : sorted_.places) read_place(reading_, statement, result_.circuit);
    read_work(reading_, sorted_.work, result_.circuit);
    report_open_ports(building);
    report_floating_parts(building);
    report_joined_fluids(building);
    report_unknown_tags(reading_, result_.circuit);
  }

  Compilation& result_;
  Reading reading_;
  Lets lets_;
  Sorted sorted_;
  std::vector<Statement> broken_, kindless_;
};

void put_in_order(Messages& messages) {
  std::stable_sort(messages.begin(), messages.end(), [](const Message& a, const Message& b) {
    const Span x = a.places.front().span, y = b.places.front().span;
    return std::pair(x.file, x.begin) < std::pair(y.file, y.begin);
  });
}

}  // namespace

std::unique_ptr<Compilation> compile(const Surroundings& surroundings, const std::string& path, std::string text) {
  auto result = std::make_unique<Compilation>();
  const Gathered gathered = gather(surroundings, *result, path, std::move(text));
  Compiling compiling(surroundings, *result);
  compiling.run(gathered);
  put_in_order(result->messages);
  return result;
}

}  // namespace ferrule
