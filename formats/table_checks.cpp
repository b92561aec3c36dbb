#include "formats/table_checks.h"

#include <numbers>
#include <set>
#include <string_view>

#include "formats/field.h"
#include "formats/units.h"

namespace ahead::formats {
namespace {

Where at(const Where& where, std::string_view pointer) {
  return {.file = where.file, .place = where.place + std::string(pointer)};
}

double density_gpcm3(const engine::Ball& ball) {
  const double radius_cm = 100 * ball.radius_m;
  const double volume_cm3 = 4.0 / 3.0 * std::numbers::pi * radius_cm * radius_cm * radius_cm;
  return grams(ball.mass_kg) / volume_cm3;
}

/// Table balls are 1.6 to 1.9; outside these bounds a figure was mistyped.
void check_density(const engine::Ball& ball, const Where& where) {
  const double density = density_gpcm3(ball);
  if (density < 1.0 || density > 2.5) refuse(absurd_density(where, density));
}

void check_pockets(const engine::Table& table, const Where& where) {
  std::set<engine::PocketName> seen;
  for (const engine::Pocket& pocket : table.pockets) {
    if (!seen.insert(pocket.name).second) {
      const auto index = static_cast<std::size_t>(pocket.name);
      refuse(duplicate_pocket(where, engine::pocket_names[index]));
    }
  }
}

}  // namespace

void check_table(const engine::Table& table, const Where& where) {
  const double diameter_m = 2 * table.object_ball.radius_m;
  if (table.width_m > table.length_m) {
    refuse(sides_swapped(at(where, "/playing_area_mm"), mm(table.width_m), mm(table.length_m)));
  }
  if (table.width_m <= 10 * diameter_m) {
    refuse(too_narrow(at(where, "/playing_area_mm"), mm(table.width_m), mm(diameter_m)));
  }

  // Rules ask for 0.62 to 0.65 of the ball; worn and home tables stray a little further.
  constexpr double slack_m = 1e-9;
  const double least_m = 0.60 * diameter_m;
  const double most_m = 0.72 * diameter_m;
  if (table.nose_height_m < least_m - slack_m || table.nose_height_m > most_m + slack_m) {
    refuse(nose_height_off(at(where, "/nose_height_mm"), mm(table.nose_height_m), mm(least_m),
                           mm(most_m)));
  }
  check_pockets(table, at(where, "/pockets"));
  check_density(table.cue_ball, at(where, "/balls/cue"));
  check_density(table.object_ball, at(where, "/balls/object"));
  if (table.cloth.nap > table.cloth.rolling / 2) {
    refuse(nap_too_strong(at(where, "/cloth/nap"), table.cloth.nap, table.cloth.rolling));
  }
}

}  // namespace ahead::formats
