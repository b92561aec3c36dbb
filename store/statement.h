#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

/// SQL with its values bound one after another. Private to this room.
namespace ahead::store {

struct CloseDatabase {
  void operator()(sqlite3* database) const;
};
using Database = std::unique_ptr<sqlite3, CloseDatabase>;

/// Thrown inside this room when SQLite refuses; library.cpp turns it into a Fault.
struct Refused {
  int code = 0;  ///< SQLite's primary result code
  std::string words;
};

/// Opens or makes the file, with the settings that every use of it needs.
[[nodiscard]] Database open_database(const std::filesystem::path& file);

class Statement {
 public:
  Statement(sqlite3* database, std::string_view sql);

  /// Binds the next parameter.
  Statement& with(std::string_view text);
  Statement& with(std::int64_t number);
  Statement& with_any(const std::optional<std::string>& text);

  /// Whether there is a row to read.
  bool step();
  /// Runs to the end; for statements without rows.
  void run();

  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::optional<std::string> text_if_any(int column) const;
  [[nodiscard]] std::int64_t number(int column) const;

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const;
  };
  void check(int code) const;

  sqlite3* database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
  int bound_ = 0;
};

/// Statements without values, separated by semicolons.
void execute(sqlite3* database, const char* sql);

/// All or nothing: rolled back unless commit() was reached.
class Transaction {
 public:
  explicit Transaction(sqlite3* database);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  sqlite3* database_;
  bool open_ = true;
};

}  // namespace ahead::store
