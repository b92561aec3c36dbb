#pragma once

#include <array>
#include <string_view>

#include "cli/verb.h"

/// Every verb of the program. A new one is a file of its own, a declaration here and a row in
/// `verbs`; nothing else needs to know.
namespace ahead::cli {

Run capture_verb(CLI::App& app);   // capture.cpp
Run read_verb(CLI::App& app);      // read.cpp
Run plan_verb(CLI::App& app);      // plan.cpp
Run after_verb(CLI::App& app);     // after.cpp
Run lesson_verb(CLI::App& app);    // lesson.cpp
Run trial_verb(CLI::App& app);     // trial.cpp
Run shot_verb(CLI::App& app);      // shot.cpp
Run simulate_verb(CLI::App& app);  // simulate.cpp
Run serve_verb(CLI::App& app);     // serve.cpp
Run table_verb(CLI::App& app);     // table.cpp
Run player_verb(CLI::App& app);    // player.cpp
Run schema_verb(CLI::App& app);    // schema.cpp

struct Verb {
  std::string_view name;
  std::string_view summary;
  AddVerb add;
};

/// In the order in which `ahead --help` lists them.
inline constexpr std::array verbs{
    Verb{"capture", "Find the balls in a photograph and where they lie", capture_verb},
    Verb{"read", "Read the table: where each ball goes, problems, which colour", read_verb},
    Verb{"plan", "Plan the clearance with the best chance for a player", plan_verb},
    Verb{"after", "Compare a planned shot with what happened, and plan from there", after_verb},
    Verb{"lesson", "Make the lesson of a plan: words, pictures, sheet, page, captions, animation",
         lesson_verb},
    Verb{"trial", "Play clearances with the player's errors and count how often they clear",
         trial_verb},
    Verb{"shot", "Look closely at one pot and the strikes for it", shot_verb},
    Verb{"simulate", "Play one shot with the full physics", simulate_verb},
    Verb{"serve", "Open the workbench: one page in the browser that does the whole job",
         serve_verb},
    Verb{"table", "List the tables, or print one as a file", table_verb},
    Verb{"player", "List the players, or print one as a file", player_verb},
    Verb{"schema", "List the kinds of file, or print the JSON Schema of one", schema_verb},
};

}  // namespace ahead::cli
