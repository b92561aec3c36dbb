#include <array>
#include <charconv>
#include <optional>

#include <fmt/format.h>

#include "formats/workbench/json_object.h"
#include "formats/workbench/library.h"
#include "server/library_replies.h"
#include "server/problems.h"
#include "server/workbench.h"

// The library: every kind of entry in the same way.
namespace ahead::server {
namespace {

using formats::LibraryKind;

struct Naming {
  std::string_view plural;
  std::string_view one;
};
constexpr std::array namings{Naming{"tables", "table"},   Naming{"players", "player"},
                             Naming{"layouts", "layout"}, Naming{"plans", "plan"},
                             Naming{"results", "result"}, Naming{"words", "such words"}};

Naming naming(LibraryKind kind) { return namings[static_cast<std::size_t>(kind)]; }

store::Kind stored_as(LibraryKind kind) { return static_cast<store::Kind>(kind); }

void tell(Workbench& workbench, LibraryKind kind, const store::Entry& entry, bool deleted) {
  workbench.changes.tell(formats::JsonObject()
                             .add_words("kind", naming(kind).plural)
                             .add_words("id", entry.id)
                             .add_number("revision", entry.revision)
                             .add_truth("deleted", deleted)
                             .text());
}

/// The revision in an If-Match header, `"3"`; nothing when it is no such thing.
std::optional<std::int64_t> revision_in(std::string_view header) {
  if (header.size() < 3 || !header.starts_with('"') || !header.ends_with('"')) return std::nullopt;
  header = header.substr(1, header.size() - 2);
  std::int64_t revision = 0;
  const auto [end, error] = std::from_chars(header.data(), header.data() + header.size(), revision);
  if (error != std::errc() || end != header.data() + header.size() || revision < 1) {
    return std::nullopt;
  }
  return revision;
}

Reply list(Workbench& workbench, LibraryKind kind) {
  const auto entries = workbench.library->list(stored_as(kind));
  if (!entries) return store_fault(entries.error());
  formats::JsonList all;
  for (const store::Entry& entry : *entries) all.add(entry_text(kind, entry));
  return json_reply(formats::JsonObject().add(naming(kind).plural, all.text()).text());
}

Reply get(Workbench& workbench, const Request& request, LibraryKind kind) {
  const auto entry = kept(workbench, kind, request.in_path[0]);
  return entry ? entry_reply(kind, *entry, 200) : entry.error();
}

Reply put(Workbench& workbench, const Request& request, LibraryKind kind) {
  const std::string& id = request.in_path[0];
  if (!formats::is_id(id)) {
    return bad_input(formats::bad_name({.file = "request", .place = "id in the address"}, id));
  }
  const std::string_view match = request.header("if-match");
  const std::string_view none_match = request.header("if-none-match");
  if (match.empty() == none_match.empty()) return condition_missing();
  const auto seen = revision_in(match);
  if (match.empty() ? none_match != "*" : !seen) return bad_condition();
  auto draft = formats::read_draft(kind, request.body);
  if (!draft) return bad_input(draft.error());

  const auto put =
      workbench.library->put(stored_as(kind), entry_of(*std::move(draft), id), seen, moment());
  if (!put) return store_fault(put.error());
  if (const auto* behind = std::get_if<store::Stale>(&*put)) return stale(behind->revision);
  if (std::holds_alternative<store::Missing>(*put)) return not_found(naming(kind).one);
  if (std::holds_alternative<store::Taken>(*put)) return taken(id);
  const auto& stored = std::get<store::Stored>(*put);
  tell(workbench, kind, stored.entry, false);
  return entry_reply(kind, stored.entry, stored.created ? 201 : 200);
}

Reply erase(Workbench& workbench, const Request& request, LibraryKind kind) {
  const std::string_view match = request.header("if-match");
  const auto seen = revision_in(match);
  if (match.empty()) return condition_missing();
  if (!seen) return bad_condition();
  const auto erased = workbench.library->erase(stored_as(kind), request.in_path[0], seen);
  if (!erased) return store_fault(erased.error());
  if (const auto* behind = std::get_if<store::Stale>(&*erased)) return stale(behind->revision);
  if (std::holds_alternative<store::Missing>(*erased)) return not_found(naming(kind).one);
  tell(workbench, kind, std::get<store::Stored>(*erased).entry, true);
  return {.status = 204};
}

template <LibraryKind kind>
Reply list_of(Workbench& workbench, const Request& /*request*/) {
  return list(workbench, kind);
}
template <LibraryKind kind>
Reply get_one(Workbench& workbench, const Request& request) {
  return get(workbench, request, kind);
}
template <LibraryKind kind>
Reply put_one(Workbench& workbench, const Request& request) {
  return put(workbench, request, kind);
}
template <LibraryKind kind>
Reply erase_one(Workbench& workbench, const Request& request) {
  return erase(workbench, request, kind);
}

Reply history(Workbench& workbench, const Request& request) {
  const auto entries = workbench.library->history(request.in_path[0]);
  if (!entries) return store_fault(entries.error());
  if (entries->empty()) return not_found("plan");
  formats::JsonList revisions;
  for (const store::Entry& entry : *entries) {
    revisions.add(formats::JsonObject()
                      .add_number("revision", entry.revision)
                      .add_words("name", entry.name)
                      .add_words("changed", entry.changed)
                      .add_members(entry.facts)
                      .text());
  }
  return json_reply(formats::JsonObject().add("revisions", revisions.text()).text());
}

Reply revision(Workbench& workbench, const Request& request) {
  const auto number = revision_in('"' + request.in_path[1] + '"');
  if (!number) return not_found("revision of that number");
  const auto entry = workbench.library->revision(request.in_path[0], *number);
  if (!entry) return store_fault(entry.error());
  if (!*entry) return not_found("revision of that number");
  return entry_reply(LibraryKind::plan, **entry, 200);
}

}  // namespace

std::span<const Route> library_routes() {
  static constexpr std::array routes{
      Route{"GET", "/api/tables", list_of<LibraryKind::table>},
      Route{"GET", "/api/tables/{id}", get_one<LibraryKind::table>},
      Route{"PUT", "/api/tables/{id}", put_one<LibraryKind::table>},
      Route{"DELETE", "/api/tables/{id}", erase_one<LibraryKind::table>},
      Route{"GET", "/api/players", list_of<LibraryKind::player>},
      Route{"GET", "/api/players/{id}", get_one<LibraryKind::player>},
      Route{"PUT", "/api/players/{id}", put_one<LibraryKind::player>},
      Route{"DELETE", "/api/players/{id}", erase_one<LibraryKind::player>},
      Route{"GET", "/api/layouts", list_of<LibraryKind::layout>},
      Route{"GET", "/api/layouts/{id}", get_one<LibraryKind::layout>},
      Route{"PUT", "/api/layouts/{id}", put_one<LibraryKind::layout>},
      Route{"DELETE", "/api/layouts/{id}", erase_one<LibraryKind::layout>},
      Route{"GET", "/api/plans", list_of<LibraryKind::plan>},
      Route{"GET", "/api/plans/{id}", get_one<LibraryKind::plan>},
      Route{"PUT", "/api/plans/{id}", put_one<LibraryKind::plan>},
      Route{"DELETE", "/api/plans/{id}", erase_one<LibraryKind::plan>},
      Route{"GET", "/api/plans/{id}/history", history},
      Route{"GET", "/api/plans/{id}/history/{revision}", revision},
      Route{"GET", "/api/results", list_of<LibraryKind::result>},
      Route{"GET", "/api/results/{id}", get_one<LibraryKind::result>},
      Route{"PUT", "/api/results/{id}", put_one<LibraryKind::result>},
      Route{"DELETE", "/api/results/{id}", erase_one<LibraryKind::result>},
      Route{"GET", "/api/words", list_of<LibraryKind::words>},
      Route{"GET", "/api/words/{id}", get_one<LibraryKind::words>},
      Route{"PUT", "/api/words/{id}", put_one<LibraryKind::words>},
  };
  return routes;
}

}  // namespace ahead::server
