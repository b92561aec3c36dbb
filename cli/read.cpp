#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "cli/given.h"
#include "cli/paragraph.h"
#include "cli/verbs.h"
#include "coach/read/reading.h"
#include "coach/threads.h"
#include "formats/reading.h"
#include "formats/text_file.h"
#include "lesson/house_look.h"
#include "lesson/reading_figure.h"
#include "lesson/words/reading_words.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string layout;
  std::string player = "club";
  std::optional<std::string> table;
  std::optional<std::string> out;
};

std::string in_words(const lesson::ReadingWords& words) {
  std::string out = paragraph(words.choice, 0);
  for (const std::string& sentence : words.reasons) out += paragraph(sentence, 2);
  out += '\n';
  for (const std::string& sentence : words.rules) out += paragraph(sentence, 0);
  for (const lesson::BallWords& ball : words.own) {
    out += fmt::format("\n{}. {}\n", ball.name, ball.sentences.front());
    for (std::size_t i = 1; i < ball.sentences.size(); ++i) {
      out += paragraph(ball.sentences[i], 3);
    }
  }
  if (!words.others.empty()) out += "\nThe opponent's balls\n";
  for (const std::string& line : words.others) out += paragraph(line, 3);
  return out;
}

/// reading.json, the table, and a map a ball.
std::optional<formats::InputError> write_pack(const coach::Reading& reading,
                                              const std::filesystem::path& folder) {
  const formats::Look look = lesson::house_look();
  if (auto error = formats::write_file(folder / "reading.json", formats::write_reading(reading))) {
    return error;
  }
  if (auto error =
          formats::write_file(folder / "reading.svg", lesson::reading_figure(reading, look))) {
    return error;
  }
  for (const coach::BallReading& ball : reading.balls) {
    const std::string& id = reading.layout.balls[static_cast<std::size_t>(ball.ball)].id;
    if (auto error = formats::write_file(folder / (id + ".svg"),
                                         lesson::ball_map_figure(reading, ball.ball, look))) {
      return error;
    }
  }
  return std::nullopt;
}

Outcome run(const Options& options) {
  const auto layout = given_layout(options.layout, options.table);
  if (!layout) return std::unexpected(layout.error());
  const auto player = given_player(options.player);
  if (!player) return std::unexpected(player.error());
  // Ask for the folder before the work, not after it.
  if (options.out) {
    if (auto error = formats::make_folder(*options.out)) return std::unexpected(*error);
  }
  const coach::ThreadLimit limit(options.common.threads);
  const coach::Reading reading = coach::read_table(*layout, *player, options.common.seed);
  if (options.out) {
    if (auto error = write_pack(reading, *options.out)) return std::unexpected(*error);
  }
  if (options.common.json) return Answer{.out = formats::write_reading(reading)};
  return Answer{.out = in_words(lesson::reading_words(reading))};
}

}  // namespace

Run read_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("LAYOUT", options->layout, "Layout file: where the balls lie")->required();
  app.add_option("--player", options->player,
                 "Who plays: novice, club, county, professional, or a player file")
      ->capture_default_str()
      ->type_name("ID or FILE");
  app.add_option("--table", options->table, "Another table for these balls: a name or a file")
      ->type_name("ID or FILE");
  app.add_option("--out", options->out, "Folder for reading.json, reading.svg and a map a ball")
      ->type_name("DIR");
  add_common(app, options->common);
  app.footer(R"~(Example:
  ahead read examples/after-the-break.json --player club --out out/read
    reads an open table, and draws it and each ball's map into out/read.

The output begins with the colour and why, then what can be hit, then ball by ball. A ball goes
when some direction drops past every other ball by the true jaws; "blocked by yellow 2 (13 mm)"
says how far that ball would have to go aside. Plants, cannons and doubles are those that the
engine played from where the cue ball lies, with how often this player pots them. "From most of
the table" counts the places from which the cue ball pots it with a cut of up to 75 degrees;
whether the cue and the body get there is not asked. Rules marked "unverified" are just that.)~");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
