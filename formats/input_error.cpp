#include "formats/input_error.h"

#include <fmt/format.h>

#include "formats/closest.h"

namespace ahead::formats {
namespace {

/// `text`, cut at `most_bytes` without splitting a letter.
std::string cut(std::string_view text, std::size_t most_bytes) {
  if (text.size() <= most_bytes) return std::string(text);
  std::size_t end = most_bytes;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return std::string(text.substr(0, end)) + "...";
}

/// Text from outside, fit for a message.
std::string quoted(std::string_view text) { return '"' + cut(text, 40) + '"'; }

std::string list(Names names) { return fmt::format("{}", fmt::join(names, ", ")); }

/// `did you mean "red"? the choices are ...`
std::string choose_among(std::string_view text, Names names) {
  const auto close = closest(text, names);
  if (close) return fmt::format("did you mean \"{}\"? the choices are {}", *close, list(names));
  return fmt::format("the choices are {}", list(names));
}

InputError error(Where where, std::string wrong, std::string mend) {
  return {.file = std::move(where.file),
          .place = std::move(where.place),
          .wrong = std::move(wrong),
          .mend = std::move(mend)};
}

InputError error(std::string_view file, std::string wrong, std::string mend) {
  return error(Where{.file = std::string(file), .place = ""}, std::move(wrong), std::move(mend));
}

}  // namespace

std::string one_line(const InputError& error) {
  const std::string at = error.place.empty() ? "" : fmt::format("at {}: ", cut(error.place, 200));
  std::string line = fmt::format("{}: {}{}; {}", error.file, at, error.wrong, error.mend);
  for (char& c : line) {
    const auto code = static_cast<unsigned char>(c);
    if (code < 0x20 || code == 0x7F) c = '?';
  }
  return line;
}

InputError unreadable_file(std::string_view file, std::string_view reason) {
  return error(file, fmt::format("cannot be read ({})", reason), "check the name and the folder");
}

InputError too_large_file(std::string_view file, std::size_t limit_bytes) {
  return error(file, fmt::format("is larger than {} MB", limit_bytes / 1'000'000),
               "no file of this kind is that large: give the right file");
}

InputError unwritable_file(std::string_view file, std::string_view reason) {
  return error(file, fmt::format("cannot be written ({})", reason),
               "check that the folder exists, may be written to and has room");
}

InputError folder_without_layouts(std::string_view folder) {
  return error(folder, "holds no .json file", "give layout files, or a folder that has them");
}

InputError unknown_preset(std::string_view kind, std::string_view name, Names known) {
  return error(name, fmt::format("is neither a {} that the program knows nor a file", kind),
               choose_among(name, known));
}

InputError bad_usage(std::string_view wrong, std::string_view verb) {
  return error("ahead", std::string(wrong),
               verb.empty() ? "\"ahead --help\" lists the verbs"
                            : fmt::format("\"ahead {} --help\" shows how it is used", verb));
}

InputError unknown_verb(std::string_view verb, Names known) {
  return error("ahead", fmt::format("unknown verb {}", quoted(verb)), choose_among(verb, known));
}

InputError unknown_schema(std::string_view name, Names known) {
  return error("ahead", fmt::format("no kind of file is called {}", quoted(name)),
               choose_among(name, known));
}

InputError out_of_means(std::string_view reason) {
  return error("ahead", fmt::format("the machine could not finish this ({})", reason),
               "free some memory, or give less work");
}

InputError missing_program(std::string_view program, std::string_view for_what) {
  return error(program, fmt::format("the program is needed for {} and is not there", for_what),
               fmt::format("install it (Debian: apt-get install {}), or leave that out", program));
}

InputError failed_program(std::string_view program, std::string_view file,
                          std::string_view reason) {
  return error(file, fmt::format("{} could not make it ({})", program, reason),
               "check that the folder has room and that the program has its usual encoders");
}

InputError not_captured(std::string_view file, std::string_view wrong, std::string_view mend) {
  return error(file, std::string(wrong), std::string(mend));
}

InputError bad_point(std::string_view option, std::string_view text) {
  return error({.file = "ahead", .place = std::string(option)},
               fmt::format("{} is no place in a picture", quoted(text)),
               "write pixels as X,Y, such as 312,407.5, and a name before them as NAME=X,Y");
}

InputError empty_file(std::string_view file) {
  return error(file, "is empty", "give a JSON document, as in the folder examples");
}

InputError not_utf8(Where where) {
  return error(std::move(where), "bytes that are not UTF-8", "save the file as UTF-8 text");
}

InputError not_json(Where where, std::string_view near) {
  return error(
      std::move(where),
      near.empty() ? "the JSON ends too early" : fmt::format("not JSON from {} on", quoted(near)),
      "look there for a missing or extra comma, quote, colon or bracket");
}

InputError not_finite(Where where, std::string_view number) {
  return error(std::move(where), fmt::format("{} is not a finite number", quoted(number)),
               "write an ordinary decimal number");
}

InputError too_deep(Where where, std::size_t limit) {
  return error(std::move(where), fmt::format("nested deeper than {} levels", limit),
               "no file of this program nests that deep: remove the extra brackets");
}

InputError duplicate_key(Where where, std::string_view key) {
  return error(std::move(where), fmt::format("the key {} occurs twice", quoted(key)),
               "keep one of the two");
}

InputError missing_key(Where where, std::string_view key) {
  return error(std::move(where), fmt::format("the key {} is missing", quoted(key)), "add it");
}

InputError unknown_key(Where where, std::string_view key, Names known) {
  return error(std::move(where), fmt::format("unknown key {}", quoted(key)),
               choose_among(key, known));
}

InputError wrong_kind(Where where, std::string_view wanted, std::string_view found) {
  return error(std::move(where), fmt::format("found {}", found), fmt::format("give {}", wanted));
}

InputError out_of_range(Where where, double value, std::string_view range) {
  return error(std::move(where), fmt::format("{} is out of range", value),
               fmt::format("give a number {}", range));
}

InputError wrong_length(Where where, std::size_t found, std::string_view wanted) {
  return error(std::move(where), fmt::format("a list of {}", found),
               fmt::format("give {}", wanted));
}

InputError unknown_choice(Where where, std::string_view value, Names known) {
  return error(std::move(where), fmt::format("unknown value {}", quoted(value)),
               choose_among(value, known));
}

InputError missing_format(Where where, std::string_view wanted) {
  return error(std::move(where), "the key \"format\" is missing",
               fmt::format("add \"format\": \"{}\"", wanted));
}

InputError wrong_format(Where where, std::string_view found, std::string_view wanted) {
  return error(std::move(where), fmt::format("the format is {}", quoted(found)),
               fmt::format("a \"{}\" is needed here", wanted));
}

InputError bad_name(Where where, std::string_view name) {
  return error(std::move(where), fmt::format("{} cannot be a name", quoted(name)),
               "use 1 to 40 of the characters a-z, 0-9 and -");
}

InputError long_text(Where where, std::size_t limit) {
  return error(std::move(where), fmt::format("the text is longer than {} bytes", limit),
               "shorten it");
}

InputError unknown_ball(Where where, std::string_view id) {
  return error(std::move(where), fmt::format("{} is no ball", quoted(id)),
               "name it cue, black, red-N, yellow-N, solid-N or stripe-N (N from 1 to 15), or "
               "yellow, green, brown, blue or pink in snooker");
}

InputError duplicate_ball(Where where, std::string_view id, std::size_t first) {
  return error(std::move(where), fmt::format("the ball \"{}\" is already at /balls/{}", id, first),
               "give every ball an id of its own");
}

InputError no_cue_ball(Where where) {
  return error(std::move(where), "there is no cue ball", "add a ball with the id \"cue\"");
}

InputError ball_of_other_rules(Where where, std::string_view id, std::string_view rules,
                               std::string_view balls) {
  return error(std::move(where), fmt::format("\"{}\" is not a ball of the rules \"{}\"", id, rules),
               fmt::format("use {}, or change \"rules\"", balls));
}

InputError ball_off_bed(Where where, std::string_view id, double x_mm, double y_mm, double width_mm,
                        double length_mm) {
  return error(std::move(where),
               fmt::format("the ball \"{}\" is off the bed at ({:.1f}, {:.1f}) mm", id, x_mm, y_mm),
               fmt::format("keep x from 0 to {:.1f} and y from 0 to {:.1f}, or leave the ball out",
                           width_mm, length_mm));
}

InputError ball_in_cushion(Where where, std::string_view id, double distance_mm, double least_mm) {
  return error(std::move(where),
               fmt::format("the ball \"{}\" is inside a cushion: its centre is {:.2f} mm from the "
                           "nose and a ball that touches is {:.2f} mm from it",
                           id, distance_mm, least_mm),
               "move the ball away from the cushion");
}

InputError ball_in_pocket(Where where, std::string_view id, std::string_view pocket) {
  return error(std::move(where), fmt::format("the ball \"{}\" is in the pocket \"{}\"", id, pocket),
               "leave a potted ball out, or move it on to the bed");
}

InputError balls_overlap(Where where, std::string_view id, std::string_view other,
                         double distance_mm, double least_mm) {
  return error(std::move(where),
               fmt::format("the balls \"{}\" and \"{}\" overlap: their centres are {:.2f} mm apart "
                           "and balls that touch are {:.2f} mm apart",
                           id, other, distance_mm, least_mm),
               "move one of them");
}

InputError to_play_of_other_rules(Where where, std::string_view to_play, std::string_view rules,
                                  Names known) {
  return error(std::move(where),
               fmt::format("\"{}\" is never to play by the rules \"{}\"", to_play, rules),
               choose_among("", known));
}

InputError nothing_to_play(Where where, std::string_view to_play) {
  return error(std::move(where), fmt::format("no ball for \"{}\" is on the table", to_play),
               to_play == "black" ? "add the black, or say what is to play"
                                  : "say \"black\" once the others are gone, or add the balls");
}

InputError miscue(Where where, double offset, double limit) {
  return error(std::move(where),
               fmt::format("a miscue: side and height together are {:.3f} of the radius from the "
                           "centre, {:.3f} beyond the tip's limit of {:.3f}",
                           offset, offset - limit, limit),
               "strike nearer the centre");
}

InputError stuck_shot(std::string_view file, Names balls, double t_s) {
  return error(file,
               fmt::format("the shot does not get on: {:.4f} s after the strike something happens "
                           "to {} again and again",
                           t_s, list(balls)),
               "move a ball a little, or check the table's rails; --trace FILE keeps the shot for "
               "somebody to look into");
}

InputError no_such_shot(std::size_t shot, std::size_t shots) {
  return error({.file = "ahead", .place = "--shot"}, fmt::format("the plan has no shot {}", shot),
               fmt::format("give a number from 1 to {}", shots));
}

InputError other_table(Where where, std::string_view table, std::string_view wanted) {
  return error(std::move(where), fmt::format("the table is {}", quoted(table)),
               fmt::format("the shot was planned on {}", quoted(wanted)));
}

InputError other_comparison(Where where, std::string_view ball) {
  return error(
      std::move(where),
      fmt::format("the comparison is of a shot at {} that the plan before it does not have",
                  quoted(ball)),
      "give the plan that was played first, then the after.json of each shot in its order");
}

InputError ball_not_there(Where where, std::string_view id, std::size_t shot) {
  return error(std::move(where),
               fmt::format("the ball {} was not on the table before shot {}", quoted(id), shot),
               "leave it out, or say with --shot which shot was played");
}

InputError nose_height_off(Where where, double height_mm, double least_mm, double most_mm) {
  return error(std::move(where),
               fmt::format("a nose height of {:.2f} mm does not suit the object balls", height_mm),
               fmt::format("give {:.2f} to {:.2f} mm, which is 0.60 to 0.72 of their diameter",
                           least_mm, most_mm));
}

InputError too_narrow(Where where, double width_mm, double diameter_mm) {
  return error(std::move(where),
               fmt::format("a table {:.1f} mm wide is too narrow for balls of {:.2f} mm", width_mm,
                           diameter_mm),
               "give a width of more than ten balls, in millimetres");
}

InputError sides_swapped(Where where, double width_mm, double length_mm) {
  return error(
      std::move(where),
      fmt::format("the width, {:.1f} mm, is more than the length, {:.1f} mm", width_mm, length_mm),
      "write [width, length]: y runs up the table");
}

InputError duplicate_pocket(Where where, std::string_view name) {
  return error(std::move(where), fmt::format("the pocket \"{}\" occurs twice", name),
               "give each of the six pockets once");
}

InputError absurd_density(Where where, double density_gpcm3) {
  return error(std::move(where),
               fmt::format("a ball of this size and mass has {:.2f} g/cm3", density_gpcm3),
               "check diameter_mm and mass_g: balls have 1.6 to 1.9 g/cm3, and 1.0 to 2.5 is "
               "accepted");
}

InputError nap_too_strong(Where where, double nap, double rolling) {
  return error(std::move(where),
               fmt::format("a nap of {:.6g} pulls more than half as hard as the rolling resistance "
                           "of {:.6g} holds back",
                           nap, rolling),
               fmt::format("give at most {:.6g}, or 0 for worsted cloth", rolling / 2));
}

InputError rail_without_length(Where where) {
  return error(std::move(where), "the two ends of the segment are the same point",
               "remove the segment or correct an end");
}

InputError arc_without_length(Where where, double from_deg) {
  return error(std::move(where), fmt::format("the arc begins and ends at {:.4f} degrees", from_deg),
               "let it run counter-clockwise from from_deg to another to_deg");
}

InputError rail_of_no_shape(Where where) {
  return error(std::move(where), "a rail needs either \"segment\" or \"arc\"",
               "give exactly one of the two");
}

}  // namespace ahead::formats
