#include <algorithm>
#include <cstdio>
#include <ostream>
#include <set>

#include <gtest/gtest.h>

#include "tests/published/check_rows.h"

// Every published value is computed by the engine's public functions, within the row's tolerance.
namespace ahead::test {

void PrintTo(const CheckRow& row, std::ostream* out) { *out << row.id; }

namespace {

Answers all_answers() {
  Answers all = motion_answers();
  all.merge(strike_answers());
  all.merge(ball_ball_answers());
  all.merge(cushion_answers());
  all.merge(group_answers());
  return all;
}

std::vector<CheckRow> rows_that_run() {
  std::vector<CheckRow> rows = check_rows();
  std::erase_if(rows, [](const CheckRow& row) { return !row.runs(); });
  return rows;
}

class ThePublishedValue : public ::testing::TestWithParam<CheckRow> {};

TEST_P(ThePublishedValue, IsMet) {
  const CheckRow& row = GetParam();
  const Answers answers = all_answers();
  ASSERT_TRUE(answers.contains(row.id)) << "no function computes this row";

  EXPECT_NEAR(answers.at(row.id)(), row.expected, row.tolerance)
      << row.quantity << " (" << row.unit << "): " << row.conditions;
}

INSTANTIATE_TEST_SUITE_P(CheckTable, ThePublishedValue, ::testing::ValuesIn(rows_that_run()),
                         [](const auto& row) { return row.param.id; });

TEST(ThePublishedTable, IsRunRowByRowOrSaysWhyNot) {
  const Answers answers = all_answers();
  std::set<std::string> ids;
  int run = 0;
  for (const CheckRow& row : check_rows()) {
    ids.insert(row.id);
    EXPECT_EQ(answers.contains(row.id), row.runs()) << row.id << ": " << row.status;
    if (row.runs()) {
      ++run;
    } else {
      EXPECT_TRUE(row.status.starts_with("not run: ") && row.status.size() > 30) << row.id;
    }
  }
  EXPECT_EQ(ids.size(), 112U);
  for (const auto& [id, answer] : answers) EXPECT_TRUE(ids.contains(id)) << id << " is no row";

  std::printf("%d of %zu published rows run\n", run, ids.size());
  RecordProperty("rows_run", run);
}

}  // namespace
}  // namespace ahead::test
