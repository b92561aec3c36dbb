#include "server/library_replies.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "server/problems.h"

namespace ahead::server {

// The two rooms count the same kinds in the same order.
static_assert(static_cast<int>(store::Kind::table) ==
              static_cast<int>(formats::LibraryKind::table));
static_assert(static_cast<int>(store::Kind::words) ==
              static_cast<int>(formats::LibraryKind::words));

std::expected<store::Entry, Reply> kept(Workbench& workbench, formats::LibraryKind kind,
                                        const std::string& id) {
  static constexpr std::array<std::string_view, 6> names{"table", "player", "layout",
                                                         "plan",  "result", "such words"};
  auto entry = workbench.library->get(static_cast<store::Kind>(kind), id);
  if (!entry) return std::unexpected(store_fault(entry.error()));
  if (!*entry) return std::unexpected(not_found(names[static_cast<std::size_t>(kind)]));
  return **std::move(entry);
}

store::Entry entry_of(formats::Draft draft, std::string id) {
  return {.id = std::move(id),
          .name = std::move(draft.name),
          .document = std::move(draft.document),
          .facts = std::move(draft.facts),
          .layout = std::move(draft.layout),
          .parent = std::move(draft.parent),
          .plan = std::move(draft.plan)};
}

std::string entry_text(formats::LibraryKind kind, const store::Entry& entry) {
  return formats::entry_text(kind, {.id = entry.id,
                                    .revision = entry.revision,
                                    .name = entry.name,
                                    .created = entry.created,
                                    .changed = entry.changed,
                                    .facts = entry.facts,
                                    .document = entry.document,
                                    .layout = entry.layout,
                                    .parent = entry.parent,
                                    .plan = entry.plan});
}

Reply entry_reply(formats::LibraryKind kind, const store::Entry& entry, int status) {
  Reply reply = json_reply(entry_text(kind, entry), status);
  reply.headers.emplace_back("ETag", fmt::format("\"{}\"", entry.revision));
  return reply;
}

}  // namespace ahead::server
