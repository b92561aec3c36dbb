#pragma once

struct sqlite3;

/// The shape of the library's file, and how an older file grows into it. Private to this room.
namespace ahead::store {

/// The version that this program writes; SQLite's user_version holds that of a file.
[[nodiscard]] int newest_version();

/// Brings the file to `version`, one step after another, each all or nothing. Rows stay.
/// Requires a file of that version or an older one.
void migrate(sqlite3* database, int version);

[[nodiscard]] int version_of(sqlite3* database);

}  // namespace ahead::store
