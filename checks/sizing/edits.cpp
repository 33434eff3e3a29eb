#include "checks/sizing/edits.hpp"

#include <algorithm>

namespace ferrule::sizing {
namespace {

bool lies_in(Span inner, Span outer) { return inner.file == outer.file && inner.begin >= outer.begin && inner.end <= outer.end && !inner.empty(); }

// What the part's own statement says; not what `like` and `every` bring.
const FactValue* stated(const Part& part, std::string_view name) {
  const FactValue* fact = part.fact(name);
  return fact && fact->origin == Origin::given && lies_in(fact->span, part.statement) ? fact : nullptr;
}

// In a size a fact stands without its name.
bool is_named(const Compilation& compilation, const FactValue& fact) { return compilation.sources.text(fact.span).starts_with(fact.name); }

std::string_view number_of(std::string_view written) { return written.substr(0, written.find(' ')); }

const Written* among(const std::vector<Written>& facts, std::string_view name) {
  const auto found = std::find_if(facts.begin(), facts.end(), [&](const Written& one) { return one.first == name; });
  return found == facts.end() ? nullptr : &*found;
}

// The pattern whose facts are all among these, with the most of them.
const std::vector<std::string>* pattern_for(const Definition& definition, const std::vector<Written>& facts) {
  const std::vector<std::string>* best = nullptr;
  for (const auto& pattern : definition.sizes) {
    const auto is_open = [&](const std::string& word) { return definition.fact(word) && !among(facts, word); };
    if (std::none_of(pattern.begin(), pattern.end(), is_open) && (!best || pattern.size() > best->size())) best = &pattern;
  }
  return best;
}

// "20 x 2 mm": one unit at the end, as people write it. `from` leaves out literal words at the beginning.
std::string by_pattern(const std::vector<std::string>& pattern, const std::vector<Written>& facts, std::size_t from) {
  std::string text;
  for (std::size_t i = from; i < pattern.size(); ++i) {
    const Written* fact = among(facts, pattern[i]);
    if (!text.empty()) text += ' ';
    if (!fact) text += pattern[i];
    else text += i + 1 < pattern.size() ? number_of(fact->second) : std::string_view(fact->second);
  }
  return text;
}

// A size that stands in its pattern; false when the statement writes its facts by name, or has none.
bool put_size(const Compilation& compilation, const Part& part, const std::vector<Written>& facts, std::vector<Edit>& edits) {
  Span at;
  std::size_t stands = 0;
  for (const auto& pattern : part.definition->sizes)
    for (const std::string& word : pattern)
      if (const FactValue* fact = stated(part, word); fact && !is_named(compilation, *fact) && !lies_in(fact->span, at))
        at = at.empty() ? fact->span : ferrule::joined(at.begin < fact->span.begin ? at : fact->span, at.begin < fact->span.begin ? fact->span : at), ++stands;
  const std::vector<std::string>* pattern = pattern_for(*part.definition, facts);
  if (stands == 0 || !pattern) return false;
  std::size_t literals = 0;
  while (literals < pattern->size() && !part.definition->fact((*pattern)[literals])) ++literals;
  const bool same = literals < pattern->size() && stated(part, (*pattern)[literals]);
  edits.push_back({at, by_pattern(*pattern, facts, same ? literals : 0)});
  return true;
}

// Before the brace that closes the statement's block; a statement without a block gets one.
Edit added(const Compilation& compilation, const Part& part, const std::string& facts) {
  const Span whole = part.statement;
  const std::string_view text = compilation.sources.text(whole);
  const auto place = [&](std::size_t at) { return Span{whole.file, whole.begin + static_cast<std::uint32_t>(at), whole.begin + static_cast<std::uint32_t>(at)}; };
  const std::size_t brace = text.find_last_of('}');
  if (brace == text.npos) return {place(text.find_last_not_of(" \t\r\n") + 1), " { " + facts + " }"};
  const std::size_t last = text.find_last_not_of(" \t", brace - 1);
  if (text[last] == '{' || text[last] == '\n') return {place(brace), facts + " "};
  return {place(last + 1), ", " + facts};
}

std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    lines.push_back(text.substr(from, end - from));
    from = end + 1;
  }
  return lines;
}

// A statement is known by its first two words, whatever facts follow.
std::string_view head_of(std::string_view line) {
  const std::size_t first = line.find_first_not_of(' '), word = line.find_first_not_of(' ', std::min(line.find(' ', std::min(first, line.size())), line.size()));
  return line.substr(0, std::min(line.find(' ', std::min(word, line.size())), line.size()));
}

}  // namespace

std::vector<Edit> with_facts(const Compilation& compilation, const Part& part, const std::vector<Written>& facts) {
  std::vector<Edit> edits;
  std::string missing;
  const bool sized = put_size(compilation, part, facts, edits);
  const auto* pattern = sized ? pattern_for(*part.definition, facts) : nullptr;
  for (const auto& [name, value] : facts) {
    if (pattern && std::find(pattern->begin(), pattern->end(), name) != pattern->end()) continue;
    if (const FactValue* fact = stated(part, name)) edits.push_back({fact->span, name + " " + value});
    else missing += (missing.empty() ? "" : ", ") + name + " " + value;
  }
  if (!missing.empty()) edits.push_back(added(compilation, part, missing));
  return edits;
}

bool is_stated_in(const Compilation& compilation, const Part& part, std::string_view path) {
  return part.assembly.empty() && !part.statement.empty() && compilation.sources[part.statement.file].path == path;
}

std::string applied(std::string text, std::vector<Edit> edits) {
  std::stable_sort(edits.begin(), edits.end(), [](const Edit& a, const Edit& b) { return a.at.begin > b.at.begin; });
  for (const Edit& edit : edits) text.replace(edit.at.begin, edit.at.end - edit.at.begin, edit.text);
  return text;
}

std::vector<ChangedLine> changed_lines(std::string_view before, std::string_view after) {
  const std::vector<std::string_view> old = lines_of(before), now = lines_of(after);
  std::vector<ChangedLine> changed;
  std::size_t i = 0;
  for (std::size_t j = 0; j < now.size(); ++j) {
    if (i < old.size() && now[j] == old[i]) {
      ++i;
      continue;
    }
    const bool may_be_new = now.size() - j > old.size() - i;
    const bool is_new = may_be_new && (i == old.size() || (j + 1 < now.size() && head_of(now[j + 1]) == head_of(old[i])));
    changed.push_back({is_new ? i : i + 1, is_new, std::string(now[j])});
    if (!is_new) ++i;
  }
  return changed;
}

}  // namespace ferrule::sizing
