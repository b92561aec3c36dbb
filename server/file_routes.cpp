#include <array>
#include <charconv>

#include <fmt/format.h>

#include "formats/plan.h"
#include "formats/workbench/json_object.h"
#include "formats/workbench/library.h"
#include "lesson/house_look.h"
#include "lesson/page.h"
#include "lesson/shot_figure.h"
#include "server/library_replies.h"
#include "server/problems.h"
#include "server/workbench.h"

// Files in and out.
namespace ahead::server {
namespace {

using formats::LibraryKind;

Reply attached(std::string text, std::string type, const std::string& name) {
  Reply reply = json_reply(std::move(text));
  reply.type = std::move(type);
  reply.headers.emplace_back("Content-Disposition",
                             fmt::format("attachment; filename=\"{}\"", name));
  return reply;
}

template <LibraryKind kind>
Reply file(Workbench& workbench, const Request& request) {
  const auto entry = kept(workbench, kind, request.in_path[0]);
  if (!entry) return entry.error();
  return attached(formats::file_text(entry->document), "application/json; charset=utf-8",
                  entry->id + ".json");
}

std::expected<coach::Plan, Reply> kept_plan(Workbench& workbench, const std::string& id) {
  const auto entry = kept(workbench, LibraryKind::plan, id);
  if (!entry) return std::unexpected(entry.error());
  auto plan = formats::read_plan(entry->document, id);
  if (!plan) return std::unexpected(bad_input(plan.error()));
  return *std::move(plan);
}

Reply page(Workbench& workbench, const Request& request) {
  const auto plan = kept_plan(workbench, request.in_path[0]);
  if (!plan) return plan.error();
  Reply reply = attached(lesson::plan_page(*plan, lesson::house_look()), "text/html; charset=utf-8",
                         request.in_path[0] + ".html");
  // It carries its style and script in itself; shown here, it may run neither against our address.
  reply.headers.emplace_back("Content-Security-Policy",
                             "sandbox; default-src 'none'; style-src 'unsafe-inline'");
  return reply;
}

Reply drawing(Workbench& workbench, const Request& request) {
  const auto plan = kept_plan(workbench, request.in_path[0]);
  if (!plan) return plan.error();
  const std::string& number = request.in_path[1];
  std::size_t shot = 0;
  const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), shot);
  if (error != std::errc() || end != number.data() + number.size() || shot < 1 ||
      shot > plan->shots.size()) {
    return not_found("shot of that number");
  }
  Reply reply = json_reply(lesson::shot_figure(*plan, shot - 1, lesson::house_look()));
  reply.type = "image/svg+xml";
  reply.headers.emplace_back("Content-Security-Policy",
                             "sandbox; default-src 'none'; style-src 'unsafe-inline'");
  return reply;
}

Reply import(Workbench& workbench, const Request& request) {
  const auto name = request.query.find("name");
  auto draft = formats::read_import(
      request.body, name == request.query.end() ? std::string_view{} : name->second);
  if (!draft) return bad_input(draft.error());
  const LibraryKind kind = draft->kind;
  constexpr int digits = 32;
  const auto put = workbench.library->put(static_cast<store::Kind>(kind),
                                          entry_of(*std::move(draft), random_digits(digits)),
                                          std::nullopt, moment());
  if (!put) return store_fault(put.error());
  const store::Entry& entry = std::get<store::Stored>(*put).entry;
  constexpr std::array<std::string_view, 4> plurals{"tables", "players", "layouts", "plans"};
  const std::string_view plural = plurals[static_cast<std::size_t>(kind)];
  workbench.changes.tell(formats::JsonObject()
                             .add_words("kind", plural)
                             .add_words("id", entry.id)
                             .add_number("revision", entry.revision)
                             .add_truth("deleted", false)
                             .text());
  return json_reply(formats::JsonObject()
                        .add_words("kind", plural)
                        .add_words("id", entry.id)
                        .add_number("revision", entry.revision)
                        .add_words("name", entry.name)
                        .text(),
                    201);
}

}  // namespace

std::span<const Route> file_routes() {
  static constexpr std::array routes{
      Route{"GET", "/api/tables/{id}/file", file<LibraryKind::table>},
      Route{"GET", "/api/players/{id}/file", file<LibraryKind::player>},
      Route{"GET", "/api/layouts/{id}/file", file<LibraryKind::layout>},
      Route{"GET", "/api/plans/{id}/file", file<LibraryKind::plan>},
      Route{"GET", "/api/plans/{id}/page", page},
      Route{"GET", "/api/plans/{id}/shots/{shot}/drawing", drawing},
      Route{"POST", "/api/import", import}};
  return routes;
}

}  // namespace ahead::server
