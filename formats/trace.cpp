#include "formats/trace.h"

#include <algorithm>
#include <vector>

#include <nlohmann/json.hpp>

#include "formats/document.h"
#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

ordered_json ids_of(std::uint32_t balls, const coach::Layout& layout) {
  ordered_json ids = ordered_json::array();
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    if ((balls >> i & 1U) != 0) ids.push_back(layout.balls[i].id);
  }
  return ids;
}

std::uint32_t balls_of(const engine::Event& event) {
  const std::uint32_t other = event.other >= 0 ? 1U << event.other : 0;
  return 1U << event.ball | other | event.members;
}

ordered_json json_of_event(const engine::Event& event, const coach::Layout& layout) {
  ordered_json json = {{"t", event.t_s},
                       {"kind", name_of(event.kind)},
                       {"balls", ids_of(balls_of(event), layout)},
                       {"at", {mm(event.at.x), mm(event.at.y), mm(event.at.z)}}};
  if (event.kind == engine::EventKind::pot) {
    json["pocket"] = name_of(layout.table.pockets[static_cast<std::size_t>(event.place)].name);
  }
  return json;
}

ordered_json json_of_events(const engine::Shot& shot, const coach::Layout& layout) {
  ordered_json events = ordered_json::array();
  for (const engine::Event& event : shot.events) events.push_back(json_of_event(event, layout));
  return events;
}

Trace trace_of(const Field& field) {
  expect_format(field, trace_format);
  const Keys keys(field, {"format", "layout", "strike", "events", "stuck"});
  Trace trace;
  trace.layout = layout_of(keys.required("layout"));
  trace.strike = strike_of(keys.required("strike"), trace.layout.table.cue);
  constexpr Count any{.least = 0, .most = most_file_bytes, .words = "events"};
  (void)keys.required("events").items(any);
  return trace;
}

}  // namespace

std::string write_trace(const Trace& trace, const engine::Shot& shot) {
  return print_json({{"format", trace_format},
                     {"layout", json_of(trace.layout)},
                     {"strike", whole_json_of(trace.strike)},
                     {"events", json_of_events(shot, trace.layout)},
                     {"stuck", ids_of(shot.stuck, trace.layout)}});
}

std::expected<Trace, InputError> read_trace(std::string_view text, std::string_view file) {
  return read_document<Trace>(text, file, trace_of);
}

std::optional<std::size_t> first_difference(std::string_view text, const engine::Shot& again) {
  const nlohmann::json recorded = parse_json(text, "").value().at("events");
  const nlohmann::json played = json_of_events(again, read_trace(text, "").value().layout);
  const auto [there, here] = std::ranges::mismatch(recorded, played);
  if (there == recorded.end() && here == played.end()) return std::nullopt;
  return static_cast<std::size_t>(there - recorded.begin());
}

}  // namespace ahead::formats
