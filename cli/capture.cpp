#include "capture/capture.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "capture/draw/draw_back.h"
#include "capture/draw/shot_marks.h"
#include "capture/footage/capture_footage.h"
#include "capture/known_points.h"
#include "capture/picture/decode.h"
#include "capture/picture/encode.h"
#include "capture/record.h"
#include "cli/given.h"
#include "cli/paragraph.h"
#include "cli/verbs.h"
#include "formats/capture.h"
#include "formats/footage.h"
#include "formats/layout.h"
#include "formats/plan.h"
#include "formats/text_file.h"
#include "formats/units.h"
#include "lesson/house_look.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string photograph;
  std::string table = "english-7ft";
  std::vector<std::string> corners;
  std::vector<std::string> points;
  std::optional<std::string> out;
  std::optional<std::string> plan;
  std::size_t shot = 1;
};

std::optional<engine::Vec2> pixel_of_text(std::string_view text) {
  engine::Vec2 pixel;
  const auto comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  const auto number = [](std::string_view part, double& value) {
    const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), value);
    return error == std::errc{} && end == part.data() + part.size() && std::abs(value) < 1e5;
  };
  if (!number(text.substr(0, comma), pixel.x) || !number(text.substr(comma + 1), pixel.y)) {
    return std::nullopt;
  }
  return pixel;
}

Given<std::vector<capture::SeenPoint>> given_points(const Options& options,
                                                    const engine::Table& table) {
  std::vector<capture::SeenPoint> points;
  const auto corners = capture::nose_corners(table);
  for (std::size_t i = 0; i < options.corners.size(); ++i) {
    const auto pixel = pixel_of_text(options.corners[i]);
    if (!pixel) return std::unexpected(formats::bad_point("--corners", options.corners[i]));
    points.push_back({.point = corners[i], .pixel = *pixel, .sigma_px = capture::marked_sigma_px});
  }
  for (const std::string& text : options.points) {
    const auto equals = text.find('=');
    const auto point = equals == std::string::npos
                           ? std::nullopt
                           : capture::known_point(table, text.substr(0, equals));
    const auto pixel =
        point ? pixel_of_text(std::string_view(text).substr(equals + 1)) : std::nullopt;
    if (!pixel) return std::unexpected(formats::bad_point("--pockets", text));
    points.push_back({.point = *point, .pixel = *pixel, .sigma_px = capture::marked_sigma_px});
  }
  return points;
}

/// By its first bytes. What cannot be opened is complained of when it is read.
bool shows_footage(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::array<char, 16> first{};
  file.read(first.data(), first.size());
  return capture::is_footage({reinterpret_cast<const std::uint8_t*>(first.data()),
                              static_cast<std::size_t>(file.gcount())});
}

Given<capture::Picture> given_picture(const std::string& path) {
  const auto text = formats::read_file(path, capture::most_picture_bytes);
  if (!text) return std::unexpected(text.error());
  const auto picture =
      capture::decode_picture({reinterpret_cast<const std::uint8_t*>(text->data()), text->size()});
  if (!picture) {
    return std::unexpected(
        formats::not_captured(path, picture.error().wrong, picture.error().mend));
  }
  return *picture;
}

std::string in_words(const capture::Captured& captured) {
  std::string out = paragraph(
      fmt::format("{} balls found. The camera stands {:.2f} m above the bed; the noses lie within "
                  "{:.1f} pixels of where it should see them.",
                  captured.balls.size(), captured.camera.at.z, captured.residual_px),
      0);
  if (!captured.doubtful.empty()) {
    out +=
        paragraph(fmt::format("Look at these first: {}.", fmt::join(captured.doubtful, ", ")), 0);
  }
  out += '\n';
  for (const capture::CapturedBall& ball : captured.balls) {
    out += fmt::format("{:<10} {:7.1f}, {:7.1f} mm  give or take {:4.1f} mm  {:3.0f}% sure{}\n",
                       ball.ball.id, formats::mm(ball.ball.at.x), formats::mm(ball.ball.at.y),
                       formats::mm(ball.ball.sigma_m), 100 * ball.confidence,
                       ball.doubtful ? "  (doubtful)" : "");
  }
  return out;
}

/// drawn.png, drawing.png (see-through) and plan-view.png.
std::optional<formats::InputError> write_drawings(const capture::Picture& picture,
                                                  const capture::Captured& captured,
                                                  const coach::PlannedShot* shot,
                                                  const std::filesystem::path& folder) {
  constexpr double px_per_m = 500;
  const auto view = capture::plan_view(picture, captured.camera, captured.layout.table, px_per_m);
  if (auto error = formats::write_file(folder / "plan-view.png", capture::png_of(view))) {
    return error;
  }
  if (shot == nullptr) return std::nullopt;
  const auto overlay =
      capture::shot_overlay(captured.camera, *shot, captured.layout, lesson::house_look());
  if (auto error = formats::write_file(folder / "drawing.png",
                                       capture::png_of(overlay.colour, overlay.cover))) {
    return error;
  }
  return formats::write_file(folder / "drawn.png",
                             capture::png_of(capture::laid_over(picture, overlay)));
}

Given<std::optional<coach::Plan>> given_plan(const Options& options) {
  if (!options.plan) return std::nullopt;
  const auto text = formats::read_file(*options.plan);
  if (!text) return std::unexpected(text.error());
  auto plan = formats::read_plan(*text, *options.plan);
  if (!plan) return std::unexpected(plan.error());
  if (options.shot < 1 || options.shot > plan->shots.size()) {
    return std::unexpected(formats::no_such_shot(options.shot, plan->shots.size()));
  }
  return std::optional(*std::move(plan));
}

std::string in_words(const capture::Footage& footage) {
  std::string out;
  for (std::size_t i = 0; i < footage.stills.size(); ++i) {
    const capture::StillStretch& still = footage.stills[i];
    out += fmt::format("{:7.2f} s to {:7.2f} s  still: {} balls{}\n", still.from_s, still.to_s,
                       still.captured.balls.size(),
                       still.captured.doubtful.empty()
                           ? ""
                           : fmt::format("; look at {}", fmt::join(still.captured.doubtful, ", ")));
    if (i >= footage.shots.size()) continue;
    const capture::SeenShot& shot = footage.shots[i];
    out += fmt::format("{:7.2f} s to {:7.2f} s  a shot: {} balls move\n", shot.from_s, shot.to_s,
                       shot.tracks.size());
  }
  return out;
}

Outcome run_footage(const Options& options, const engine::Table& table,
                    const std::vector<capture::SeenPoint>& points) {
  const auto footage =
      capture::capture_footage(options.photograph, table, points, [](double) { return true; });
  if (!footage) {
    return std::unexpected(
        formats::not_captured(options.photograph, footage.error().wrong, footage.error().mend));
  }
  const std::string text = formats::write_footage(capture::record_of(*footage));
  if (options.out) {
    const std::filesystem::path folder = *options.out;
    if (auto error = formats::write_file(folder / "footage.json", text)) {
      return std::unexpected(*error);
    }
    for (std::size_t i = 0; i < footage->stills.size(); ++i) {
      if (auto error =
              formats::write_file(folder / fmt::format("layout-{}.json", i + 1),
                                  formats::write_layout(footage->stills[i].captured.layout))) {
        return std::unexpected(*error);
      }
    }
  }
  return Answer{.out = options.common.json ? text : in_words(*footage)};
}

Outcome run(const Options& options) {
  const auto table = given_table(options.table);
  if (!table) return std::unexpected(table.error());
  const auto points = given_points(options, *table);
  if (!points) return std::unexpected(points.error());
  if (shows_footage(options.photograph)) {
    if (options.out) {
      if (auto error = formats::make_folder(*options.out)) return std::unexpected(*error);
    }
    return run_footage(options, *table, *points);
  }
  const auto picture = given_picture(options.photograph);
  if (!picture) return std::unexpected(picture.error());
  const auto plan = given_plan(options);
  if (!plan) return std::unexpected(plan.error());
  if (options.out) {
    if (auto error = formats::make_folder(*options.out)) return std::unexpected(*error);
  }
  const auto captured = capture::capture_photograph(*picture, *table, *points);
  if (!captured) {
    return std::unexpected(
        formats::not_captured(options.photograph, captured.error().wrong, captured.error().mend));
  }
  const coach::PlannedShot* shot = *plan ? &(*plan)->shots[options.shot - 1] : nullptr;
  const std::string text = formats::write_capture(capture::record_of(*captured));
  if (options.out) {
    const std::filesystem::path folder = *options.out;
    if (auto error = formats::write_file(folder / "capture.json", text)) {
      return std::unexpected(*error);
    }
    if (auto error =
            formats::write_file(folder / "layout.json", formats::write_layout(captured->layout))) {
      return std::unexpected(*error);
    }
    if (auto error = write_drawings(*picture, *captured, shot, folder)) {
      return std::unexpected(*error);
    }
  }
  if (options.common.json) return Answer{.out = text};
  std::string words = in_words(*captured);
  if (shot != nullptr) words += '\n' + paragraph(capture::cut_in_words(captured->camera, *shot), 0);
  return Answer{.out = std::move(words)};
}

}  // namespace

Run capture_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("PHOTO", options->photograph,
                 "Photograph of a table (JPEG, PNG or WebP), or a clip")
      ->required();
  app.add_option("--table", options->table, "The table that it shows: a name or a file")
      ->capture_default_str()
      ->type_name("ID or FILE");
  app.add_option("--corners", options->corners,
                 "Where the lines of the cushion noses meet, in pixels: bottom-left, bottom-right, "
                 "top-right, top-left")
      ->expected(4)
      ->type_name("X,Y");
  app.add_option("--pockets", options->points,
                 "Other known points: a pocket by its name, spot, baulk-left, baulk-right")
      ->expected(1, 16)
      ->type_name("NAME=X,Y");
  auto* out = app.add_option("--out", options->out,
                             "Folder for capture.json, layout.json and the bed seen from above")
                  ->type_name("DIR");
  auto* drawn = app.add_option("--draw", options->plan,
                               "Plan whose shot is drawn on the photograph, into --out as well")
                    ->needs(out)
                    ->type_name("PLAN");
  app.add_option("--shot", options->shot, "Which shot of the plan is drawn")
      ->needs(drawn)
      ->capture_default_str();
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead capture photo.jpg --table english-7ft --corners 210,640 1110,655 830,190 470,180 --json
    finds the camera and the balls, and prints the layout.
  ahead capture photo.jpg --table english-7ft --out out/table --draw plan.json --shot 2
    finds the table as well, and draws the plan's second shot onto the photograph.
  ahead capture clip.mp4 --table english-7ft --out out/clip
    writes a layout for each stretch of a clip in which nothing moves, for "ahead after".

Corners are named against the clock from the bottom left, the baulk end being the bottom; a corner
is where the lines of two cushion noses would meet. "give or take" is one sigma along either axis.
A doubtful ball is one that a person should look at before anything is planned on it. Hold the
camera still, show all four corners, and stand as high as you can: docs/capture.md says how exact
it is and what it cannot do.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
