#include "cli/kept_shots.h"

#include <string>
#include <utility>

#include <fmt/format.h>

#include "formats/layout.h"
#include "formats/shot.h"
#include "formats/strike.h"
#include "formats/text_file.h"

namespace ahead::cli {
namespace {

/// The table as the shot finds it.
coach::Layout layout_before(const coach::Layout& layout, const coach::LayoutTrial& trial,
                            const coach::Position& position, std::string note) {
  const coach::Task& task = trial.start.scene.task;
  coach::Layout before = layout;
  before.to_play = (task.own & position.present) == 0 ? coach::ToPlay::black : trial.start.colour;
  before.note = std::move(note);
  before.balls.clear();
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    if (!coach::has(position.present, static_cast<int>(i))) continue;
    before.balls.push_back(layout.balls[i]);
    before.balls.back().at = position.at[i];
    before.balls.back().sigma_m = 0;
  }
  return before;
}

}  // namespace

std::optional<formats::InputError> keep_shots(const coach::Layout& layout,
                                              const coach::LayoutTrial& trial,
                                              const std::filesystem::path& folder) {
  const engine::Playfield& field = trial.start.scene.field;
  for (std::size_t run = 0; run < trial.clearances.size(); ++run) {
    const auto& shots = trial.clearances[run].shots;
    const std::filesystem::path place = folder / fmt::format("run-{:03}", run + 1);
    if (auto error = formats::make_folder(place)) return error;
    for (std::size_t i = 0; i < shots.size(); ++i) {
      const auto& [from, strike] = shots[i].attempt;
      const coach::Layout before = layout_before(
          layout, trial, from, fmt::format("Before shot {} of run {} of a trial.", i + 1, run + 1));
      std::vector<std::pair<const char*, std::string>> files{
          {"layout", formats::write_layout(before)}, {"strike", formats::write_strike(strike)}};
      if (!engine::miscues(strike, layout.table.cue)) {
        const engine::Shot shot = coach::play(field, from, strike).shot;
        files.emplace_back("shot", formats::write_shot(shot, before));
      }
      for (const auto& [kind, text] : files) {
        const auto path = place / fmt::format("shot-{:02}.{}.json", i + 1, kind);
        if (auto error = formats::write_file(path, text)) return error;
      }
    }
  }
  return std::nullopt;
}

}  // namespace ahead::cli
