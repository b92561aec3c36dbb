#pragma once

#include <string>

#include <nlohmann/json.hpp>

/// server/openapi.json as the tests hold the server to it.
namespace ahead::test {

/// What the document says against an answer to `method` `path`; empty when it passes. An address
/// that the document does not have is a fault, and so is a type of content.
[[nodiscard]] std::string openapi_faults(const std::string& method, const std::string& path,
                                         int status, const std::string& type,
                                         const std::string& body);

/// What the schema `name` of the document says against a value.
[[nodiscard]] std::string component_faults(const std::string& name, const nlohmann::json& value);

/// The whole document.
[[nodiscard]] const nlohmann::json& openapi();

}  // namespace ahead::test
