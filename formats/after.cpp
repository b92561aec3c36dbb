#include "formats/after.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/plan.h"
#include "formats/shot_option.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using formats::json_of;
using nlohmann::ordered_json;

/// A part of the slip in the file's unit.
struct PartKey {
  std::string_view key;
  double units;
};
constexpr std::array<PartKey, coach::part_count> parts{{{"direction_deg", 1 / rad_of_deg},
                                                        {"pace", 1},
                                                        {"tip_height_mm", 1e3},
                                                        {"tip_side_mm", 1e3},
                                                        {"elevation_deg", 1 / rad_of_deg}}};

const PartKey& key_of(coach::Part part) { return parts[static_cast<std::size_t>(part)]; }

double in_units(coach::Part part, double slip) { return rounded(key_of(part).units * slip, 4); }

ordered_json json_of(const std::optional<engine::Vec2>& place) {
  return place ? json_of(*place, 1) : ordered_json(nullptr);
}

ordered_json json_of(const coach::Tradeoff& tie) {
  return {{"one", key_of(tie.one).key},
          {"other", key_of(tie.other).key},
          {"one_alone", in_units(tie.one, tie.one_alone)},
          {"other_alone", in_units(tie.other, tie.other_alone)}};
}

ordered_json json_of(const coach::StrikePosterior& strike, const coach::Layout& before) {
  ordered_json json;
  json["explained"] = rounded(strike.explained, 4);
  json["effective_samples"] = rounded(strike.effective_samples, 0);
  json["simulated_shots"] = strike.simulated_shots;
  json["slip"] = ordered_json::object();
  for (std::size_t p = 0; p < parts.size(); ++p) {
    const auto part = static_cast<coach::Part>(p);
    const coach::Estimate& estimate = strike.parts[p];
    json["slip"][parts[p].key] = {{"low", in_units(part, estimate.low)},
                                  {"best", in_units(part, estimate.best)},
                                  {"high", in_units(part, estimate.high)},
                                  {"sigma", in_units(part, estimate.sigma)},
                                  {"prior_sigma", in_units(part, estimate.prior_sigma)}};
  }
  json["cannot_tell_apart"] = ordered_json::array();
  for (const coach::Tradeoff& tie : strike.tradeoffs) {
    json["cannot_tell_apart"].push_back(json_of(tie));
  }
  json["untold"] = ordered_json::array();
  for (const coach::Part part : strike.untold) json["untold"].push_back(key_of(part).key);
  json["does_not_fit"] = ordered_json::array();
  for (const int ball : strike.strays) {
    json["does_not_fit"].push_back(before.balls[static_cast<std::size_t>(ball)].id);
  }
  return json;
}

ordered_json json_of(const coach::FollowingPot& next, const engine::Table& table) {
  return {{"ball", next.id},
          {"pocket", name_of(table.pockets[static_cast<std::size_t>(next.pocket)].name)},
          {"meant", rounded(next.meant, 4)},
          {"now", next.now ? json_of(*next.now) : ordered_json(nullptr)}};
}

}  // namespace

std::string write_after(const coach::Plan& plan, const coach::Aftermath& after) {
  const coach::PlannedShot& shot = plan.shots[after.shot];
  ordered_json json;
  json["format"] = after_format;
  json["shot"] = after.shot + 1;
  json["ball"] = shot.before.balls[static_cast<std::size_t>(shot.best.ball)].id;
  json["potted"] = after.potted;
  json["actual"] = json_of(after.actual);
  json["player"] = json_of(after.player);
  json["ends"] = ordered_json::array();
  for (const coach::EndPair& end : after.ends) {
    json["ends"].push_back(
        {{"id", end.id}, {"meant", json_of(end.meant)}, {"found", json_of(end.found)}});
  }
  json["leave"] = after.leave ? ordered_json{{"along_mm", rounded(mm(after.leave->along_m), 1)},
                                             {"across_mm", rounded(mm(after.leave->across_m), 1)}}
                              : ordered_json(nullptr);
  json["strike"] = json_of(after.strike, shot.before);
  json["next"] = after.next ? json_of(*after.next, after.actual.table) : ordered_json(nullptr);
  json["plan"] = after.plan ? ordered_json::parse(write_plan(*after.plan)) : ordered_json(nullptr);
  return print_json(json);
}

}  // namespace ahead::formats
