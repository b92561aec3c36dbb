#include "capture/capture.h"

#include <array>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <memory>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "capture/draw/draw_back.h"
#include "capture/draw/shot_marks.h"
#include "capture/picture/decode.h"
#include "capture/picture/encode.h"
#include "capture/record.h"
#include "cli/capture_footage.h"
#include "cli/capture_given.h"
#include "cli/paragraph.h"
#include "cli/verbs.h"
#include "formats/capture.h"
#include "formats/layout.h"
#include "formats/text_file.h"
#include "formats/units.h"
#include "lesson/house_look.h"

namespace ahead::cli {
namespace {

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

Outcome run(const CaptureOptions& options) {
  const auto table = given_table(options.table);
  if (!table) return std::unexpected(table.error());
  const auto points = given_points(options, *table);
  if (!points) return std::unexpected(points.error());
  const auto given = given_shot(options);
  if (!given) return std::unexpected(given.error());
  const coach::PlannedShot* shot = *given ? &**given : nullptr;
  if (shows_footage(options.photograph)) {
    if (options.out) {
      if (auto error = formats::make_folder(*options.out)) return std::unexpected(*error);
    }
    return capture_clip(options, *table, *points, shot);
  }
  const auto picture = given_picture(options.photograph);
  if (!picture) return std::unexpected(picture.error());
  if (options.out) {
    if (auto error = formats::make_folder(*options.out)) return std::unexpected(*error);
  }
  const auto captured = capture::capture_photograph(*picture, *table, *points);
  if (!captured) {
    return std::unexpected(
        formats::not_captured(options.photograph, captured.error().wrong, captured.error().mend));
  }
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
  auto options = std::make_shared<CaptureOptions>();
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
  auto* drawn =
      app.add_option("--draw", options->plan,
                     "Plan whose shot is drawn on the photograph or the clip, into --out as well")
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
  ahead capture clip.mp4 --table english-7ft --out out/clip --draw plan.json
    draws the plan's first shot onto the stretch that shows where it begins: drawn.mp4.

Corners are named against the clock from the bottom left, the baulk end being the bottom; a corner
is where the lines of two cushion noses would meet. "give or take" is one sigma along either axis.
A doubtful ball is one that a person should look at before anything is planned on it. Hold the
camera still, show all four corners, and stand as high as you can: docs/capture.md says how exact
it is and what it cannot do.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
