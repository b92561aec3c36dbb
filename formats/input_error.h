#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

/// Why a file was refused: where, what is wrong, and how to mend it.
///
/// Every sentence that the program can say about input is made by one of the functions below and
/// nowhere else; docs/errors.md lists them with their mends.
namespace ahead::formats {

struct InputError {
  std::string file;
  std::string place;  ///< JSON pointer; "line L, column C" in text that is no JSON; may be empty
  std::string wrong;
  std::string mend;

  friend bool operator==(const InputError&, const InputError&) = default;
};

/// `FILE: at PLACE: WRONG; MEND`, always exactly one line.
[[nodiscard]] std::string one_line(const InputError& error);

/// A place in a file.
struct Where {
  std::string file;
  std::string place;
};

using Names = std::span<const std::string_view>;

// Files.
InputError unreadable_file(std::string_view file, std::string_view reason);
InputError too_large_file(std::string_view file, std::size_t limit_bytes);
InputError unwritable_file(std::string_view file, std::string_view reason);
InputError folder_without_layouts(std::string_view folder);
InputError unknown_preset(std::string_view kind, std::string_view name, Names known);

// The command line.
InputError bad_usage(std::string_view wrong, std::string_view verb);
InputError unknown_verb(std::string_view verb, Names known);
InputError unknown_schema(std::string_view name, Names known);
InputError out_of_means(std::string_view reason);

// Other programs.
InputError missing_program(std::string_view program, std::string_view for_what);
InputError failed_program(std::string_view program, std::string_view file, std::string_view reason);

// Photographs and footage.
/// What capture/ cannot use, in its own words: docs/capture.md lists them.
InputError not_captured(std::string_view file, std::string_view wrong, std::string_view mend);
InputError bad_point(std::string_view option, std::string_view text);

// Text that is no JSON.
InputError empty_file(std::string_view file);
InputError not_utf8(Where where);
InputError not_json(Where where, std::string_view near);
InputError not_finite(Where where, std::string_view number);
InputError too_deep(Where where, std::size_t limit);
InputError duplicate_key(Where where, std::string_view key);

// Values of the wrong kind.
InputError missing_key(Where where, std::string_view key);
InputError unknown_key(Where where, std::string_view key, Names known);
InputError wrong_kind(Where where, std::string_view wanted, std::string_view found);
InputError out_of_range(Where where, double value, std::string_view range);
InputError wrong_length(Where where, std::size_t found, std::string_view wanted);
InputError unknown_choice(Where where, std::string_view value, Names known);
InputError missing_format(Where where, std::string_view wanted);
InputError wrong_format(Where where, std::string_view found, std::string_view wanted);
InputError bad_name(Where where, std::string_view name);
InputError long_text(Where where, std::size_t limit);

// Layouts.
InputError unknown_ball(Where where, std::string_view id);
InputError duplicate_ball(Where where, std::string_view id, std::size_t first);
InputError no_cue_ball(Where where);
InputError ball_of_other_rules(Where where, std::string_view id, std::string_view rules,
                               std::string_view balls);
InputError ball_off_bed(Where where, std::string_view id, double x_mm, double y_mm, double width_mm,
                        double length_mm);
InputError ball_in_cushion(Where where, std::string_view id, double distance_mm, double least_mm);
InputError ball_in_pocket(Where where, std::string_view id, std::string_view pocket);
InputError balls_overlap(Where where, std::string_view id, std::string_view other,
                         double distance_mm, double least_mm);
InputError to_play_of_other_rules(Where where, std::string_view to_play, std::string_view rules,
                                  Names known);
InputError nothing_to_play(Where where, std::string_view to_play);

// Strikes and shots.
InputError miscue(Where where, double offset, double limit);
InputError stuck_shot(std::string_view file, Names balls, double t_s);

// Plans and what came of them.
InputError no_such_shot(std::size_t shot, std::size_t shots);
InputError other_table(Where where, std::string_view table, std::string_view wanted);
InputError other_comparison(Where where, std::string_view ball);
InputError ball_not_there(Where where, std::string_view id, std::size_t shot);

// Tables.
InputError nose_height_off(Where where, double height_mm, double least_mm, double most_mm);
InputError too_narrow(Where where, double width_mm, double diameter_mm);
InputError sides_swapped(Where where, double width_mm, double length_mm);
InputError duplicate_pocket(Where where, std::string_view name);
InputError absurd_density(Where where, double density_gpcm3);
InputError nap_too_strong(Where where, double nap, double rolling);
InputError rail_without_length(Where where);
InputError arc_without_length(Where where, double from_deg);
InputError rail_of_no_shape(Where where);

}  // namespace ahead::formats
