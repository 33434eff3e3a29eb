// Which actuator and which state of a student's circuit stands for which of the model.
#pragma once

#include "checks/marking/record.hpp"

namespace ferrule::marking {

struct Pairing {
  std::vector<int> actuators;  // by actuator of the model: index into the student's, -1 without a counterpart
  std::vector<int> states;     // by state of the model, likewise
};

// Actuators by name, else by kind and data, else as the fewest motions differ (at most 24 assignments are tried).
// States by name; without a cycle in the model the best pairs first.
Pairing paired(const Circuit& model, const Record& models, const Circuit& student, const Record& students);

// The student's circuit under the task: loads and travels that the model states for steps and actuators of the same name.
Circuit under_the_task(const Circuit& student, const Circuit& model, const std::vector<PartId>& students,
                       const std::vector<PartId>& models, const Pairing& pairing);

// Names of steps agree when letters and figures do: "Press", "press" and "pre-ss" are one.
bool same_name(std::string_view a, std::string_view b);

}  // namespace ferrule::marking
