#include "formats/after.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

#include <nlohmann/json.hpp>

#include "formats/document.h"
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

constexpr Range any_mm{.least = -1e5, .most = 1e5, .unit = "mm"};
constexpr Range any_slip{.least = -1e3, .most = 1e3, .unit = "of the part's own unit"};
constexpr Count some_balls{.least = 0, .most = 22, .words = "up to 22 balls"};

coach::Estimate estimate_of(const Field& field, double units) {
  const Keys keys(field, {"low", "best", "high", "sigma", "prior_sigma"});
  const auto in = [&](std::string_view key) { return keys.required(key).number(any_slip) / units; };
  return {.low = in("low"),
          .best = in("best"),
          .high = in("high"),
          .prior_sigma = in("prior_sigma"),
          .sigma = in("sigma")};
}

void add_slip(const Field& field, coach::ShotResult& result) {
  const Keys keys(field, {"explained", "effective_samples", "simulated_shots", "slip",
                          "cannot_tell_apart", "untold", "does_not_fit"});
  coach::StrikePosterior strike;
  strike.explained = keys.required("explained").number({.least = 0, .most = 1});
  const Keys slips(keys.required("slip"),
                   {parts[0].key, parts[1].key, parts[2].key, parts[3].key, parts[4].key});
  double most = 0;
  for (std::size_t p = 0; p < parts.size(); ++p) {
    const coach::Estimate estimate = estimate_of(slips.required(parts[p].key), parts[p].units);
    if (!coach::is_explained(strike) || estimate.prior_sigma <= 0) continue;
    const double size = std::abs(estimate.best) / estimate.prior_sigma;
    if (estimate.low * estimate.high <= 0 || size <= most) continue;
    most = size;
    result.slip = static_cast<coach::Part>(p);
    result.estimate = estimate;
  }
}

coach::PlayedShot played_of(const Field& field) {
  expect_format(field, after_format);
  const Keys keys(field, {"format", "shot", "ball", "potted", "actual", "player", "ends", "leave",
                          "strike", "next", "plan"});
  const Field shot = keys.required("shot");
  constexpr std::uint64_t most_shots = 32;
  const std::uint64_t number = shot.whole(most_shots);
  if (number < 1) refuse(out_of_range(shot.where(), 0, "from 1 to 32"));
  coach::PlayedShot played{.shot = number - 1, .ball = keys.required("ball").name()};
  played.result.potted = keys.required("potted").truth();
  for (const Field& each : keys.required("ends").items(some_balls)) {
    const Keys end(each, {"id", "meant", "found"});
    const Field found = end.required("found");
    if (end.required("id").name() == "cue" && !found.is_null()) {
      played.result.cue = found.point_m(any_mm);
    }
  }
  if (const Field leave = keys.required("leave"); !leave.is_null()) {
    const Keys miss(leave, {"along_mm", "across_mm"});
    played.result.leave =
        coach::LeaveMiss{.along_m = m_of_mm * miss.required("along_mm").number(any_mm),
                         .across_m = m_of_mm * miss.required("across_mm").number(any_mm)};
  }
  add_slip(keys.required("strike"), played.result);
  if (const Field plan = keys.required("plan"); !plan.is_null()) played.plan = plan_of(plan);
  return played;
}

}  // namespace

std::expected<coach::PlayedShot, InputError> read_played(std::string_view text,
                                                         std::string_view file) {
  return read_document<coach::PlayedShot>(text, file, played_of);
}

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
