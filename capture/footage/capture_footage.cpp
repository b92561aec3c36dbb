#include "capture/footage/capture_footage.h"

#include <algorithm>
#include <cstddef>
#include <deque>
#include <optional>
#include <utility>

#include <opencv2/core.hpp>

#include "capture/balls/cloth.h"
#include "capture/footage/frames.h"
#include "capture/footage/motion.h"
#include "capture/footage/tracks.h"
#include "capture/picture/mat.h"
#include "capture/see.h"

namespace ahead::capture {
namespace {

/// Nothing moves when no block of the bed changes by more than this between frames `lag` apart, in
/// 255ths; slow rolling shows over a few frames only.
constexpr double still_change = 4.0;
constexpr std::size_t lag = 4;
/// A still stretch is at least this long.
constexpr std::size_t least_still = 10;
/// A ball that is nowhere further from its first place than this does not move.
constexpr double least_move_m = 0.01;

struct Frame {
  double t_s = 0;
  Picture picture;
  cv::Mat small;
};

/// Frames averaged.
class Average {
 public:
  void add(const Picture& frame) {
    cv::Mat fine;
    as_mat(frame).convertTo(fine, CV_32FC3);
    if (count_ == 0) {
      sum_ = fine;
    } else {
      sum_ += fine;
    }
    ++count_;
  }
  [[nodiscard]] Picture picture() const {
    Picture out = blank_picture(sum_.cols, sum_.rows);
    cv::Mat bytes = as_mat(out);
    const cv::Mat mean = sum_ / count_;
    mean.convertTo(bytes, CV_8UC3);
    return out;
  }
  [[nodiscard]] int count() const { return count_; }

 private:
  cv::Mat sum_;
  int count_ = 0;
};

class Watcher {
 public:
  Watcher(const engine::Table& table, std::span<const SeenPoint> points)
      : table_(table), points_(points.begin(), points.end()) {}

  /// Nothing while all is well.
  std::optional<Refusal> see(Picture picture, double t_s);
  std::optional<Refusal> finish();
  [[nodiscard]] Footage footage() && { return std::move(footage_); }

 private:
  [[nodiscard]] cv::Mat first_mask(const Picture& picture, cv::Size small) const;
  std::optional<Refusal> end_still();
  void follow(const Picture& picture, double t_s);
  void close_shot(double still_from_s);

  const engine::Table& table_;
  std::vector<SeenPoint> points_;
  std::deque<Frame> recent_;        // the last `lag` frames and this one
  std::vector<Frame> waiting_;      // still so far, too few to be sure
  std::optional<Average> average_;  // of the still stretch that goes on
  double still_from_s_ = 0;
  double still_to_s_ = 0;
  cv::Mat mask_;
  // Of the camera, once it is known: it does not move.
  std::optional<CameraFit> fit_;
  std::vector<Track> tracks_;
  std::vector<std::pair<double, cv::Mat>> moving_;  // small frames of the shot that goes on
  cv::Mat still_small_;                             // of the still stretch before it
  Footage footage_;
};

std::optional<Refusal> Watcher::see(Picture picture, double t_s) {
  const cv::Mat small = small_grey(picture);
  if (mask_.empty()) mask_ = first_mask(picture, small.size());
  if (small.size() != mask_.size()) {
    return Refusal{.wrong = "changes its size half way", .mend = "cut the clip there"};
  }
  const bool still =
      recent_.size() >= lag && most_change(small, recent_.front().small, mask_) < still_change;
  recent_.push_back({.t_s = t_s, .picture = {}, .small = small});
  if (recent_.size() > lag) recent_.pop_front();

  if (average_) {
    // Against the whole stretch, and not only the last frames: creeping shows sooner.
    if (still && most_change(small, still_small_, mask_) < still_change) {
      average_->add(picture);
      still_to_s_ = t_s;
      return std::nullopt;
    }
    if (auto refusal = end_still()) return refusal;
    moving_.clear();
  }
  moving_.emplace_back(t_s, small);
  follow(picture, t_s);
  if (!still) {
    waiting_.clear();
    return std::nullopt;
  }
  waiting_.push_back({.t_s = t_s, .picture = std::move(picture), .small = small});
  if (waiting_.size() < least_still) return std::nullopt;
  average_.emplace();
  for (const Frame& frame : waiting_) average_->add(frame.picture);
  still_from_s_ = waiting_.front().t_s;
  still_to_s_ = t_s;
  still_small_ = small_grey(average_->picture());
  close_shot(still_from_s_);
  waiting_.clear();
  return std::nullopt;
}

/// The bed as one frame shows it, or everything when that does not do.
cv::Mat Watcher::first_mask(const Picture& picture, cv::Size small) const {
  cv::Mat fine;
  as_mat(picture).convertTo(fine, CV_32FC3);
  if (const auto seen = see_table(fine, table_, points_)) {
    return bed_mask(seen->fit.camera, table_, small);
  }
  return {small, CV_32F, cv::Scalar(1)};
}

void Watcher::follow(const Picture& picture, double t_s) {
  if (!fit_ || tracks_.empty()) return;
  cv::Mat fine;
  as_mat(picture).convertTo(fine, CV_32FC3);
  const Cloth cloth = learn_cloth(fine, fit_->camera, table_);
  add_to_tracks(tracks_, see_balls(fine, cloth, *fit_, table_), t_s);
}

/// The shot before this still stretch is over: when it stopped, and who moved.
void Watcher::close_shot(double still_from_s) {
  if (footage_.stills.empty()) return;
  std::vector<std::pair<double, double>> changes;
  for (const auto& [t_s, small] : moving_) {
    if (t_s > still_from_s - 0.7)
      changes.emplace_back(t_s, most_change(small, still_small_, mask_));
  }
  // What the sensor's noise alone changes: the frames that are known to be still.
  std::vector<double> quiet;
  for (const auto& [t_s, change] : changes) {
    if (t_s >= still_from_s) quiet.push_back(change);
  }
  std::ranges::sort(quiet);
  const double noise = quiet.empty() ? 0 : quiet[quiet.size() / 2];
  // A frame is called still when the one `lag` before it already was.
  const double fallback_s = still_from_s - (lag - 1) / frames_per_second;
  SeenShot shot{.from_s = footage_.stills.back().to_s + 0.5 / frames_per_second,
                .to_s = moment_of_rest(changes, noise, fallback_s)};
  for (Track& track : tracks_) {
    const bool moved = std::ranges::any_of(track.points, [&](const TrackPoint& point) {
      return norm(point.at - track.points.front().at) > least_move_m;
    });
    if (moved) shot.tracks.push_back(std::move(track));
  }
  std::ranges::stable_sort(shot.tracks, {},
                           [](const Track& track) { return track.colour != coach::Colour::cue; });
  footage_.shots.push_back(std::move(shot));
  tracks_.clear();
}

std::optional<Refusal> Watcher::end_still() {
  const Picture picture = average_->picture();
  average_.reset();
  const auto captured = capture_photograph(picture, table_, points_);
  if (!captured) return captured.error();
  if (!fit_) {
    cv::Mat fine;
    as_mat(picture).convertTo(fine, CV_32FC3);
    const auto seen = see_table(fine, table_, points_);
    if (!seen) return seen.error();
    fit_ = seen->fit;
    mask_ = bed_mask(fit_->camera, table_, still_small_.size());
    // From now on these corners: the camera stands.
    if (points_.empty()) {
      for (const Vec3 corner : nose_corners(table_)) {
        if (const auto pixel = pixel_of(fit_->camera, corner)) {
          points_.push_back({corner, *pixel, marked_sigma_px});
        }
      }
    }
  }
  footage_.stills.push_back({.from_s = still_from_s_, .to_s = still_to_s_, .captured = *captured});
  tracks_.clear();
  for (const CapturedBall& ball : captured->balls) {
    tracks_.push_back(
        {.colour = ball.ball.colour,
         .points = {{.t_s = still_to_s_, .at = ball.ball.at, .sigma_m = ball.ball.sigma_m}}});
  }
  return std::nullopt;
}

std::optional<Refusal> Watcher::finish() {
  if (average_) {
    if (auto refusal = end_still()) return refusal;
  }
  if (footage_.stills.empty()) {
    return Refusal{.wrong = "shows no moment at which nothing moves on the bed",
                   .mend = "film from a stand, and let it run before and after the shot"};
  }
  return std::nullopt;
}

}  // namespace

std::expected<Footage, Refusal> capture_footage(const std::filesystem::path& clip,
                                                const engine::Table& table,
                                                std::span<const SeenPoint> points,
                                                const OnSecond& on_second) {
  auto frames = Frames::open(clip);
  if (!frames) return std::unexpected(frames.error());
  Watcher watcher(table, points);
  long number = 0;
  for (; auto picture = frames->next(); ++number) {
    const double t_s = static_cast<double>(number) / frames_per_second;
    if (auto refusal = watcher.see(std::move(*picture), t_s)) return std::unexpected(*refusal);
    if (!on_second(t_s)) break;
  }
  if (number == 0) {
    return std::unexpected(frames->failure().value_or(
        Refusal{.wrong = "is footage without a frame", .mend = "save or send the clip again"}));
  }
  if (auto refusal = watcher.finish()) return std::unexpected(*refusal);
  return std::move(watcher).footage();
}

}  // namespace ahead::capture
