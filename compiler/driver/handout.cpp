// ferrule handout: a lesson on a circuit, ready to be printed for a class.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <ctime>
#include <filesystem>

#include "checks/report/cautions.hpp"
#include "checks/report/letters.hpp"
#include "compiler/driver/computed.hpp"
#include "compiler/driver/nearest.hpp"
#include "compiler/driver/outputs.hpp"
#include "render/handout/lesson.hpp"
#include "render/worksheet/question.hpp"

namespace ferrule {
namespace {

constexpr Example examples[] = {
    {"ferrule handout press.fer --output press.pdf", "title page, sheet, symbols, parts, steps, a page for every state, results"},
    {"ferrule handout press.fer --output press.pdf --paper letter --language de", "on US Letter, in German"},
    {"ferrule handout press.fer --worksheet --seed 7 --output sheet.pdf", "questions with room to write; the same seed asks the same"},
    {"ferrule handout press.fer --answers --seed 7 --output key.pdf", "their key for the instructor, with workings and usual mistakes"},
};
constexpr Option options[] = {
    {"--output", "PATH", "where to; ends with .pdf"},
    {"--worksheet", "", "questions on the circuit instead of the lesson"},
    {"--answers", "", "the key to those questions"},
    {"--seed", "NUMBER", "which questions are chosen (0)"},
    {"--paper", "NAME", "a4 (default) or letter; what does not fit in true size comes on a page twice as large, to be folded"},
    {"--language", "CODE", "en or de: of all fixed phrases (default: the sheet's `language`, else en)"},
};

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

struct Wanted {
  std::string file, output, language;
  pages::Paper paper;
  Printed printed = Printed::lesson;
  std::uint32_t seed = 0;
};

pages::Document document_of(const Wanted& wanted, const handout::Lesson& lesson, std::vector<std::string>& notes) {
  if (wanted.printed == Printed::lesson) return handout::handout(lesson, notes);
  const worksheet::Questions questions = worksheet::questions_on(lesson, wanted.seed, notes);
  return wanted.printed == Printed::worksheet ? worksheet::worksheet(lesson, questions, notes) : worksheet::answers(lesson, questions);
}

std::optional<std::uint32_t> seed_of(const std::string& text) {
  std::uint32_t seed = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), seed);
  return fault == std::errc() && end == text.data() + text.size() && seed <= 1'000'000'000 ? std::optional(seed) : std::nullopt;
}

int print(const Wanted& wanted, Talk& talk) {
  const Compiled one = compiled(wanted.file, talk);
  if (!one.compilation || one.compilation->unreadable) return exit_code::unreadable;
  if (has_faults(one, talk)) return exit_code::found;
  const Circuit& circuit = one.compilation->circuit;
  const Computed known = computed(circuit);
  if (const std::string limit = too_many_results(circuit, known.book->told().size(), cut_it_up); !limit.empty()) return say(talk, limit, exit_code::called_wrongly);
  const Phrases phrases(wanted.language.empty() ? text_of_sheet(circuit, "language") : wanted.language);
  const std::string source = wanted.file == "-" ? "circuit" : std::filesystem::path(wanted.file).stem().string();
  const handout::Lesson lesson{*one.compilation, *known.book, phrases, wanted.paper, source, cautions_for(circuit), date_of(circuit, talk.source_date_epoch)};
  std::vector<std::string> notes;
  const pages::Document document = document_of(wanted, lesson, notes);
  for (const std::string& note : notes) say(talk, wanted.file + ": " + note, exit_code::done);
  const pages::Printed printed = pages::pdf_of(document, pages::pages_of(document, wanted.paper), talk.source_date_epoch);
  if (!printed.error.empty()) return say(talk, printed.error, exit_code::not_written);
  return put_file(wanted.output, printed.bytes, talk);
}

int run_handout(const Call& call, Talk& talk) {
  const std::string output = call.value("--output"), paper = call.value("--paper", "a4"), language = call.value("--language");
  if (output.empty()) return say(talk, "handout needs --output, for example: --output press.pdf", exit_code::called_wrongly);
  if (std::filesystem::path(output).extension() != ".pdf") return say(talk, output + " does not end with .pdf", exit_code::called_wrongly);
  if (call.files.size() != 1 || std::filesystem::is_directory(call.files.front()))
    return say(talk, "handout takes one circuit file at a time", exit_code::called_wrongly);
  const auto found = pages::paper_named(paper);
  if (!found) return say(talk, fmt::format("--paper is a4 or letter, not {}", paper), exit_code::called_wrongly);
  const std::vector<std::string> languages = phrase_languages();
  if (!language.empty() && std::find(languages.begin(), languages.end(), language) == languages.end())
    return say(talk, fmt::format("--language is one of {}, not {}", fmt::join(languages, ", "), language), exit_code::called_wrongly);
  const auto seed = seed_of(call.value("--seed", "0"));
  if (!seed) return say(talk, fmt::format("--seed is a whole number up to a thousand million, not {}", call.value("--seed")), exit_code::called_wrongly);
  if (call.has("--worksheet") && call.has("--answers")) return say(talk, "--worksheet and --answers are two files: give one at a time", exit_code::called_wrongly);
  const Printed printed = call.has("--worksheet") ? Printed::worksheet : call.has("--answers") ? Printed::answers : Printed::lesson;
  return print({call.files.front(), output, language, *found, printed, *seed}, talk);
}

}  // namespace

extern const Verb handout_verb;
const Verb handout_verb{"handout", "FILE", "print a lesson on a circuit for a class", examples, options, run_handout};

}  // namespace ferrule
