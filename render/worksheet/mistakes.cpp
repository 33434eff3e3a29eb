#include "render/worksheet/mistakes.hpp"

#include <algorithm>
#include <cmath>

namespace ferrule::worksheet {
namespace {

// A part of a formula, and what stands there in the wrong one. Common practice of marking.
struct Slip {
  std::string_view right, wrong, phrase;
};
constexpr Slip slips[] = {
    {"pi / 4 x (d^2 - d_r^2)", "pi / 4 x d^2", "wrong.ring-area"},
    {"pi / 4 x d^2", "pi x d^2", "wrong.radius"},
    {" - p_B x A_B", "", "wrong.other-side"},
    {" - p_A x A_A", "", "wrong.other-side"},
    {" / (2 x pi)", "", "wrong.two-pi"},
    {"2 x pi x ", "", "wrong.two-pi"},
    {" / (eta_v x eta_hm)", "", "wrong.efficiency"},
    {" x eta_v", "", "wrong.efficiency"},
    {"eta x ", "", "wrong.efficiency"},
    {" / eta_v", "", "wrong.efficiency"},
    {"dp x q", "600 x dp x q", "wrong.six-hundred"},
    {" - F_f", "", "wrong.friction"},
};

// The result when the formula of one line is replaced; lines after it follow. None when nothing comes of it.
std::optional<double> result_with(working::Worked worked, std::size_t line, std::string formula) {
  worked.values[line].formula = std::move(formula);
  for (std::size_t i = line; i < worked.values.size(); ++i)
    if (!worked.values[i].formula.empty()) worked.values[i].si = working::by_formula(worked, worked.values[i]);
  return worked.result().si;
}

}  // namespace

std::vector<Mistake> mistakes_in(const working::Worked& worked, double tolerance) {
  std::vector<Mistake> found;
  if (!worked.result().si) return found;
  const double right = *worked.result().si;
  for (std::size_t line = 0; line < worked.values.size(); ++line) {
    const std::string& formula = worked.values[line].formula;
    for (const Slip& slip : slips) {
      const std::size_t at = formula.find(slip.right);
      if (at == formula.npos) continue;
      std::string wrong = formula;
      wrong.replace(at, slip.right.size(), slip.wrong);
      const auto answer = result_with(worked, line, wrong);
      const bool known = std::any_of(found.begin(), found.end(), [&](const Mistake& m) { return m.phrase == slip.phrase; });
      if (known || !answer || !std::isfinite(*answer) || std::fabs(*answer - right) <= tolerance * std::fabs(right)) continue;
      working::Value value = worked.result();
      value.si = answer;
      found.push_back({slip.phrase, value});
    }
  }
  return found;
}

}  // namespace ferrule::worksheet
