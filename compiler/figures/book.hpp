// The book of a circuit's results: every address of the language, with its working, from the operating points.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "compiler/figures/moment.hpp"
#include "compiler/figures/worked.hpp"
#include "compiler/hydraulics/solve.hpp"

namespace ferrule::working {

// What an address is about. A part has one subject; `where` is how people write it.
enum class Kind : std::uint8_t { line, pump, drive, cylinder, motor, valve, store, port, function, step, cycle, oil };

struct Subject {
  Kind kind = Kind::valve;
  std::string where;             // "1A1", "0P1.P", "return", "squeeze", "cycle", "oil"
  PartId part;
  ElementId element;             // the one that the part's results are about
  PortId port;
  LineFunction function = LineFunction::pressure;
  StepId step;
  const hydraulics::MovingBody* body = nullptr;
};

// What one step of the cycle comes to.
struct StepTotal {
  std::size_t state = 0;                 // index into the states
  std::optional<double> time;            // s
  std::string why_no_time;
  double shaft = 0, hydraulic = 0, work = 0, heat = 0;  // W
};

struct CycleTotal {
  std::vector<StepTotal> steps;          // in the order of the cycle
  std::optional<double> time;            // s
  std::string why_none;
  double shaft = 0, peak_shaft = 0, hydraulic = 0, work = 0, heat = 0;  // W, means over the cycle (peak: the greatest step)
};

// The oil when heat in and heat given off balance.
struct Climate {
  std::optional<double> kelvin;
  std::string why_none;
  double kinematic_viscosity = 0;        // m2/s at that temperature
  double heat = 0;                       // W, mean over the cycle at that temperature
  double ambient = 293.15, wall = 0, cooler = 0, duty = 0;  // K, W/K, W/K, W
  double coolant = 293.15;               // K
  bool fixed = false;                    // the text states temperature or viscosity: the heat is that of the stated oil
};

class Book {
 public:
  // All must outlive the book. Points are solved as they are asked for.
  Book(const Circuit& circuit, std::span<const State> states, const Points& points);
  ~Book();

  const Circuit& circuit;
  std::span<const State> states;

  const OperatingPoint& point(std::size_t state) const { return points_[state]; }
  const Moment& moment(std::size_t state) const;
  // The same state with one actuator held still, as it is when its load is too great: what it can bring up.
  const OperatingPoint& held(std::size_t state, const hydraulics::MovingBody& body) const;

  // The same at the greatest load under which it still moves: for oil that is shut in as soon as it stands.
  const OperatingPoint& hardly_moving(std::size_t state, const hydraulics::MovingBody& body, bool outward) const;

  // States that results are told of: rest, the steps, and without a cycle the single actuations.
  std::vector<std::size_t> told() const;
  std::optional<std::size_t> state_of(StepId step) const;
  std::optional<std::size_t> state_named(std::string_view name) const;

  const CycleTotal& cycle() const;
  const Climate& climate() const;

  // None when nothing has that name. `what` decides between a step and a line function of one name (`return.velocity`).
  std::optional<Subject> subject(std::string_view where, std::string_view what = {}) const;
  std::vector<Subject> subjects() const;            // all parts that have results, in the order of the text
  std::span<const std::uint32_t> elements_of(PartId part) const;

  // `what` is a word of result_words(). `state` is ignored for what belongs to the cycle.
  // A result that does not exist there has its reason.
  Worked result(const Subject& subject, std::string_view what, std::size_t state) const;
  // Which words have a law for this subject.
  std::vector<std::string_view> words_for(Kind kind) const;

 private:
  struct Kept;
  const Points& points_;
  std::vector<hydraulics::MovingBody> bodies_;
  std::vector<std::vector<std::uint32_t>> elements_;   // by part
  std::unique_ptr<Kept> kept_;
};

// "1A1.speed", "0P1.P.pressure": the last dot separates what from where.
std::string address_of(const Subject& subject, std::string_view what);
// Something is joined there: an unjoined or plugged port has no pressure that matters.
bool is_joined(const Circuit& circuit, const Node& node);
// The word people use for a part: its tag, and of a line without a tag what it joins.
std::string place_of(const Circuit& circuit, PartId part);

}  // namespace ferrule::working
