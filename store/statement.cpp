#include "store/statement.h"

#include <sqlite3.h>

namespace ahead::store {
namespace {

[[noreturn]] void refuse(sqlite3* database, int code) {
  throw Refused{.code = code & 0xff, .words = sqlite3_errmsg(database)};
}

}  // namespace

void CloseDatabase::operator()(sqlite3* database) const { sqlite3_close(database); }

void Statement::Finalize::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

Database open_database(const std::filesystem::path& file) {
  constexpr int patience_ms = 5000;
  sqlite3* raw = nullptr;
  const int code =
      sqlite3_open_v2(file.c_str(), &raw, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
  Database database(raw);
  if (code != SQLITE_OK) refuse(raw, code);
  sqlite3_busy_timeout(raw, patience_ms);
  execute(raw, "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON");
  return database;
}

Statement::Statement(sqlite3* database, std::string_view sql) : database_(database) {
  sqlite3_stmt* statement = nullptr;
  check(
      sqlite3_prepare_v2(database, sql.data(), static_cast<int>(sql.size()), &statement, nullptr));
  statement_.reset(statement);
}

void Statement::check(int code) const {
  if (code != SQLITE_OK) refuse(database_, code);
}

Statement& Statement::with(std::string_view text) {
  check(sqlite3_bind_text64(statement_.get(), ++bound_, text.data(), text.size(), SQLITE_TRANSIENT,
                            SQLITE_UTF8));
  return *this;
}

Statement& Statement::with(std::int64_t number) {
  check(sqlite3_bind_int64(statement_.get(), ++bound_, number));
  return *this;
}

Statement& Statement::with_any(const std::optional<std::string>& text) {
  if (text) return with(std::string_view(*text));
  check(sqlite3_bind_null(statement_.get(), ++bound_));
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) refuse(database_, code);
  return false;
}

void Statement::run() {
  while (step()) {
  }
}

std::string Statement::text(int column) const { return text_if_any(column).value_or(""); }

std::optional<std::string> Statement::text_if_any(int column) const {
  const unsigned char* text = sqlite3_column_text(statement_.get(), column);
  if (text == nullptr) return std::nullopt;
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  // SQLite's text is unsigned char.
  return std::string(reinterpret_cast<const char*>(text), size);
}

std::int64_t Statement::number(int column) const {
  return sqlite3_column_int64(statement_.get(), column);
}

void execute(sqlite3* database, const char* sql) {
  const int code = sqlite3_exec(database, sql, nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) refuse(database, code);
}

// IMMEDIATE: whoever will write says so at once, and never finds out halfway that another does.
Transaction::Transaction(sqlite3* database) : database_(database) {
  execute(database_, "BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
  // SQLite may have rolled back by itself, on a full disk for instance; then there is nothing to
  // do.
  if (open_ && sqlite3_get_autocommit(database_) == 0) {
    sqlite3_exec(database_, "ROLLBACK", nullptr, nullptr, nullptr);
  }
}

void Transaction::commit() {
  execute(database_, "COMMIT");
  open_ = false;
}

}  // namespace ahead::store
