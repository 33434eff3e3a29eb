// ferrule handout: a lesson on a circuit, ready to be printed for a class.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <ctime>
#include <filesystem>

#include "checks/report/cautions.hpp"
#include "checks/report/letters.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/variants.hpp"
#include "render/handout/lesson.hpp"
#include "render/worksheet/question.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule handout press.fer --output press.pdf", "title page, sheet, symbols, parts, steps, a page for every state, results"},
    {"ferrule handout press.fer --output press.pdf --paper letter --language de", "on US Letter, in German"},
    {"ferrule handout press.fer --worksheet --seed 7 --output sheet.pdf", "questions with room to write; the same seed asks the same"},
    {"ferrule handout press.fer --answers --seed 7 --output key.pdf", "their key for the instructor, with workings and usual mistakes"},
    {"ferrule handout press.fer --variant 1..24 --seed 7 --output set.pdf", "set-1.pdf, set-1-key.pdf ... and set-index.pdf for a class of 24"},
};
constexpr Option options[] = {
    {"--output", "PATH", "where to; ends with .pdf"},
    {"--worksheet", "", "questions on the circuit instead of the lesson"},
    {"--answers", "", "the key to those questions"},
    {"--seed", "NUMBER", "which questions and values are chosen (0)"},
    {"--variant", "N or A..B", "with other values of what the text varies; a range is a class set: worksheets, keys, index"},
    {"--paper", "NAME", "a4 (default) or letter; what does not fit in true size comes on a page twice as large, to be folded"},
    {"--language", "CODE", "en or de: of all fixed phrases (default: the sheet's `language`, else en)"},
};

constexpr std::uint32_t most_seed = 1'000'000'000;

std::string text_of_sheet(const Circuit& circuit, const char* key) {
  const auto found = circuit.sheet.texts.find(key);
  return found == circuit.sheet.texts.end() ? std::string() : found->second;
}

// The text's own date, else that of the environment, else none: never the clock's.
std::string date_of(const Circuit& circuit, long source_date_epoch) {
  const std::string own = text_of_sheet(circuit, "date");
  if (!own.empty() || source_date_epoch == 0) return own;
  const std::time_t seconds = source_date_epoch;
  std::tm day{};
  gmtime_r(&seconds, &day);
  char text[16] = "";
  std::strftime(text, sizeof text, "%Y-%m-%d", &day);
  return text;
}

enum class Printed { lesson, worksheet, answers };

// `--variant 3` is from 3 to 3, without it there is none.
struct Variants {
  std::size_t first = 0, last = 0;
  bool is_set() const { return last > first; }
};

struct Wanted {
  std::string file, output, language;
  pages::Paper paper;
  Printed printed = Printed::lesson;
  std::uint32_t seed = 0;
  Variants variants;
};

// A lesson with all that it points to.
struct Lesson {
  Computed known;
  Phrases phrases;
  handout::Lesson lesson;

  Lesson(const Wanted& wanted, const Compiled& one, long source_date_epoch, std::size_t variant)
      : known(computed(one.compilation->circuit)), phrases(wanted.language.empty() ? text_of_sheet(one.compilation->circuit, "language") : wanted.language),
        lesson{*one.compilation, *known.book, phrases, wanted.paper, wanted.file == "-" ? "circuit" : std::filesystem::path(wanted.file).stem().string(),
               cautions_for(one.compilation->circuit), date_of(one.compilation->circuit, source_date_epoch),
               variant == 0 ? "" : phrases("variant", {std::to_string(variant)})} {}
  Lesson(const Lesson&) = delete;
};

int put_document(const pages::Document& document, const Wanted& wanted, const std::string& path, Talk& talk) {
  const pages::Printed printed = pages::pdf_of(document, pages::pages_of(document, wanted.paper), talk.source_date_epoch);
  return printed.error.empty() ? put_file(path, printed.bytes, talk) : say(talk, printed.error, exit_code::not_written);
}

pages::Document document_of(const Wanted& wanted, const handout::Lesson& lesson, std::vector<std::string>& notes) {
  if (wanted.printed == Printed::lesson) return handout::handout(lesson, notes);
  const worksheet::Questions questions = worksheet::questions_on(lesson, wanted.seed, notes);
  return wanted.printed == Printed::worksheet ? worksheet::worksheet(lesson, questions, notes) : worksheet::answers(lesson, questions);
}

int print_one(const Wanted& wanted, const Compiled& one, Talk& talk) {
  const Lesson lesson(wanted, one, talk.source_date_epoch, wanted.variants.last);
  std::vector<std::string> notes;
  const pages::Document document = document_of(wanted, lesson.lesson, notes);
  for (const std::string& note : notes) say(talk, wanted.file + ": " + note, exit_code::done);
  return put_document(document, wanted, wanted.output, talk);
}

// Worksheet and key of every variant and the index, as set-1.pdf, set-1-key.pdf ... set-index.pdf.
int print_set(const Wanted& wanted, const Compiled& model, const std::vector<Variant>& variants, Talk& talk) {
  const std::string stem = wanted.output.substr(0, wanted.output.rfind('.'));
  std::vector<worksheet::IndexRow> rows;
  int code = exit_code::done;
  for (std::size_t number = wanted.variants.first; number <= wanted.variants.last && code == exit_code::done; ++number) {
    const Variant& variant = variants[number - 1];
    const Lesson lesson(wanted, variant.compiled, talk.source_date_epoch, number);
    std::vector<std::string> notes;
    const worksheet::Questions questions = worksheet::questions_on(lesson.lesson, wanted.seed, notes);
    rows.push_back({std::to_string(number), {}, worksheet::computed_in(questions)});
    for (const auto& [name, value] : variant.values) rows.back().varied.emplace_back(name, shown(value));
    code = std::max(put_document(worksheet::worksheet(lesson.lesson, questions, notes), wanted, fmt::format("{}-{}.pdf", stem, number), talk),
                    put_document(worksheet::answers(lesson.lesson, questions), wanted, fmt::format("{}-{}-key.pdf", stem, number), talk));
  }
  if (code != exit_code::done) return code;
  const Lesson lesson(wanted, model, talk.source_date_epoch, 0);
  return put_document(worksheet::index_of_set(lesson.lesson, rows), wanted, stem + "-index.pdf", talk);
}

int print(const Wanted& wanted, Talk& talk) {
  const Compiled one = compiled(wanted.file, talk);
  if (!one.compilation || one.compilation->unreadable) return exit_code::unreadable;
  if (has_faults(one, talk)) return exit_code::found;
  const Circuit& circuit = one.compilation->circuit;
  if (const std::string limit = too_many_results(circuit, states_of(circuit).states.size(), cut_it_up); !limit.empty()) return say(talk, limit, exit_code::called_wrongly);
  if (wanted.variants.last == 0) return print_one(wanted, one, talk);
  std::string why;
  const std::vector<Variant> variants = variants_of(one, wanted.variants.last, wanted.seed, talk.today, why);
  if (!why.empty()) return say(talk, wanted.file + ": " + why, exit_code::found);
  return wanted.variants.is_set() ? print_set(wanted, one, variants, talk) : print_one(wanted, variants.back().compiled, talk);
}

std::optional<std::uint32_t> number_in(std::string_view text, std::uint32_t most) {
  std::uint32_t number = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
  return fault == std::errc() && end == text.data() + text.size() && number <= most ? std::optional(number) : std::nullopt;
}

// "3" or "1..24"; nothing given is no variant.
std::optional<Variants> variants_in(const std::string& text) {
  constexpr std::uint32_t most = 200;
  if (text.empty()) return Variants{};
  const std::size_t dots = text.find("..");
  const auto first = number_in(text.substr(0, dots), most), last = dots == text.npos ? first : number_in(text.substr(dots + 2), most);
  return first && last && *first >= 1 && *last >= *first ? std::optional(Variants{*first, *last}) : std::nullopt;
}

// Empty when the options make sense together.
std::string fault_of(const Call& call) {
  const std::string output = call.value("--output"), language = call.value("--language");
  const std::vector<std::string> languages = phrase_languages();
  if (output.empty()) return "handout needs --output, for example: --output press.pdf";
  if (std::filesystem::path(output).extension() != ".pdf") return output + " does not end with .pdf";
  if (call.files.size() != 1 || std::filesystem::is_directory(call.files.front())) return "handout takes one circuit file at a time";
  if (!pages::paper_named(call.value("--paper", "a4"))) return fmt::format("--paper is a4 or letter, not {}", call.value("--paper"));
  if (!language.empty() && std::find(languages.begin(), languages.end(), language) == languages.end())
    return fmt::format("--language is one of {}, not {}", fmt::join(languages, ", "), language);
  if (!number_in(call.value("--seed", "0"), most_seed)) return fmt::format("--seed is a whole number up to a thousand million, not {}", call.value("--seed"));
  if (call.has("--worksheet") && call.has("--answers")) return "--worksheet and --answers are two files: give one at a time";
  if (!variants_in(call.value("--variant"))) return fmt::format("--variant is a number or a range as 1..24, up to 200, not {}", call.value("--variant"));
  return {};
}

int run_handout(const Call& call, Talk& talk) {
  if (const std::string fault = fault_of(call); !fault.empty()) return say(talk, fault, exit_code::called_wrongly);
  return print({call.files.front(), call.value("--output"), call.value("--language"), *pages::paper_named(call.value("--paper", "a4")),
                call.has("--worksheet") ? Printed::worksheet : call.has("--answers") ? Printed::answers : Printed::lesson,
                *number_in(call.value("--seed", "0"), most_seed), *variants_in(call.value("--variant"))}, talk);
}

}  // namespace

extern const Verb handout_verb;
const Verb handout_verb{"handout", "FILE", "print a lesson on a circuit for a class", examples, options, run_handout};

}  // namespace ferrule
