#include "formats/access.h"

#include <cstddef>
#include <optional>

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/shot_option.h"
#include "formats/units.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

ordered_json json_of_reason(const std::optional<coach::Reason>& reason,
                            const coach::Layout& before) {
  if (!reason) return nullptr;
  ordered_json json;
  json["why"] = name_of(reason->why);
  json["ball"] = nullptr;
  if (reason->ball != 0) json["ball"] = id_of(before, reason->ball);
  return json;
}

ordered_json raised_by(const coach::Access& access, const coach::Layout& before) {
  switch (access.raised_by) {
    case coach::InTheWay::ball:
      return id_of(before, access.raised_by_ball);
    case coach::InTheWay::cushion:
      return "cushion";
    case coach::InTheWay::rail:
      return "rail";
    case coach::InTheWay::nothing:
      break;
  }
  return nullptr;
}

}  // namespace

ordered_json json_of(const coach::Access& access, const coach::Layout& before) {
  ordered_json json;
  json["blocked"] = json_of_reason(access.blocked, before);
  if (access.blocked) return json;
  json["elevation_deg"] = rounded(degrees(access.elevation_rad), 3);
  json["raised_by"] = raised_by(access, before);
  json["hand"] = name_of(access.hand);
  json["bridge"] = name_of(access.support);
  json["bridge_mm"] = rounded(mm(access.bridge_m), 1);
  json["stretch"] = rounded(access.stretch, 3);
  json["error_factor"] = rounded(access.error_factor, 3);
  json["not_own_hand"] = json_of_reason(access.not_own_hand, before);
  return json;
}

ordered_json json_of(const coach::Face& face, const coach::Layout& before) {
  ordered_json list = ordered_json::array();
  for (const coach::FacePlace& place : face.places) {
    list.push_back({{"side", rounded(place.side, 4)},
                    {"height", rounded(place.height, 4)},
                    {"access", json_of(place.access, before)}});
  }
  return list;
}

}  // namespace ahead::formats
