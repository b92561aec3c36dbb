#pragma once

#include <expected>
#include <string>

#include "formats/workbench/library.h"
#include "server/request.h"
#include "server/workbench.h"
#include "store/library.h"

/// Between what the library keeps and what is answered.
namespace ahead::server {

/// The entry, or the refusal.
[[nodiscard]] std::expected<store::Entry, Reply> kept(Workbench& workbench,
                                                      formats::LibraryKind kind,
                                                      const std::string& id);

[[nodiscard]] store::Entry entry_of(formats::Draft draft, std::string id);

[[nodiscard]] std::string entry_text(formats::LibraryKind kind, const store::Entry& entry);

/// With its revision as the ETag.
[[nodiscard]] Reply entry_reply(formats::LibraryKind kind, const store::Entry& entry, int status);

}  // namespace ahead::server
