#pragma once

#include <cstdint>
#include <expected>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// The library of tables, players, layouts, plans, results and lessons' words: one SQLite file.
///
/// Every change is on the disk before put() or erase() returns (write-ahead log, synchronous FULL),
/// so that killing the program, or the machine, loses nothing that was acknowledged. An entry
/// carries a revision; whoever changes it says which one he has seen, and the later of two is told.
/// Documents are kept as they are given: what they mean is no business of this room.
namespace ahead::store {

enum class Kind { table, player, layout, plan, result, words };

struct Entry {
  std::string id;
  std::int64_t revision = 1;
  std::string name;
  std::string document;  ///< JSON text
  std::string facts;     ///< what lists show of it, JSON text
  std::string created;   ///< UTC, 2026-01-31T19:05:00Z
  std::string changed;
  std::optional<std::string> layout;  ///< of a plan: the layout that it was made for
  std::optional<std::string> parent;  ///< of a plan: the one that it goes on from
  std::optional<std::string> plan;    ///< of a result

  friend bool operator==(const Entry&, const Entry&) = default;
};

/// Why the library could not do it.
enum class FaultKind {
  full,       ///< no room on the disk
  newer,      ///< the file was written by a newer version of the program
  damaged,    ///< not a library, or damaged
  reference,  ///< it names a layout or plan that is not there
  other
};
struct Fault {
  FaultKind kind{};
  std::string words;
};
template <class Value>
using Outcome = std::expected<Value, Fault>;

// What came of a change.
struct Stored {
  Entry entry;
  bool created = false;
};
struct Stale {  ///< another revision is kept by now; nothing was changed
  std::int64_t revision = 0;
};
struct Missing {};
struct Taken {};  ///< the id of a new entry is in use; nothing was changed

/// The revision that a change was made to; nothing creates the entry.
using Seen = std::optional<std::int64_t>;

class Library {
 public:
  /// Opens the file, or makes it, and brings an older one up to date.
  [[nodiscard]] static Outcome<std::unique_ptr<Library>> open(const std::filesystem::path& file);
  ~Library();
  Library(const Library&) = delete;
  Library& operator=(const Library&) = delete;

  /// Last changed first; documents are left out.
  [[nodiscard]] Outcome<std::vector<Entry>> list(Kind kind);
  [[nodiscard]] Outcome<std::optional<Entry>> get(Kind kind, std::string_view id);

  /// Creates or changes. `entry`'s revision and times are set here. The same change sent again, as
  /// after a lost answer, gives the same answer and changes nothing.
  [[nodiscard]] Outcome<std::variant<Stored, Stale, Missing, Taken>> put(Kind kind, Entry entry,
                                                                         Seen seen,
                                                                         std::string_view now);
  /// With `seen`, only that revision.
  [[nodiscard]] Outcome<std::variant<Stored, Stale, Missing>> erase(Kind kind, std::string_view id,
                                                                    Seen seen);

  /// Every revision of a plan, newest first; documents are left out.
  [[nodiscard]] Outcome<std::vector<Entry>> history(std::string_view plan);
  [[nodiscard]] Outcome<std::optional<Entry>> revision(std::string_view plan,
                                                       std::int64_t revision);

  /// Whether open() made the file.
  [[nodiscard]] bool was_made() const;

  /// "ok", or what SQLite's integrity check found.
  [[nodiscard]] Outcome<std::string> checked();

  /// Lets the file grow to so many bytes: tests fill the disk with it.
  [[nodiscard]] Outcome<bool> limit_bytes(std::int64_t most);

 private:
  struct Connection;
  explicit Library(std::unique_ptr<Connection> connection);

  template <class Work>
  auto guarded(const Work& work) -> Outcome<decltype(work())>;

  std::unique_ptr<Connection> connection_;
  std::mutex mutex_;  ///< one at a time: a change takes a few milliseconds
};

}  // namespace ahead::store
