#include "formats/footage.h"

#include <array>
#include <string_view>

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

constexpr std::array<std::string_view, 10> colour_names{
    "cue", "red", "yellow", "green", "brown", "blue", "pink", "black", "solid", "stripe"};

ordered_json track_json(const TrackRecord& track) {
  ordered_json points = ordered_json::array();
  for (const TrackPointRecord& point : track.points) {
    points.push_back({{"t", rounded(point.t_s, 3)},
                      {"at", json_of(point.at, 1)},
                      {"sigma_mm", rounded(mm(point.sigma_m), 2)}});
  }
  ordered_json json;
  json["colour"] = name_of(track.colour, colour_names);
  json["points"] = std::move(points);
  return json;
}

}  // namespace

std::string write_footage(const FootageRecord& footage) {
  ordered_json json;
  json["format"] = footage_format;
  json["stills"] = ordered_json::array();
  for (const StillRecord& still : footage.stills) {
    json["stills"].push_back({{"from_s", rounded(still.from_s, 3)},
                              {"to_s", rounded(still.to_s, 3)},
                              {"capture", json_of(still.capture)}});
  }
  json["shots"] = ordered_json::array();
  for (const SeenShotRecord& shot : footage.shots) {
    ordered_json tracks = ordered_json::array();
    for (const TrackRecord& track : shot.tracks) tracks.push_back(track_json(track));
    json["shots"].push_back({{"from_s", rounded(shot.from_s, 3)},
                             {"to_s", rounded(shot.to_s, 3)},
                             {"tracks", std::move(tracks)}});
  }
  return print_json(json);
}

}  // namespace ahead::formats
