#include "tests/published/check_rows.h"

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace ahead::test {
namespace {

/// No field of the file holds a comma: lists inside a field use semicolons.
std::vector<std::string> fields(const std::string& line) {
  std::vector<std::string> result;
  std::istringstream in(line);
  for (std::string field; std::getline(in, field, ',');) result.push_back(field);
  return result;
}

}  // namespace

std::vector<CheckRow> check_rows() {
  std::ifstream file(AHEAD_SOURCE_DIR "/tests/data/physics_checks.csv");
  if (!file) throw std::runtime_error("tests/data/physics_checks.csv cannot be read");
  std::vector<CheckRow> rows;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    const auto field = fields(line);
    if (field.size() != 10) throw std::runtime_error("not ten fields: " + line);
    rows.push_back({.id = field[0],
                    .quantity = field[1],
                    .conditions = field[2],
                    .expected = std::stod(field[3]),
                    .unit = field[4],
                    .tolerance = std::stod(field[5]),
                    .status = field[9]});
  }
  return rows;
}

}  // namespace ahead::test
