#include "formats/schema.h"

#include <memory>
#include <string>

#include "cli/preset_list.h"
#include "cli/verbs.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string name;
};

Outcome run(const Options& options) {
  if (options.name.empty()) {
    return preset_list("schemas", formats::schema_names(), options.common.json);
  }
  const auto text = formats::schema_text(options.name);
  if (!text) {
    return std::unexpected(formats::unknown_schema(options.name, formats::schema_names()));
  }
  return Answer{.out = std::string(*text)};
}

}  // namespace

Run schema_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("NAME", options->name, "A kind of file of the list");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead schema layout > layout.schema.json
    and an editor that knows JSON Schema then completes and checks layouts while you type.

The output lists the kinds of file, one a line, or is a JSON Schema (draft-07) that says what every
key means and in which unit. Schemas point to each other by file name, layout to
table.schema.json for one: put them into one folder under those names.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
