#include "formats/schema.h"

#include "formats/embedded_schema.h"

namespace ahead::formats {

std::span<const std::string_view> schema_names() { return embedded_schema_names(); }

std::optional<std::string_view> schema_text(std::string_view name) { return embedded_schema(name); }

}  // namespace ahead::formats
