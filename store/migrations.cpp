#include "store/migrations.h"

#include <array>
#include <cstddef>
#include <string>

#include "store/statement.h"

namespace ahead::store {
namespace {

// A step is never changed once a file of it may exist: a later one mends it.
constexpr std::array steps{
    // 1: what is set up once, and layouts.
    R"(
    CREATE TABLE tables (
      id TEXT PRIMARY KEY, revision INTEGER NOT NULL CHECK (revision > 0), name TEXT NOT NULL,
      document TEXT NOT NULL CHECK (json_valid(document)), facts TEXT NOT NULL,
      created TEXT NOT NULL, changed TEXT NOT NULL) STRICT;
    CREATE TABLE players (
      id TEXT PRIMARY KEY, revision INTEGER NOT NULL CHECK (revision > 0), name TEXT NOT NULL,
      document TEXT NOT NULL CHECK (json_valid(document)), facts TEXT NOT NULL,
      created TEXT NOT NULL, changed TEXT NOT NULL) STRICT;
    CREATE TABLE layouts (
      id TEXT PRIMARY KEY, revision INTEGER NOT NULL CHECK (revision > 0), name TEXT NOT NULL,
      document TEXT NOT NULL CHECK (json_valid(document)), facts TEXT NOT NULL,
      created TEXT NOT NULL, changed TEXT NOT NULL) STRICT;
    )",
    // 2: plans with every revision. A plan outlives the layout and the plan that it came from.
    R"(
    CREATE TABLE plans (
      id TEXT PRIMARY KEY, revision INTEGER NOT NULL CHECK (revision > 0), name TEXT NOT NULL,
      document TEXT NOT NULL CHECK (json_valid(document)), facts TEXT NOT NULL,
      created TEXT NOT NULL, changed TEXT NOT NULL,
      layout TEXT REFERENCES layouts(id) ON DELETE SET NULL,
      parent TEXT REFERENCES plans(id) ON DELETE SET NULL) STRICT;
    CREATE TABLE plan_history (
      plan TEXT NOT NULL REFERENCES plans(id) ON DELETE CASCADE,
      revision INTEGER NOT NULL, name TEXT NOT NULL, document TEXT NOT NULL, facts TEXT NOT NULL,
      changed TEXT NOT NULL, PRIMARY KEY (plan, revision)) STRICT;
    CREATE INDEX plans_by_layout ON plans(layout);
    CREATE INDEX plans_by_parent ON plans(parent);
    )",
    // 3: what happened.
    R"(
    CREATE TABLE results (
      id TEXT PRIMARY KEY, revision INTEGER NOT NULL CHECK (revision > 0), name TEXT NOT NULL,
      document TEXT NOT NULL CHECK (json_valid(document)), facts TEXT NOT NULL,
      created TEXT NOT NULL, changed TEXT NOT NULL,
      plan TEXT REFERENCES plans(id) ON DELETE SET NULL) STRICT;
    CREATE INDEX results_by_plan ON results(plan);
    )",
    // 4: the teacher's sentences, under the id of the layout that they are about.
    R"(
    CREATE TABLE words (
      id TEXT PRIMARY KEY, revision INTEGER NOT NULL CHECK (revision > 0), name TEXT NOT NULL,
      document TEXT NOT NULL CHECK (json_valid(document)), facts TEXT NOT NULL,
      created TEXT NOT NULL, changed TEXT NOT NULL) STRICT;
    )"};

}  // namespace

int newest_version() { return static_cast<int>(steps.size()); }

int version_of(sqlite3* database) {
  Statement ask(database, "PRAGMA user_version");
  ask.step();
  return static_cast<int>(ask.number(0));
}

void migrate(sqlite3* database, int version) {
  for (int from = version_of(database); from < version; ++from) {
    Transaction step(database);
    execute(database, steps[static_cast<std::size_t>(from)]);
    execute(database, ("PRAGMA user_version = " + std::to_string(from + 1)).c_str());
    step.commit();
  }
}

}  // namespace ahead::store
