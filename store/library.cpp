#include "store/library.h"

#include <array>
#include <utility>

#include <sqlite3.h>

#include "store/migrations.h"
#include "store/statement.h"

namespace ahead::store {
namespace {

constexpr std::array<std::string_view, 6> sql_tables{"tables", "players", "layouts",
                                                     "plans",  "results", "words"};

/// `all` with {table} and {links} put in: the columns that only some kinds have.
std::string sql(std::string_view pattern, Kind kind) {
  std::string text(pattern);
  const auto put_in = [&text](std::string_view mark, std::string_view words) {
    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark)) {
      text.replace(at, mark.size(), words);
    }
  };
  put_in("{table}", sql_tables[static_cast<std::size_t>(kind)]);
  switch (kind) {
    case Kind::plan:
      put_in("{links}", ", layout, parent, NULL");
      break;
    case Kind::result:
      put_in("{links}", ", NULL, NULL, plan");
      break;
    default:
      put_in("{links}", ", NULL, NULL, NULL");
  }
  return text;
}

/// Of a row "id, revision, name, document, facts, created, changed, layout, parent, plan".
Entry entry_in(const Statement& row) {
  return {.id = row.text(0),
          .revision = row.number(1),
          .name = row.text(2),
          .document = row.text(3),
          .facts = row.text(4),
          .created = row.text(5),
          .changed = row.text(6),
          .layout = row.text_if_any(7),
          .parent = row.text_if_any(8),
          .plan = row.text_if_any(9)};
}

std::optional<Entry> found(sqlite3* database, Kind kind, std::string_view id) {
  Statement ask(database, sql("SELECT id, revision, name, document, facts, created, changed"
                              "{links} FROM {table} WHERE id = ?",
                              kind));
  ask.with(id);
  if (!ask.step()) return std::nullopt;
  return entry_in(ask);
}

bool same_change(const Entry& kept, const Entry& sent) {
  return kept.name == sent.name && kept.document == sent.document && kept.layout == sent.layout &&
         kept.parent == sent.parent && kept.plan == sent.plan;
}

void write(sqlite3* database, Kind kind, const Entry& entry) {
  Statement base(database,
                 sql("INSERT INTO {table} (id, revision, name, document, facts, created, changed) "
                     "VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET "
                     "revision = excluded.revision, name = excluded.name, "
                     "document = excluded.document, facts = excluded.facts, "
                     "changed = excluded.changed",
                     kind));
  base.with(entry.id).with(entry.revision).with(entry.name).with(entry.document);
  base.with(entry.facts).with(entry.created).with(entry.changed).run();
  if (kind == Kind::plan) {
    Statement(database, "UPDATE plans SET layout = ?, parent = ? WHERE id = ?")
        .with_any(entry.layout)
        .with_any(entry.parent)
        .with(entry.id)
        .run();
    Statement(database, "INSERT INTO plan_history VALUES (?, ?, ?, ?, ?, ?)")
        .with(entry.id)
        .with(entry.revision)
        .with(entry.name)
        .with(entry.document)
        .with(entry.facts)
        .with(entry.changed)
        .run();
  }
  if (kind == Kind::result) {
    Statement(database, "UPDATE results SET plan = ? WHERE id = ?")
        .with_any(entry.plan)
        .with(entry.id)
        .run();
  }
}

Fault fault_of(const Refused& refused) {
  switch (refused.code) {
    case SQLITE_FULL:
    case SQLITE_IOERR:  // a write that the disk refused
      return {FaultKind::full, refused.words};
    case SQLITE_NOTADB:
    case SQLITE_CORRUPT:
      return {FaultKind::damaged, refused.words};
    case SQLITE_CONSTRAINT:
      return {FaultKind::reference, refused.words};
    default:
      return {FaultKind::other, refused.words};
  }
}

}  // namespace

struct Library::Connection {
  Database database;
  bool was_made = false;
};

Library::Library(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}

Library::~Library() = default;

bool Library::was_made() const { return connection_->was_made; }

template <class Work>
auto Library::guarded(const Work& work) -> Outcome<decltype(work())> {
  const std::scoped_lock lock(mutex_);
  try {
    return work();
  } catch (const Refused& refused) {
    return std::unexpected(fault_of(refused));
  }
}

Outcome<std::unique_ptr<Library>> Library::open(const std::filesystem::path& file) {
  try {
    Database database = open_database(file);
    const int version = version_of(database.get());
    if (version > newest_version()) {
      return std::unexpected(
          Fault{FaultKind::newer, "the library was written by a newer version of this program"});
    }
    migrate(database.get(), newest_version());
    return std::unique_ptr<Library>(
        new Library(std::make_unique<Connection>(Connection{std::move(database), version == 0})));
  } catch (const Refused& refused) {
    return std::unexpected(fault_of(refused));
  }
}

Outcome<std::vector<Entry>> Library::list(Kind kind) {
  return guarded([&] {
    std::vector<Entry> entries;
    Statement ask(connection_->database.get(),
                  sql("SELECT id, revision, name, '', facts, created, changed{links} FROM {table} "
                      "ORDER BY changed DESC, rowid DESC",
                      kind));
    while (ask.step()) entries.push_back(entry_in(ask));
    return entries;
  });
}

Outcome<std::optional<Entry>> Library::get(Kind kind, std::string_view id) {
  return guarded([&] { return found(connection_->database.get(), kind, id); });
}

Outcome<std::variant<Stored, Stale, Missing, Taken>> Library::put(Kind kind, Entry entry, Seen seen,
                                                                  std::string_view now) {
  using Put = std::variant<Stored, Stale, Missing, Taken>;
  return guarded([&]() -> Put {
    sqlite3* database = connection_->database.get();
    Transaction change(database);
    const auto kept = found(database, kind, entry.id);
    if (kept && kept->revision == seen.value_or(0) + 1 && same_change(*kept, entry)) {
      return Stored{*kept, !seen};
    }
    if (kept && !seen) return Taken{};
    if (!kept && seen) return Missing{};
    if (kept && kept->revision != *seen) return Stale{kept->revision};
    entry.revision = kept ? kept->revision + 1 : 1;
    entry.created = kept ? kept->created : std::string(now);
    entry.changed = now;
    write(database, kind, entry);
    change.commit();
    return Stored{std::move(entry), !seen};
  });
}

Outcome<std::variant<Stored, Stale, Missing>> Library::erase(Kind kind, std::string_view id,
                                                             Seen seen) {
  using Erased = std::variant<Stored, Stale, Missing>;
  return guarded([&]() -> Erased {
    sqlite3* database = connection_->database.get();
    Transaction change(database);
    auto kept = found(database, kind, id);
    if (!kept) return Missing{};
    if (seen && kept->revision != *seen) return Stale{kept->revision};
    Statement(database, sql("DELETE FROM {table} WHERE id = ?", kind)).with(id).run();
    change.commit();
    return Stored{*std::move(kept)};
  });
}

Outcome<std::vector<Entry>> Library::history(std::string_view plan) {
  return guarded([&] {
    std::vector<Entry> entries;
    Statement ask(connection_->database.get(),
                  "SELECT plan, revision, name, '', facts, changed, changed, NULL, NULL, NULL "
                  "FROM plan_history WHERE plan = ? ORDER BY revision DESC");
    ask.with(plan);
    while (ask.step()) entries.push_back(entry_in(ask));
    return entries;
  });
}

Outcome<std::optional<Entry>> Library::revision(std::string_view plan, std::int64_t revision) {
  return guarded([&]() -> std::optional<Entry> {
    Statement ask(connection_->database.get(),
                  "SELECT h.plan, h.revision, h.name, h.document, h.facts, p.created, h.changed, "
                  "p.layout, p.parent, NULL FROM plan_history h JOIN plans p ON p.id = h.plan "
                  "WHERE h.plan = ? AND h.revision = ?");
    ask.with(plan).with(revision);
    if (!ask.step()) return std::nullopt;
    return entry_in(ask);
  });
}

Outcome<std::string> Library::checked() {
  return guarded([&] {
    Statement ask(connection_->database.get(), "PRAGMA integrity_check");
    ask.step();
    std::string words = ask.text(0);
    Statement references(connection_->database.get(), "PRAGMA foreign_key_check");
    if (references.step()) words = "a reference in " + references.text(0) + " leads nowhere";
    return words;
  });
}

Outcome<bool> Library::limit_bytes(std::int64_t most) {
  return guarded([&] {
    sqlite3* database = connection_->database.get();
    Statement size(database, "PRAGMA page_size");
    size.step();
    execute(database, ("PRAGMA max_page_count = " + std::to_string(most / size.number(0))).c_str());
    return true;
  });
}

}  // namespace ahead::store
