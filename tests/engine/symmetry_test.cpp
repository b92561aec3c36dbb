#include "engine/equipment/symmetry.h"

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"

namespace ahead::engine {
namespace {

TEST(Symmetry, EveryPresetIsItsOwnImageBothWays) {
  for (const std::string_view id : table_preset_ids()) {
    const Symmetry symmetry = symmetry_of(*table_preset(id));
    EXPECT_TRUE(symmetry.across) << id;
    EXPECT_TRUE(symmetry.along) << id;
  }
}

TEST(Symmetry, NapRunsOneWay) {
  Table table = *table_preset("english-7ft");
  table.cloth.nap = 0.001;
  EXPECT_TRUE(symmetry_of(table).across);
  EXPECT_FALSE(symmetry_of(table).along);
}

TEST(Symmetry, AWiderPocketHasNoImage) {
  Table table = *table_preset("english-7ft");
  table.pockets[static_cast<std::size_t>(PocketName::middle_left)].fall_radius_m += 0.001;
  // Both middle pockets lie on the line that the ends are mirrored at.
  EXPECT_FALSE(symmetry_of(table).across);
  EXPECT_TRUE(symmetry_of(table).along);
}

TEST(Symmetry, AShiftedNoseHasNoImage) {
  Table table = *table_preset("american-9ft");
  for (Rail& rail : table.rails) {
    if (RailSegment* segment = std::get_if<RailSegment>(&rail)) {
      segment->from.y += 1e-6;
      break;
    }
  }
  EXPECT_FALSE(symmetry_of(table).across);
  EXPECT_FALSE(symmetry_of(table).along);
}

}  // namespace
}  // namespace ahead::engine
