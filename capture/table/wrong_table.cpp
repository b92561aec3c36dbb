#include "capture/table/wrong_table.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/equipment/presets.h"

namespace ahead::capture {
namespace {

/// A ball's radius as a share of its table's width: what a picture shows without a scale.
double share_of_width(const engine::Table& table) {
  return table.object_ball.radius_m / table.width_m;
}

/// The tables known by name whose balls would look so, the best first: "one or another".
std::string fitting(double share) {
  std::vector<std::pair<double, std::string_view>> found;
  for (const std::string_view id : engine::table_preset_ids()) {
    const double off = std::abs(std::log(share_of_width(*engine::table_preset(id)) / share));
    if (off < alike_size) found.emplace_back(off, id);
  }
  std::ranges::stable_sort(found, {}, &std::pair<double, std::string_view>::first);
  std::string names;
  for (const auto& [off, id] : found) {
    if (!names.empty()) names += " or ";
    names += id;
  }
  return names;
}

}  // namespace

std::optional<Refusal> wrong_table(double ball_size, const engine::Table& table) {
  if (std::abs(std::log(ball_size)) < alike_size) return std::nullopt;
  const std::string names = fitting(ball_size * share_of_width(table));
  return Refusal{.wrong = "shows balls " + std::to_string(std::lround(100 * ball_size)) +
                          "% as large as they are on " + table.id,
                 .mend = names.empty()
                             ? "give a table file with the size of the table and of its balls"
                             : "say which table it is: " + names + " would fit"};
}

}  // namespace ahead::capture
