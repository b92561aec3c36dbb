#include "capture/known_points.h"

namespace ahead::capture {

std::optional<engine::Vec3> known_point(const engine::Table& table, std::string_view name) {
  for (const engine::Pocket& pocket : table.pockets) {
    if (engine::pocket_names[static_cast<std::size_t>(pocket.name)] == name) {
      return engine::lift(pocket.centre);
    }
  }
  if (name == "spot") return engine::lift(table.markings.spot);
  if (name == "baulk-left") return engine::Vec3{0, table.markings.baulk_line_m, 0};
  if (name == "baulk-right") return engine::Vec3{table.width_m, table.markings.baulk_line_m, 0};
  return std::nullopt;
}

}  // namespace ahead::capture
