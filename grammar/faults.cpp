#include "grammar/faults.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace ferrule {
namespace {

// `{}` in a sentence stands for the characters at place A.
struct Wording {
  FaultKind kind;
  std::string_view code, rule;
  Severity severity;
  bool readable;
  std::string_view sentence, fix, phrase_a, phrase_b;
  std::string_view why;  // for `ferrule explain`
};

constexpr Wording wordings[] = {
    {FaultKind::not_text, "T-01", "not-text", Severity::error, false, "the file is no text: it holds a zero byte",
     "give a circuit as plain text; if an editor wrote it, save it again as UTF-8", "first zero byte", "",
     "A circuit is plain text; a zero byte means that the file is a picture, an archive or text in another encoding."},
    {FaultKind::not_utf8, "T-02", "not-utf-8", Severity::error, false, "the file is not UTF-8 text: this byte belongs to no character",
     "save the file again with the encoding UTF-8", "", "",
     "Signs such as the degree and the micro sign have other bytes in other encodings, so guessing would change what is read."},
    {FaultKind::file_too_big, "T-03", "file-too-big", Severity::error, false, "the file is larger than 4 MiB",
     "split the circuit into files and join them with `include`", "the limit is reached here", "",
     "Everything that is read stays in memory, and a circuit of 4 MiB would have a hundred thousand lines."},
    {FaultKind::nested_too_deep, "T-04", "nested-too-deep", Severity::error, false, "blocks stand inside one another more than 128 deep",
     "close the blocks with `}`; a circuit needs four or five levels", "this is number 129", "",
     "A file that is damaged or made to do harm can open blocks without end; 128 levels are far more than a circuit needs."},
    {FaultKind::block_not_closed, "T-05", "block-not-closed", Severity::error, false, "this block is not closed",
     "write `}` where the block ends, for example `gauge 0Z4 { range 0 to 250 bar }`", "opened here", "it should have ended before this",
     "What follows would be read as belonging to the block. Where it should have ended is judged by the indentation."},
    {FaultKind::brace_closes_nothing, "T-06", "brace-closes-nothing", Severity::error, false, "this `}` closes no block",
     "leave it out, or write the `{` of its block", "", "",
     "Either a block was closed twice, or the brace that opens it is missing; both change what belongs together."},
    {FaultKind::brace_missing, "T-07", "brace-missing", Severity::error, false,
     "lines that belong to this statement follow, but no `{` opens them",
     "write `{` at the end of this line, for example `valve 1V1 {`", "`{` is missing after this", "first line inside",
     "Indented lines look as if they belonged to the statement above them, but only braces say so."},
    {FaultKind::text_not_closed, "T-08", "text-not-closed", Severity::error, false, "the text that begins here is not closed",
     "write a second `\"` on the same line, followed by a blank: \"squeeze\"", "", "",
     "A text ends on its own line, so that one forgotten quotation mark cannot swallow the rest of the file."},
    {FaultKind::curly_quotes, "T-09", "curly-quotes", Severity::error, true, "{} stands in typographic quotation marks",
     "use straight ones: \"squeeze\"", "", "",
     "Word processors put them in; the text between them was read, but other tools may not know them."},
    {FaultKind::single_quotes, "T-10", "single-quotes", Severity::error, true, "{} stands in single quotation marks",
     "use double ones: \"squeeze\"", "", "",
     "One form of text is enough, and the apostrophe is needed inside texts."},
    {FaultKind::long_dash, "T-11", "long-dash", Severity::error, true, "`{}` is a typographic dash",
     "write `--` between the ends of a run, and `-` for minus and inside words", "", "",
     "Word processors put them in; a dash of another length is another character, and in a printout nobody sees which."},
    {FaultKind::decimal_comma, "T-12", "decimal-comma", Severity::warning, true,
     "`{}` is read with a decimal comma, because no blank follows it",
     "write a point, `1.5 m`; thousands without a sign, `1450 rpm`; between two facts a blank behind the comma", "", "",
     "In a list of facts a comma parts; between two digits without a blank it can only be a decimal comma. Read as a number."},
    {FaultKind::inch_mark, "T-13", "inch-mark", Severity::error, false, "`{}` ends with a quotation mark, which begins a text here",
     "write inches as `in`, for example `3/8 in`", "", "",
     "A quotation mark begins a text, so the facts that follow would be read as part of it."},
    {FaultKind::hidden_character, "T-14", "hidden-character", Severity::error, false, "an invisible character ({}) stands here",
     "delete it; retyping the line is the surest way", "", "",
     "Invisible characters make two names that look the same differ, or make a line read otherwise than it is."},
    {FaultKind::direction_character, "T-15", "direction-character-in-text", Severity::warning, true,
     "the text holds a character that does not show, or turns the reading direction ({})",
     "delete it, unless the text is in a script that reads from right to left", "", "",
     "Characters that turn the reading direction can make a text show something else than it says."},
    {FaultKind::foreign_letter, "T-16", "foreign-letter", Severity::error, false, "`{}` has letters outside a to z",
     "spell words and tags with a to z; anything may stand in a text: \"Größe\"", "", "",
     "Tags and words are typed on any keyboard and compared letter by letter; letters that look alike would part them."},
    {FaultKind::unknown_sign, "T-17", "unknown-sign", Severity::error, false, "`{}` has no meaning here", "leave it out", "", "",
     "A sign without a meaning is more likely a slip than an ornament."},
    {FaultKind::comma_outside_braces, "T-18", "comma-outside-braces", Severity::error, false,
     "a comma parts facts, and facts stand in braces",
     "put the facts in braces, `gauge 0Z4 { closed, by push-button }`, or join words by `and`", "", "",
     "At the level of the file a line is a statement; commas part facts, which belong to something and so stand in braces."},
    {FaultKind::nothing_between_commas, "T-19", "nothing-between-commas", Severity::error, false, "nothing stands before this comma",
     "leave the comma out, or write the fact that is missing", "", "",
     "A fact may have been lost between two commas."},
    {FaultKind::too_many_faults, "T-20", "too-many-faults", Severity::error, false,
     "so much of this file can't be read that the rest is not reported", "see whether it is a circuit at all", "", "",
     "After a thousand faults the file is most likely no circuit, and listing more helps nobody."},
    {FaultKind::too_long, "T-21", "too-long", Severity::error, false, "`{}` is longer than a word (1000 bytes) or a text (4000 bytes) may be",
     "shorten it, or see whether this is a circuit at all", "", "",
     "Every message that names a word repeats it, and no sheet has room for more."},
};

const Wording& wording_of(FaultKind kind) {
  return *std::find_if(std::begin(wordings), std::end(wordings), [kind](const Wording& w) { return w.kind == kind; });
}

// Signs that other notations use, and what says the same here.
struct Instead {
  std::string_view sign, write;
};
constexpr Instead instead[] = {
    {"->", "a path is written `P>A`, a joint between ends `--`"},
    {"=>", "a path is written `P>A`, a joint between ends `--`"},
    {"-->", "between the ends of a run stands `--`; the states say which way the oil runs"},
    {"→", "a path is written `P>A`"},
    {"<=", "write `at most 5 bar`"},
    {"≤", "write `at most 5 bar`"},
    {">=", "write `at least 5 bar`"},
    {"≥", "write `at least 5 bar`"},
    {"==", "write `is`, or `=` after the name in `let`"},
    {"!=", "conditions are joined by `and`, `or`, `not`"},
    {"!", "write `not`"},
    {"&", "write `and`"},
    {"|", "write `or`; a one-way path is `A|>T`"},
    {"//", "a remark begins with `#`"},
    {"/*", "a remark begins with `#` and ends with the line"},
    {";", "a comma or a line end parts facts, a line end parts statements"},
    {"[", "write braces: `{length 1.5 m}`"},
    {"]", "write braces: `{length 1.5 m}`"},
    {"@", "write `at`"},
    {"±", "write `12 L/min within 3 %`"},
    {"×", "write `x`: `22 x 1.5 mm`"},
    {"⌀", "say which diameter it is: `bore 63 mm`"},
    {"…", "write `0 to 250 bar`"},
    {"½", "write `1/2 in`"},
    {"¼", "write `1/4 in`"},
    {"¾", "write `3/4 in`"},
    {".", "a dot joins the parts of a name, without blanks: `1V1.A`"},
    {"'", "texts stand in double quotation marks: \"squeeze\""},
    {"`", "texts stand in double quotation marks: \"squeeze\""},
};

std::string what_to_write_instead_of(std::string_view sign, std::string_view otherwise) {
  for (const Instead& row : instead)
    if (sign == row.sign) return std::string(row.write);
  for (const Instead& row : instead)  // a run such as `;;`
    if (sign.starts_with(row.sign)) return std::string(row.write);
  return std::string(otherwise);
}

// U+202E for the first character outside printable ASCII, since printing it would hide it again.
std::string code_point_in(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte >= 0x20 && byte < 0x7F) continue;
    if (byte < 0xC0) return fmt::format("U+{:04X}", byte);
    const int more = byte < 0xE0 ? 1 : byte < 0xF0 ? 2 : 3;
    std::uint32_t point = byte & (0x3F >> more);
    for (int k = 1; k <= more && i + k < text.size(); ++k) point = point << 6 | (static_cast<unsigned char>(text[i + k]) & 0x3F);
    return fmt::format("U+{:04X}", point);
  }
  return "";
}

constexpr std::size_t longest_quotation = 60;  // bytes; a bubble in an editor shows one line

std::string quotation(const Fault& fault, const Sources& sources) {
  const std::string_view text = sources.text(fault.at);
  if (fault.kind == FaultKind::hidden_character || fault.kind == FaultKind::direction_character) return code_point_in(text);
  if (text.size() <= longest_quotation) return std::string(text);
  std::size_t end = longest_quotation;
  while ((static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  return std::string(text.substr(0, end)) + "..";
}

}  // namespace

std::vector<FaultPage> fault_pages() {
  std::vector<FaultPage> pages;
  for (const Wording& wording : wordings) pages.push_back({wording.code, wording.rule, wording.why, wording.fix, wording.severity});
  return pages;
}

bool readable(FaultKind kind) { return kind == FaultKind::none || wording_of(kind).readable; }

Message message_of(const Fault& fault, const Sources& sources) {
  const Wording& wording = wording_of(fault.kind);
  Message message;
  message.code = wording.code;
  message.rule = wording.rule;
  message.severity = wording.severity;
  const std::string quoted = quotation(fault, sources);
  message.sentence = wording.sentence;
  if (const auto hole = message.sentence.find("{}"); hole != std::string::npos) message.sentence.replace(hole, 2, quoted);
  message.fix = wording.fix;
  if (fault.kind == FaultKind::unknown_sign) message.fix = what_to_write_instead_of(quoted, wording.fix);
  message.places.push_back({fault.at, std::string(wording.phrase_a)});
  if (fault.shown_by != Span{}) message.places.push_back({fault.shown_by, std::string(wording.phrase_b)});
  return message;
}

}  // namespace ferrule
