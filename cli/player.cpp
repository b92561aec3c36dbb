#include "formats/player.h"

#include <memory>
#include <string>

#include "cli/given.h"
#include "cli/preset_list.h"
#include "cli/verbs.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string id;
};

Outcome run(const Options& options) {
  if (options.id.empty()) {
    return preset_list("players", coach::player_preset_ids(), options.common.json);
  }
  const auto player = given_player(options.id);
  if (!player) return std::unexpected(player.error());
  return Answer{.out = formats::write_player(*player)};
}

}  // namespace

Run player_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("ID", options->id, "A player of the list, or a player file to check and tidy");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead player club > my-pupil.json
    makes a file to start from: change the errors to your pupil's and give it to other verbs with
    --player my-pupil.json.

The output lists the players, one a line, or is the player as a file. Each error is one sigma, so
two strikes in three fall within it, and says where the figure comes from. direction_deg is the
whole error of the cue ball's path; the errors of the tip's place change the spin only.
"cue", "bridging", "reach_mm" and "height_mm" decide which strikes can be reached, and "handicaps"
what a raised cue, a rest or the other hand costs: a factor on the errors.
"ahead schema player" explains every key.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
