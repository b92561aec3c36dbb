#include "formats/table.h"

#include <memory>
#include <string>

#include "cli/given.h"
#include "cli/preset_list.h"
#include "cli/verbs.h"
#include "engine/equipment/presets.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string id;
};

Outcome run(const Options& options) {
  if (options.id.empty()) {
    return preset_list("tables", engine::table_preset_ids(), options.common.json);
  }
  const auto table = given_table(options.id);
  if (!table) return std::unexpected(table.error());
  return Answer{.out = formats::write_table(*table)};
}

}  // namespace

Run table_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("ID", options->id, "A table of the list, or a table file to check and tidy");
  add_common(app, options->common);
  app.footer(R"(Example:
  ahead table english-7ft > club.json
    makes a file to start from: change what you measured on your own table, and give it to other
    verbs with --table club.json, or paste it into a layout in place of the table's name.

The output lists the tables, one a line, or is the table as a file: cushions, pockets, balls, cloth
and cue, in millimetres and grams. Its notes say which value comes from where and which is an
assumption. "ahead schema table" explains every key.)");
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
