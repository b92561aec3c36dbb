#include "capture/balls/cloth.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "capture/picture/mat.h"

namespace ahead::capture {
namespace {

constexpr int columns = 5;
constexpr int rows = 10;
constexpr double sample_step_m = 0.006;
/// In shade and in the light, as shares of the bare cloth's value (gamma-coded, so that a third is
/// about a tenth of the light).
constexpr float darkest_shade = 0.45F;
constexpr float brightest = 1.15F;
/// In half-shade.
constexpr float light_shade = 0.8F;

struct Sample {
  Colour3 colour;
  int column = 0;
  int row = 0;
};

float length(const Colour3& c) { return std::sqrt(c.dot(c)); }

/// Distance of a pixel from the line of the cloth's shades.
float off_cloth(const Colour3& pixel, const Colour3& cloth, float darkest = darkest_shade) {
  const float square = std::max(cloth.dot(cloth), 1.0F);
  const float share = std::clamp(pixel.dot(cloth) / square, darkest, brightest);
  return length(pixel - share * cloth);
}

float median(std::vector<float>& values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  return *middle;
}

Colour3 median(const std::vector<Colour3>& colours) {
  Colour3 result;
  std::vector<float> one(colours.size());
  for (int c = 0; c < 3; ++c) {
    std::ranges::transform(colours, one.begin(), [c](const Colour3& colour) { return colour[c]; });
    result[c] = median(one);
  }
  return result;
}

std::vector<Sample> samples_of_bed(const cv::Mat& picture, const Camera& camera,
                                   const engine::Table& table) {
  std::vector<Sample> samples;
  const double inset = 0.02;
  for (double y = inset; y < table.length_m - inset; y += sample_step_m) {
    for (double x = inset; x < table.width_m - inset; x += sample_step_m) {
      const auto pixel = pixel_of(camera, {x, y, 0});
      if (!pixel || !inside(picture, *pixel)) continue;
      samples.push_back(
          {.colour = sampled<Colour3>(picture, *pixel),
           .column = std::min(static_cast<int>(columns * x / table.width_m), columns - 1),
           .row = std::min(static_cast<int>(rows * y / table.length_m), rows - 1)});
    }
  }
  return samples;
}

/// The commonest hue and saturation of the bed, whatever its brightness.
Colour3 commonest(const std::vector<Sample>& samples) {
  constexpr int bins = 24;
  std::vector<int> count(static_cast<std::size_t>(bins * bins), 0);
  std::vector<std::size_t> bin_of;
  bin_of.reserve(samples.size());
  for (const Sample& sample : samples) {
    const Colour3& c = sample.colour;
    const float sum = std::max(c[0] + c[1] + c[2], 1.0F);
    const auto bin = [&](int k) {
      return std::clamp(static_cast<int>(bins * c[k] / sum), 0, bins - 1);
    };
    bin_of.push_back(static_cast<std::size_t>(bin(0) * bins + bin(2)));
    ++count[bin_of.back()];
  }
  const auto best = static_cast<std::size_t>(std::ranges::max_element(count) - count.begin());
  std::vector<Colour3> chosen;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    if (bin_of[i] == best) chosen.push_back(samples[i].colour);
  }
  return chosen.empty() ? Colour3{64, 64, 64} : median(chosen);
}

/// Cloth colour of every cell: the median of its pixels that are cloth by the general colour; a
/// cell with few takes the whole bed's.
cv::Mat colours_of_cells(const std::vector<Sample>& samples, const Colour3& general) {
  // A first look at brightness: cloth may be lit from 0.4 to 1.8 times the median.
  std::array<std::vector<Colour3>, static_cast<std::size_t>(columns * rows)> cells;
  const float size = std::max(length(general), 1.0F);
  for (const Sample& sample : samples) {
    const float share = sample.colour.dot(general) / (size * size);
    const float off = length(sample.colour - share * general);
    if (share < 0.3F || share > 2.2F || off > 0.16F * share * size + 6) continue;
    cells[static_cast<std::size_t>(sample.row * columns + sample.column)].push_back(sample.colour);
  }
  cv::Mat mat(rows, columns, CV_32FC3);
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const auto& cell = cells[static_cast<std::size_t>(row * columns + column)];
      mat.at<Colour3>(row, column) = cell.size() < 20 ? general : median(cell);
    }
  }
  cv::Mat smooth;
  cv::GaussianBlur(mat, smooth, {3, 3}, 0.6, 0.6, cv::BORDER_REPLICATE);
  return smooth;
}

/// The cells laid over the picture, an eighth of its size and then enlarged.
cv::Mat cloth_of_picture(const cv::Mat& cells, const cv::Mat& picture, const Camera& camera,
                         const engine::Table& table) {
  constexpr int step = 8;
  cv::Mat small(picture.rows / step + 1, picture.cols / step + 1, CV_32FC3);
  for (int row = 0; row < small.rows; ++row) {
    for (int column = 0; column < small.cols; ++column) {
      const Vec2 pixel{step * (column + 0.5) - 0.5, step * (row + 0.5) - 0.5};
      const Vec2 at = on_plane(camera, pixel, 0).value_or(Vec2{0, 0});
      small.at<Colour3>(row, column) =
          sampled<Colour3>(cells, {columns * std::clamp(at.x / table.width_m, 0.0, 1.0) - 0.5,
                                   rows * std::clamp(at.y / table.length_m, 0.0, 1.0) - 0.5});
    }
  }
  cv::Mat large;
  cv::resize(small, large, {}, step, step, cv::INTER_LINEAR);
  return large(cv::Rect(0, 0, picture.cols, picture.rows)).clone();
}

}  // namespace

Cloth learn_cloth(const cv::Mat& picture, const Camera& camera, const engine::Table& table) {
  const std::vector<Sample> samples = samples_of_bed(picture, camera, table);
  const cv::Mat cells = colours_of_cells(samples, commonest(samples));
  Cloth cloth{.colour = cloth_of_picture(cells, picture, camera, table)};

  std::vector<float> offs;
  offs.reserve(samples.size());
  for (const Sample& sample : samples) {
    offs.push_back(off_cloth(sample.colour, cells.at<Colour3>(sample.row, sample.column)));
  }
  cloth.noise = offs.empty() ? 3 : std::max(1.5, 1.0 * median(offs));

  const auto least = static_cast<float>(3 * cloth.noise + 4);
  const auto most = 2.2F * least;
  cloth.evidence.create(picture.size(), CV_32F);
  cloth.with_shades.create(picture.size(), CV_32F);
  for (int row = 0; row < picture.rows; ++row) {
    const auto* pixel = picture.ptr<Colour3>(row);
    const auto* bare = cloth.colour.ptr<Colour3>(row);
    auto* out = cloth.evidence.ptr<float>(row);
    auto* shades = cloth.with_shades.ptr<float>(row);
    const auto judged = [&](float off) {
      return std::clamp((off - least) / (most - least), 0.0F, 1.0F);
    };
    for (int column = 0; column < picture.cols; ++column) {
      out[column] = judged(off_cloth(pixel[column], bare[column]));
      shades[column] = judged(off_cloth(pixel[column], bare[column], light_shade));
    }
  }
  return cloth;
}

}  // namespace ahead::capture
