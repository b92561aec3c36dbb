#include "cli/capture_footage.h"

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "capture/draw/draw_on_clip.h"
#include "capture/draw/shot_marks.h"
#include "capture/footage/capture_footage.h"
#include "capture/picture/encode.h"
#include "capture/record.h"
#include "cli/paragraph.h"
#include "formats/footage.h"
#include "formats/layout.h"
#include "formats/text_file.h"
#include "lesson/house_look.h"

namespace ahead::cli {
namespace {

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

/// footage.json, and a layout for each still stretch.
std::optional<formats::InputError> write_layouts(const capture::Footage& footage,
                                                 const std::string& text,
                                                 const std::filesystem::path& folder) {
  if (auto error = formats::write_file(folder / "footage.json", text)) return error;
  for (std::size_t i = 0; i < footage.stills.size(); ++i) {
    if (auto error =
            formats::write_file(folder / fmt::format("layout-{}.json", i + 1),
                                formats::write_layout(footage.stills[i].captured.layout))) {
      return error;
    }
  }
  return std::nullopt;
}

formats::InputError refused(const CaptureOptions& options, const capture::Refusal& refusal) {
  return formats::not_captured(options.photograph, refusal.wrong, refusal.mend);
}

/// drawn.mp4, and drawing.png (see-through). What they show, in words.
Given<std::string> draw(const CaptureOptions& options, const capture::Footage& footage,
                        const coach::PlannedShot& shot, const std::filesystem::path& folder) {
  const auto number = capture::stretch_showing(footage, shot.before);
  if (!number) return std::unexpected(refused(options, number.error()));
  const capture::StillStretch& still = footage.stills[*number];
  const auto overlay = capture::shot_overlay(still.captured.camera, shot, still.captured.layout,
                                             lesson::house_look());
  if (auto error = formats::write_file(folder / "drawing.png",
                                       capture::png_of(overlay.colour, overlay.cover))) {
    return std::unexpected(*std::move(error));
  }
  if (const auto refusal = capture::draw_on_clip(options.photograph, still.from_s, still.to_s,
                                                 overlay, folder / "drawn.mp4")) {
    return std::unexpected(refused(options, *refusal));
  }
  return paragraph(fmt::format("drawn.mp4 shows shot {} on the still stretch from {:.2f} s to "
                               "{:.2f} s. {}",
                               options.shot, still.from_s, still.to_s,
                               capture::cut_in_words(still.captured.camera, shot)),
                   0);
}

}  // namespace

Outcome capture_clip(const CaptureOptions& options, const engine::Table& table,
                     const std::vector<capture::SeenPoint>& points,
                     const coach::PlannedShot* shot) {
  const auto footage =
      capture::capture_footage(options.photograph, table, points, [](double) { return true; });
  if (!footage) return std::unexpected(refused(options, footage.error()));
  const std::string text = formats::write_footage(capture::record_of(*footage));
  std::string words = in_words(*footage);
  if (options.out) {
    if (auto error = write_layouts(*footage, text, *options.out)) return std::unexpected(*error);
    if (shot != nullptr) {
      const auto drawn = draw(options, *footage, *shot, *options.out);
      if (!drawn) return std::unexpected(drawn.error());
      words += '\n' + *drawn;
    }
  }
  if (options.common.json) return Answer{.out = text};
  return Answer{.out = std::move(words)};
}

}  // namespace ahead::cli
