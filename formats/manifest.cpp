#include "formats/manifest.h"

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

ordered_json json_of(const Sealed& sealed) {
  return {{"name", sealed.name}, {"sha256", sealed.sha256}};
}

ordered_json json_of(const std::vector<Setting>& settings) {
  ordered_json json = ordered_json::object();
  for (const Setting& each : settings) json[each.name] = each.value;
  return json;
}

}  // namespace

std::string write_manifest(const Manifest& manifest) {
  ordered_json json;
  json["format"] = manifest_format;
  json["program"] = manifest.program;
  json["plan"] = json_of(manifest.plan);
  json["table"] = json_of(manifest.table);
  json["player"] = json_of(manifest.player);
  json["seed"] = manifest.seed;
  json["settings"] = json_of(manifest.settings);
  json["libraries"] = json_of(manifest.libraries);
  json["fonts"] = ordered_json::array();
  for (const Sealed& font : manifest.fonts) json["fonts"].push_back(json_of(font));
  json["files"] = ordered_json::array();
  for (const OutputFile& file : manifest.files) {
    json["files"].push_back({{"name", file.name}, {"bytes", file.bytes}, {"sha256", file.sha256}});
  }
  return print_json(json);
}

}  // namespace ahead::formats
