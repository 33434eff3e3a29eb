#include "compiler/driver/variants.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

#include "checks/marking/differences.hpp"

namespace ferrule {
namespace {

constexpr double least_difference = 0.05;     // from one variant to the next, of one value at least
constexpr std::size_t tries_each = 60;

const std::string& text_of(const Compiled& compiled) {
  const Sources& sources = compiled.compilation->sources;
  std::uint32_t file = 0;
  while (file + 1 < sources.size() && sources[file].path != compiled.file) ++file;
  return sources[file].text;
}

// A value on the steps of its variation.
double drawn(const Variation& variation, std::minstd_rand& chance) {
  const auto places = static_cast<std::uint32_t>(std::floor((variation.most.si - variation.least.si) / variation.step.si + 1e-9)) + 1;
  return variation.least.si + static_cast<double>(chance() % places) * variation.step.si;
}

std::string with_values(std::string text, const std::vector<Variation>& variations, const std::vector<std::pair<std::string, Quantity>>& values) {
  std::vector<std::size_t> order(variations.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  // From the end, so that what stands before keeps its place.
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return variations[a].value.begin > variations[b].value.begin; });
  for (const std::size_t i : order) {
    const Span& span = variations[i].value;
    text.replace(span.begin, span.end - span.begin, shown(values[i].second));
  }
  return text;
}

std::set<std::string> findings_of(const Compiled& compiled, std::string_view today) {
  std::set<std::string> codes;
  for (const Message& message : judged(compiled, std::string(today)).messages)
    if (message.severity != Severity::advice) codes.insert(message.code + " " + message.subject);
  return codes;
}

// What the model does, to be kept.
struct Kept {
  const Compiled& model;
  marking::Record record;
  std::set<std::string> findings;
};

// What the model has numbers for the variant has as well.
bool settles_alike(const marking::Record& model, const marking::Record& variant) {
  return std::equal(model.states.begin(), model.states.end(), variant.states.begin(), variant.states.end(),
                    [](const marking::StateRecord& asked, const marking::StateRecord& got) { return got.settled || !asked.settled; });
}

bool does_the_same(const Kept& kept, const Compiled& variant, std::string_view today) {
  const std::set<std::string> findings = findings_of(variant, today);
  if (!std::includes(kept.findings.begin(), kept.findings.end(), findings.begin(), findings.end())) return false;
  const Circuit &model = kept.model.compilation->circuit, &circuit = variant.compilation->circuit;
  const marking::Record record = marking::record_of(circuit);
  if (!settles_alike(kept.record, record)) return false;
  const marking::Pairing pairing = marking::paired(model, kept.record, circuit, record);
  constexpr double any = 1e9;   // numbers are meant to differ
  const marking::Comparison comparison = marking::compared({model, kept.record}, {circuit, record}, pairing, any);
  return std::none_of(comparison.differences.begin(), comparison.differences.end(), [](const marking::Difference& difference) {
    return difference.aspect == marking::Aspect::function || difference.aspect == marking::Aspect::hold;
  });
}

bool differs(const Variant& variant, const std::vector<Variant>& before) {
  if (before.empty()) return true;
  for (std::size_t i = 0; i < variant.values.size(); ++i) {
    const double now = variant.values[i].second.si, then = before.back().values[i].second.si;
    if (std::fabs(now - then) > least_difference * std::fabs(then)) return true;
  }
  return false;
}

}  // namespace

std::vector<Variant> variants_of(const Compiled& model, std::size_t count, std::uint32_t seed, std::string_view today, std::string& why) {
  std::vector<Variant> found;
  const Circuit& circuit = model.compilation->circuit;
  const std::string& text = text_of(model);
  if (circuit.variations.empty()) {
    why = "the text varies nothing: write for example `let load = 25 kN` and `vary load from 20 kN to 30 kN by 2 kN`";
    return found;
  }
  for (const Variation& variation : circuit.variations)
    if (model.compilation->sources[variation.value.file].path != model.file) {
      why = fmt::format("`{}` gets its value in another file: only the file itself is varied", variation.name);
      return found;
    }
  const Kept kept{model, marking::record_of(circuit), findings_of(model, today)};
  std::minstd_rand chance(seed + 1);
  for (std::size_t tries = 0; found.size() < count && tries < tries_each * count; ++tries) {
    Variant variant;
    for (const Variation& variation : circuit.variations) variant.values.push_back({variation.name, {drawn(variation, chance), variation.least.dimension}});
    if (!differs(variant, found)) continue;
    variant.compiled = {std::make_unique<Disk>(model.root), nullptr, model.file, model.root};
    variant.compiled.compilation = compile(*variant.compiled.disk, model.file, with_values(text, circuit.variations, variant.values));
    if (does_the_same(kept, variant.compiled, today)) found.push_back(std::move(variant));
  }
  if (found.size() < count)
    why = fmt::format("only {} of {} variants keep what the circuit does, without new findings: vary less, or in wider steps", found.size(), count);
  return found;
}

}  // namespace ferrule
