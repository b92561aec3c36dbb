#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "capture/capture.h"
#include "capture/picture/picture.h"

/// What a capture found against what was rendered.
namespace ahead::photographs {

using engine::Vec2;

struct TrueBall {
  std::string id;
  Vec2 at;
  double seen = 0;
};

struct Truth {
  std::string file;
  std::string table;
  double focal_px = 0;
  double k1 = 0;
  engine::Vec3 eye;
  std::vector<Vec2> corners;  ///< as rendered
  std::vector<Vec2> given;    ///< as marked: within 3 pixels of them
  std::vector<TrueBall> balls;
};

[[nodiscard]] std::vector<Truth> read_truth(const std::filesystem::path& folder);
[[nodiscard]] capture::Picture read_photograph(const std::filesystem::path& file);

enum class Given { corners, nothing };

struct Tally {
  int photographs = 0;
  int refused = 0;       ///< without an answer
  int tables = 0;        ///< of which the table was found
  int visible = 0;       ///< balls of which at least two fifths are seen
  int found = 0;         ///< of those
  int false_balls = 0;   ///< where there is none, seen or not
  int right_colour = 0;  ///< of the found
  std::vector<double> errors_mm;
  std::vector<double> along_axes;  ///< error along each axis of the covariance, in sigmas
  std::vector<std::string> remarks;

  Tally& operator+=(const Tally& other);
};

[[nodiscard]] Tally judged(const Truth& truth, const std::filesystem::path& folder, Given given);

/// The share-th smallest, 0 to 1; 0 of none.
[[nodiscard]] double quantile(std::vector<double> values, double share);
[[nodiscard]] double share_within_one(const std::vector<double>& sigmas);
[[nodiscard]] std::string line_of(const std::string& name, const Tally& tally);

}  // namespace ahead::photographs
