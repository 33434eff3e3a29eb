// `let` names: their values, whatever the order they are written in.
#pragma once

#include <map>

#include "compiler/language/values.hpp"

namespace ferrule {

class Lets : public Names {
 public:
  explicit Lets(Reading& reading) : reading_(reading) {}
  void add(const Statement& statement);  // reads `let NAME = FORMULA`; a name given twice is reported
  void compute_all();                    // so that faults of unused names are told too
  Meaning find(std::string_view word, Span use) override;
  std::vector<std::string> known() const override;
  // Where the value of a name is written, and of what dimension it is; none when no `let` gives one.
  struct Said { Span value; Dimension dimension; };
  std::optional<Said> said(std::string_view name) const;

 private:
  struct Let {
    Formula formula;
    Span name;
    enum class State : std::uint8_t { waiting, computing, done } state = State::waiting;
    std::optional<Quantity> value;
  };
  Meaning compute(std::string_view name, Let& let, Span use);

  Reading& reading_;
  std::map<std::string, Let, std::less<>> lets_;
  int depth_ = 0;
};

}  // namespace ferrule
