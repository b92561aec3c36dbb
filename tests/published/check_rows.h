#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

/// The published check values, tests/data/physics_checks.csv, and the functions that compute them.
///
/// The file holds what is given in words, the expected value, its tolerance with the reason, and
/// the source. Its last column says "run", or why the engine cannot be asked for the value.
namespace ahead::test {

struct CheckRow {
  std::string id;
  std::string quantity;
  std::string conditions;
  double expected = 0;
  std::string unit;
  double tolerance = 0;
  std::string status;

  [[nodiscard]] bool runs() const { return status == "run"; }
};

[[nodiscard]] std::vector<CheckRow> check_rows();

/// From a row's id to the value that the engine gives, in the row's unit.
using Answers = std::map<std::string, std::function<double()>>;

[[nodiscard]] Answers motion_answers();     ///< rows B and G
[[nodiscard]] Answers strike_answers();     ///< rows C
[[nodiscard]] Answers ball_ball_answers();  ///< rows D and H
[[nodiscard]] Answers cushion_answers();    ///< rows E
[[nodiscard]] Answers group_answers();      ///< rows F

}  // namespace ahead::test
