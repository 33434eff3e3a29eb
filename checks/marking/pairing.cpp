#include "checks/marking/pairing.hpp"

#include <algorithm>
#include <cctype>
#include <numeric>

namespace ferrule::marking {
namespace {

constexpr std::size_t most_assignments = 24;

std::string bare(std::string_view name) {
  std::string out;
  for (const char c : name)
    if (std::isalnum(static_cast<unsigned char>(c)) || static_cast<unsigned char>(c) > 127) out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

bool same_data(const Part& a, const Part& b) {
  return a.definition == b.definition || (a.definition && b.definition && a.definition->name == b.definition->name)
             ? a.si("bore") == b.si("bore") && a.si("rod") == b.si("rod") && a.si("stroke") == b.si("stroke") && a.si("displacement") == b.si("displacement")
             : false;
}

// Takes what `alike` says first, in the order of the model; nothing is taken twice.
template <class Alike>
void take_alike(std::vector<int>& paired, std::size_t students, Alike alike) {
  for (std::size_t m = 0; m < paired.size(); ++m)
    for (std::size_t s = 0; s < students && paired[m] < 0; ++s)
      if (std::find(paired.begin(), paired.end(), static_cast<int>(s)) == paired.end() && alike(m, s)) paired[m] = static_cast<int>(s);
}

std::size_t differing(const StateRecord& model, const StateRecord& student, const std::vector<int>& actuators) {
  std::size_t count = model.idles != student.idles;
  for (std::size_t i = 0; i < actuators.size(); ++i)
    count += actuators[i] < 0 || model.actuators[i].moves != student.actuators[static_cast<std::size_t>(actuators[i])].moves;
  return count;
}

std::vector<int> states_by_name(const Record& models, const Record& students) {
  std::vector<int> paired(models.states.size(), -1);
  take_alike(paired, students.states.size(), [&](std::size_t m, std::size_t s) {
    return same_name(models.states[m].name, students.states[s].name) && models.states[m].state_class == students.states[s].state_class;
  });
  take_alike(paired, students.states.size(), [&](std::size_t m, std::size_t s) { return same_name(models.states[m].name, students.states[s].name); });
  return paired;
}

// Positions one at a time have no names that both know: rest is rest, of the others the pairs that differ least come first.
std::vector<int> states_as_sets(const Record& models, const Record& students, const std::vector<int>& actuators) {
  std::vector<int> paired(models.states.size(), -1);
  take_alike(paired, students.states.size(), [&](std::size_t m, std::size_t s) { return m == 0 && s == 0; });
  for (std::size_t allowed = 0; allowed <= actuators.size() + 1; ++allowed)
    take_alike(paired, students.states.size(), [&](std::size_t m, std::size_t s) { return differing(models.states[m], students.states[s], actuators) <= allowed; });
  return paired;
}

std::vector<int> states_of_pairing(const Circuit& model, const Record& models, const Record& students, const std::vector<int>& actuators) {
  return model.work.steps.size() ? states_by_name(models, students) : states_as_sets(models, students, actuators);
}

std::size_t differing(const Record& models, const Record& students, const Pairing& pairing) {
  std::size_t count = 0;
  for (std::size_t m = 0; m < pairing.states.size(); ++m)
    if (pairing.states[m] >= 0) count += differing(models.states[m], students.states[static_cast<std::size_t>(pairing.states[m])], pairing.actuators);
  return count;
}

// What names and data leave open is tried in every order, as long as these are few.
void try_assignments(const Circuit& model, const Record& models, const Record& students, std::vector<int>& actuators) {
  std::vector<std::size_t> open;
  std::vector<int> left;
  for (std::size_t m = 0; m < actuators.size(); ++m)
    if (actuators[m] < 0) open.push_back(m);
  for (std::size_t s = 0; s < students.actuators.size(); ++s)
    if (std::find(actuators.begin(), actuators.end(), static_cast<int>(s)) == actuators.end()) left.push_back(static_cast<int>(s));
  while (left.size() < open.size()) left.push_back(-1);
  std::vector<int> best;
  std::size_t fewest = 0, tried = 0;
  std::sort(left.begin(), left.end());
  do {
    Pairing trial{actuators, {}};
    for (std::size_t i = 0; i < open.size(); ++i) trial.actuators[open[i]] = left[i];
    trial.states = states_of_pairing(model, models, students, trial.actuators);
    const std::size_t count = differing(models, students, trial);
    if (best.empty() || count < fewest) best = trial.actuators, fewest = count;
  } while (++tried < most_assignments && std::next_permutation(left.begin(), left.end()));
  actuators = best;
}

}  // namespace

bool same_name(std::string_view a, std::string_view b) { return bare(a) == bare(b); }

Pairing paired(const Circuit& model, const Record& models, const Circuit& student, const Record& students) {
  Pairing out{std::vector<int>(models.actuators.size(), -1), {}};
  const auto of_model = [&](std::size_t m) -> const Part& { return model.parts[models.actuators[m]]; };
  const auto of_student = [&](std::size_t s) -> const Part& { return student.parts[students.actuators[s]]; };
  const std::size_t many = students.actuators.size();
  take_alike(out.actuators, many, [&](std::size_t m, std::size_t s) { return same_name(of_model(m).tag, of_student(s).tag); });
  take_alike(out.actuators, many, [&](std::size_t m, std::size_t s) {
    return !of_model(m).description.empty() && same_name(of_model(m).description, of_student(s).description);
  });
  std::vector<int> by_data = out.actuators;
  take_alike(by_data, many, [&](std::size_t m, std::size_t s) {
    const auto alike = [&](std::size_t other) { return same_data(of_model(m), of_student(other)); };
    std::size_t candidates = 0;
    for (std::size_t other = 0; other < many; ++other) candidates += alike(other);
    return candidates == 1 && alike(s);
  });
  out.actuators = by_data;
  try_assignments(model, models, students, out.actuators);
  out.states = states_of_pairing(model, models, students, out.actuators);
  return out;
}

Circuit under_the_task(const Circuit& student, const Circuit& model, const std::vector<PartId>& students,
                       const std::vector<PartId>& models, const Pairing& pairing) {
  Circuit out = student;
  for (Step& step : out.work.steps.rows)
    for (const Step& asked : model.work.steps) {
      if (!same_name(step.name, asked.name)) continue;
      for (Motion& motion : step.motions)
        for (const Motion& wanted : asked.motions) {
          const auto place = std::find(models.begin(), models.end(), wanted.actuator);
          if (place == models.end() || wanted.tie >= 0 || motion.tie >= 0) continue;
          const int partner = pairing.actuators[static_cast<std::size_t>(place - models.begin())];
          if (partner < 0 || students[static_cast<std::size_t>(partner)] != motion.actuator) continue;
          motion.load = wanted.load;
          motion.travel = wanted.travel;
        }
    }
  return out;
}

}  // namespace ferrule::marking
