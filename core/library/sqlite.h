// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_error.h"

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace bw {

class Database;

/// A prepared statement, bound left to right and read column by column. Goes back to its database when it ends.
class Statement {
 public:
  Statement(Database& database, std::string sql);
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  ~Statement();

  /// Binds the next parameter.
  Statement& with(std::int64_t value);
  Statement& with(int value) { return with(static_cast<std::int64_t>(value)); }
  Statement& with(double value);
  Statement& with(std::string_view text);
  Statement& withBlob(std::string_view bytes);
  Statement& withNothing();

  /// Begins anew, nothing bound.
  Statement& again();

  /// The next row, if there is one.
  bool step();
  /// For statements that give no rows.
  void run();

  std::int64_t number(int column) const;
  int integer(int column) const { return static_cast<int>(number(column)); }
  double real(int column) const;
  std::string text(int column) const;
  /// Valid until the next step.
  std::string_view bytes(int column) const;
  bool nothing(int column) const;

 private:
  void check(int code) const;

  Database& m_database;
  std::string m_sql;
  sqlite3_stmt* m_statement = nullptr;
  int m_bound = 0;
};

/// How a file is opened. Unchanging: nobody else writes to it, so that no lock and no shared memory is needed.
enum class DatabaseAccess { Create, ReadWrite, ReadOnly, Unchanging };

/// An open SQLite file. Every failure is a LibraryError that names the path.
class Database {
 public:
  Database(const std::filesystem::path& path, DatabaseAccess access, std::chrono::milliseconds patience);
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;
  ~Database();

  Statement prepare(std::string sql) { return Statement(*this, std::move(sql)); }
  /// One or several statements without parameters.
  void run(const std::string& sql);
  std::int64_t number(const std::string& sql);
  std::string text(const std::string& sql);
  std::int64_t lastRow() const;
  bool inTransaction() const;
  bool readOnly() const;
  /// The file's first bytes as they lie on the disk, without a lock and before anything else is read. Never open the file by other means
  /// for that: when any descriptor of it is closed, the system drops this process's locks on it, those of other connections too.
  std::string firstBytes(std::size_t count) const;
  /// Whether this program has the file open.
  static bool isOpenHere(const std::filesystem::path& path);
  /// Leaves the file as it is when this connection closes, whatever lies in its write-ahead log.
  void leaveLogWhenClosed(bool leave);
  const std::filesystem::path& path() const { return m_path; }
  sqlite3* handle() const { return m_handle; }

  [[noreturn]] void fail(int code) const;

 private:
  friend class Statement;
  sqlite3_stmt* take(const std::string& sql);
  void giveBack(std::string sql, sqlite3_stmt* statement);

  std::filesystem::path m_path;
  std::filesystem::path m_realPath;  // without links
  std::chrono::milliseconds m_patience;
  sqlite3* m_handle = nullptr;
  std::map<std::string, sqlite3_stmt*> m_idle;  // prepared once, used again
};

/// A write that is whole or not at all: undone when it ends without commit. Inside another one it is a part of that.
class Transaction {
 public:
  explicit Transaction(Database& database);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  /// When this returns and the transaction is not a part of another, all of it is on the disk.
  void commit();

 private:
  Database& m_database;
  bool m_outermost;
  bool m_done = false;
};

/// A state of the file that does not move while several queries are asked.
class ReadView {
 public:
  explicit ReadView(Database& database);
  ReadView(const ReadView&) = delete;
  ReadView& operator=(const ReadView&) = delete;
  ~ReadView();

 private:
  Database& m_database;
  bool m_outermost;
};

/// A failure in a library's words.
LibraryError libraryError(const std::filesystem::path& path, int sqliteCode, int systemCode, const std::string& detail,
                          std::chrono::milliseconds patience);

}  // namespace bw
