#pragma once

#include <list>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "coach/pots/way.h"
#include "coach/scene.h"

/// What the last questions have shown and the next ones need again.
///
/// Preparing a table costs as much as a thousand shots, and the gate of a pot as much as a hundred;
/// neither hangs on the cue ball, so a drag of the cue ball finds both here. Answers do not depend
/// on what is known, only their time does.
namespace ahead::server {

class Known {
 public:
  /// The scene in which `ball` is to be potted; without a ball, the layout's own colour.
  [[nodiscard]] coach::Scene scene(const coach::Layout& layout, std::optional<int> ball,
                                   const coach::Player& player);

  /// coach::way_to().
  [[nodiscard]] std::optional<coach::Way> way(const coach::Scene& scene,
                                              const coach::Position& position, int ball,
                                              int pocket);

 private:
  struct KnownWay {
    engine::Table table;
    coach::Task task;
    coach::Position others;  ///< the position without the cue ball's place
    int ball = 0;
    int pocket = 0;
    std::optional<coach::Way> way;
  };

  std::mutex mutex_;
  std::list<std::shared_ptr<const engine::Playfield>> fields_;  ///< last used first
  std::list<std::shared_ptr<const KnownWay>> ways_;             ///< last used first
};

}  // namespace ahead::server
