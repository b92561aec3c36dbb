#include <array>
#include <chrono>

#include <fmt/format.h>

#include "coach/player/player.h"
#include "engine/equipment/presets.h"
#include "formats/player.h"
#include "formats/schema.h"
#include "formats/table.h"
#include "formats/workbench/json_object.h"
#include "formats/workbench/questions.h"
#include "server/embedded_file.h"
#include "server/problems.h"
#include "server/workbench.h"

namespace ahead::server {
namespace {

Reply about(Workbench& workbench, const Request& /*request*/) {
  return json_reply(formats::JsonObject()
                        .add_words("name", "Three Ahead")
                        .add_words("version", workbench.version)
                        .add_words("started", workbench.started)
                        .add_words("boot", workbench.boot)
                        .add_number("live_tries", formats::live_tries)
                        .add_number("most_tries", formats::most_tries)
                        .add_number("most_body_bytes",
                                    static_cast<std::int64_t>(workbench.limits.most_body_bytes))
                        .text());
}

Reply presets(Workbench& /*workbench*/, const Request& /*request*/) {
  formats::JsonList tables;
  for (const std::string_view id : engine::table_preset_ids()) {
    tables.add(formats::write_table(*engine::table_preset(id)));
  }
  formats::JsonList players;
  for (const std::string_view id : coach::player_preset_ids()) {
    players.add(formats::write_player(*coach::player_preset(id)));
  }
  return json_reply(
      formats::JsonObject().add("tables", tables.text()).add("players", players.text()).text());
}

/// The document refers to the schemas of the source tree; here they lie below /api/schema.
Reply openapi(Workbench& /*workbench*/, const Request& /*request*/) {
  std::string text(*embedded_file("openapi"));
  constexpr std::string_view in_tree = "../formats/schema/";
  constexpr std::string_view here = "schema/";
  for (auto at = text.find(in_tree); at != std::string::npos; at = text.find(in_tree, at)) {
    text.replace(at, in_tree.size(), here);
  }
  return json_reply(std::move(text));
}

Reply schema(Workbench& /*workbench*/, const Request& request) {
  constexpr std::string_view ending = ".schema.json";
  std::string_view name = request.in_path[0];
  if (name.ends_with(ending)) name.remove_suffix(ending.size());
  const auto text = formats::schema_text(name);
  return text ? json_reply(std::string(*text)) : not_found("schema of that name");
}

void send_changes(Workbench& workbench, EventSink& sink) {
  using namespace std::chrono_literals;
  std::uint64_t next = workbench.changes.next();
  if (!sink.send("hello", formats::JsonObject()
                              .add_words("boot", workbench.boot)
                              .add_words("version", workbench.version)
                              .text())) {
    return;
  }
  auto last_sent = std::chrono::steady_clock::now();
  while (!sink.gone()) {
    const auto change = workbench.changes.wait_for(next, 100ms);
    if (change) {
      ++next;
      if (!sink.send("changed", *change)) return;
      last_sent = std::chrono::steady_clock::now();
    } else if (std::chrono::steady_clock::now() - last_sent > 2s) {
      if (!sink.send_nothing()) return;
      last_sent = std::chrono::steady_clock::now();
    }
  }
}

Reply events(Workbench& workbench, const Request& /*request*/) {
  auto slot = std::make_shared<Slots::Held>(workbench.streams.take());
  if (!*slot) return busy("as many open pages as it can serve");
  return {.type = "text/event-stream",
          .events = [&workbench, slot](EventSink& sink) { send_changes(workbench, sink); }};
}

}  // namespace

std::span<const Route> about_routes() {
  static constexpr std::array routes{
      Route{"GET", "/api/about", about}, Route{"GET", "/api/presets", presets},
      Route{"GET", "/api/openapi.json", openapi}, Route{"GET", "/api/schema/{name}", schema},
      Route{"GET", "/api/events", events}};
  return routes;
}

}  // namespace ahead::server
