#include "tests/server/openapi.h"

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string_view>
#include <vector>

#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "formats/schema.h"
#include "tests/support/text_of.h"

namespace ahead::test {
namespace {

using nlohmann::json;
using Adapter = valijson::adapters::NlohmannJsonAdapter;

/// Where a reference leads in the one document that the validator is given. `file` is the schema
/// that it stands in; empty in the OpenAPI document.
std::string redirected(std::string reference, const std::string& file) {
  constexpr std::string_view components = "#/components/schemas/";
  if (reference.starts_with(components)) {
    return "#/definitions/" + reference.substr(components.size());
  }
  const std::string base =
      std::filesystem::path(reference.substr(0, reference.find('#'))).filename();
  const std::string target = base.empty() ? file : base.substr(0, base.find('.'));
  const auto inner = reference.find("#/definitions/");
  std::string result = "#/definitions/file-" + target;
  if (inner != std::string::npos) result += "-" + reference.substr(reference.rfind('/') + 1);
  return result;
}

void redirect(json& node, const std::string& file) {
  if (node.is_object() && node.contains("$ref")) {
    node = {{"$ref", redirected(node["$ref"], file)}};
    return;
  }
  for (json& child : node) {
    if (child.is_structured()) redirect(child, file);
  }
}

/// Every schema of the document and of our files, side by side.
const json& definitions() {
  static const json all = [] {
    json found = openapi()["components"]["schemas"];
    redirect(found, "");
    for (const std::string_view name : formats::schema_names()) {
      const std::string file(name);
      json schema = json::parse(*formats::schema_text(name));
      for (auto& [inner, part] : schema["definitions"].items()) {
        redirect(part, file);
        found["file-" + file + "-" + inner] = part;
      }
      schema.erase("definitions");
      schema.erase("$id");
      schema.erase("$schema");
      redirect(schema, file);
      found["file-" + file] = schema;
    }
    return found;
  }();
  return all;
}

std::string faults(json schema, const json& value) {
  static std::map<std::string, std::unique_ptr<valijson::Schema>> known;
  redirect(schema, "");
  auto& entry = known[schema.dump()];
  if (!entry) {
    schema["definitions"] = definitions();
    entry = std::make_unique<valijson::Schema>();
    valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
    parser.populateSchema(Adapter(schema), *entry);
  }
  valijson::Validator validator(valijson::Validator::kStrongTypes);
  valijson::ValidationResults results;
  const Adapter target(value);
  if (validator.validate(*entry, target, &results)) return "";
  std::string text = "refused";
  for (const auto& error : results) {
    text += "\n ";
    for (const std::string& step : error.context) text += step;
    text += " " + error.description;
  }
  return text;
}

/// Whether `path` fits a path of the document, such as "/api/plans/{id}".
bool fits(std::string_view pattern, std::string_view path) {
  while (!pattern.empty() && !path.empty()) {
    pattern.remove_prefix(1);
    path.remove_prefix(1);
    const auto wanted = pattern.substr(0, pattern.find('/'));
    const auto part = path.substr(0, path.find('/'));
    if (!wanted.starts_with('{') && wanted != part) return false;
    pattern.remove_prefix(wanted.size());
    path.remove_prefix(part.size());
  }
  return pattern.empty() && path.empty();
}

}  // namespace

const json& openapi() {
  static const json document =
      json::parse(text_of(std::filesystem::path(AHEAD_SOURCE_DIR) / "server/openapi.json"));
  return document;
}

std::string component_faults(const std::string& name, const json& value) {
  return faults({{"$ref", "#/components/schemas/" + name}}, value);
}

std::string openapi_faults(const std::string& method, const std::string& path, int status,
                           const std::string& type, const std::string& body) {
  const std::string bare = path.substr(0, path.find('?'));
  const json* operation = nullptr;
  for (const auto& [pattern, item] : openapi()["paths"].items()) {
    std::string lower = method;
    for (char& c : lower) c = static_cast<char>(std::tolower(c));
    if (fits(pattern, bare) && item.contains(lower)) operation = &item[lower];
  }
  if (operation == nullptr) return "the document has no " + method + " " + path;
  const json& responses = (*operation)["responses"];
  const std::string code = std::to_string(status);
  if (!responses.contains(code) && status < 400) return "the document has no answer " + code;
  const json& response = responses.contains(code) ? responses[code] : responses["default"];
  if (!response.contains("content")) return body.empty() ? "" : "there should be no body";
  const std::string bare_type = type.substr(0, type.find(';'));
  if (!response["content"].contains(bare_type)) return "the document has no " + bare_type;
  if (!bare_type.ends_with("json")) return "";
  return faults(response["content"][bare_type]["schema"], json::parse(body));
}

}  // namespace ahead::test
