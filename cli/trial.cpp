#include "formats/trial.h"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <unistd.h>

#include "cli/given.h"
#include "cli/kept_shots.h"
#include "cli/verbs.h"
#include "coach/trial/report.h"
#include "formats/names.h"
#include "formats/text_file.h"
#include "lesson/words/trial_words.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::vector<std::string> layouts;
  std::string player = "club";
  std::string policy = "plan";
  int runs = 20;
  std::optional<std::string> table;
  std::optional<std::string> out;
};

struct Named {
  std::string name;
  coach::Layout layout;
};

/// The files that are named, and those of the folders that are named, in the order of their names.
Given<std::vector<std::string>> files_of(const std::vector<std::string>& given) {
  std::vector<std::string> files;
  for (const std::string& path : given) {
    std::error_code failure;
    if (!std::filesystem::is_directory(path, failure)) {
      files.push_back(path);
      continue;
    }
    std::vector<std::string> inside;
    for (const auto& entry : std::filesystem::directory_iterator(path, failure)) {
      if (entry.path().extension() == ".json") inside.push_back(entry.path().string());
    }
    if (failure) return std::unexpected(formats::unreadable_file(path, failure.message()));
    if (inside.empty()) return std::unexpected(formats::folder_without_layouts(path));
    std::ranges::sort(inside);
    files.insert(files.end(), inside.begin(), inside.end());
  }
  return files;
}

/// Named by their files; of several files of one name, the later ones get a number.
Given<std::vector<Named>> named_layouts(const Options& options) {
  const auto files = files_of(options.layouts);
  if (!files) return std::unexpected(files.error());
  std::vector<Named> layouts;
  for (const std::string& file : *files) {
    auto layout = given_layout(file, options.table);
    if (!layout) return std::unexpected(layout.error());
    const std::string stem = std::filesystem::path(file).stem().string();
    std::string name = stem;
    for (int n = 2; std::ranges::find(layouts, name, &Named::name) != layouts.end(); ++n) {
      name = fmt::format("{}-{}", stem, n);
    }
    layouts.push_back({.name = name, .layout = *std::move(layout)});
  }
  return layouts;
}

std::vector<coach::Policy> policies_of(const std::string& name) {
  if (name == "all") return {coach::Policy::plan, coach::Policy::onestep, coach::Policy::greedy};
  const auto found = std::ranges::find(formats::policy_names, name);
  return {static_cast<coach::Policy>(found - formats::policy_names.begin())};
}

std::string in_words(const coach::TrialReport& report) {
  const std::size_t layouts = report.policies.front().layouts.size();
  return fmt::format("{} {}, {} {} of each\n", layouts, layouts == 1 ? "layout" : "layouts",
                     report.runs, report.runs == 1 ? "clearance" : "clearances") +
         lesson::comparison_words(report) +
         lesson::calibration_words(report.policies.front().tally);
}

Outcome run(const Options& options) {
  const auto player = given_player(options.player);
  if (!player) return std::unexpected(player.error());
  const auto layouts = named_layouts(options);
  if (!layouts) return std::unexpected(layouts.error());
  // Ask for the folder before the work, not after it.
  if (options.out) {
    if (auto error = formats::make_folder(*options.out)) return std::unexpected(*error);
  }
  coach::TrialReport report{.player = *player, .seed = options.common.seed, .runs = options.runs};
  const bool watched = isatty(STDERR_FILENO) != 0;
  for (const coach::Policy policy : policies_of(options.policy)) {
    coach::PolicyReport of_policy{.policy = policy};
    const std::string policy_name(formats::name_of(policy));
    for (const auto& [name, layout] : *layouts) {
      if (watched) std::fprintf(stderr, "\r\033[K%s: %s", policy_name.c_str(), name.c_str());
      const auto trial = coach::play_layout(
          layout, *player, policy,
          {.runs = options.runs, .seed = options.common.seed, .threads = options.common.threads});
      add(of_policy, name, trial);
      if (!options.out) continue;
      const auto folder = std::filesystem::path(*options.out) / name / policy_name;
      if (auto error = keep_shots(layout, trial, folder)) return std::unexpected(*error);
    }
    report.policies.push_back(std::move(of_policy));
  }
  if (watched) std::fprintf(stderr, "\r\033[K");
  const std::string file = formats::write_trial(report);
  if (options.out) {
    const auto path = std::filesystem::path(*options.out) / "trial.json";
    if (auto error = formats::write_file(path, file)) return std::unexpected(*error);
  }
  return Answer{.out = options.common.json ? file : in_words(report)};
}

}  // namespace

Run trial_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("LAYOUT", options->layouts, "Layout files, or folders of them")
      ->required()
      ->type_name("FILE or DIR");
  app.add_option("--player", options->player,
                 "Who plays: novice, club, county, professional, or a player file")
      ->capture_default_str()
      ->type_name("ID or FILE");
  app.add_option("--policy", options->policy,
                 "How the next shot is chosen: plan, onestep, greedy, or all to compare them")
      ->capture_default_str()
      ->check(CLI::IsMember({"plan", "onestep", "greedy", "all"}))
      ->type_name("NAME");
  app.add_option("--runs", options->runs, "Clearances of each layout")
      ->capture_default_str()
      ->check(CLI::Range(1, 100'000))
      ->type_name("N");
  app.add_option("--table", options->table, "Another table for these balls: a name or a file")
      ->type_name("ID or FILE");
  app.add_option("--out", options->out,
                 "Folder for trial.json and every shot: the table before it, the strike as it came "
                 "off, and the paths")
      ->type_name("DIR");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead trial examples/evening-class.json --player county --policy all --runs 50
    plays the table 50 times with each policy and compares how often they clear.

After every shot the next one is chosen again from where the balls are. "plan" is the planner,
"onestep" looks for the best pot and leave for the next ball, "greedy" takes the easiest pot struck
in the middle. All meet the same errors. What ended the others: "missed" a pot with an even chance
or better; "lost pos.", nothing on after a good pot, or only a pot under an even chance, and missed;
"in-off"; "wrong ball" met first or potted; "black" potted early; "no pot" in the layout itself.
The tables hold stated chances against what happened. Long trials: about a third of a second a
clearance and core.
  ahead simulate out/evening-class/plan/run-001/shot-01.layout.json
        --strike out/evening-class/plan/run-001/shot-01.strike.json
    plays a kept shot again.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
