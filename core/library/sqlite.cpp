// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/sqlite.h"

#include "core/files/file_io.h"

#include <algorithm>
#include <cerrno>
#include <mutex>
#include <set>
#include <sqlite3.h>
#include <system_error>

namespace bw {
namespace {

int flagsOf(DatabaseAccess access) {
  const int common = SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE | SQLITE_OPEN_PRIVATECACHE | SQLITE_OPEN_URI;
  if (access == DatabaseAccess::Create) return common | SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
  return common | (access == DatabaseAccess::ReadWrite ? SQLITE_OPEN_READWRITE : SQLITE_OPEN_READONLY);
}

/// The path as a URI, so that no character of it means anything.
std::string uriOf(const std::filesystem::path& path, DatabaseAccess access) {
  static constexpr char digits[] = "0123456789ABCDEF";
  std::string uri = "file:";
  for (const char c : std::filesystem::absolute(path).string()) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) || c == '/' || c == '.' || c == '-' || c == '_') {
      uri += c;
    } else {
      uri += '%';
      uri += digits[byte / 16];
      uri += digits[byte % 16];
    }
  }
  return access == DatabaseAccess::Unchanging ? uri + "?immutable=1" : uri;
}

/// Files that this program has open, each as often as it is.
struct OpenFiles {
  std::mutex mutex;
  std::multiset<std::filesystem::path> paths;
};

OpenFiles& openFiles() {
  static OpenFiles files;
  return files;
}

std::filesystem::path realPath(const std::filesystem::path& path) {
  std::error_code error;
  const std::filesystem::path real = std::filesystem::weakly_canonical(path, error);
  return error ? std::filesystem::absolute(path) : real;
}

std::string seconds(std::chrono::milliseconds time) { return std::to_string((time.count() + 999) / 1000) + " s"; }

}  // namespace

LibraryError libraryError(const std::filesystem::path& path, int sqliteCode, int systemCode, const std::string& detail,
                          std::chrono::milliseconds patience) {
  const std::string at = shownPath(path) + ": ";
  const bool noRoom = systemCode == ENOSPC || systemCode == EDQUOT || systemCode == EFBIG;
  const int primary = sqliteCode & 0xff;
  if (primary == SQLITE_FULL || (primary == SQLITE_IOERR && noRoom)) {
    return {LibraryTrouble::Full, at + "no room is left for it and nothing was saved; make room on the disk and save again"};
  }
  switch (primary) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {LibraryTrouble::Busy, at + "another program has been writing to it for " + seconds(patience) +
                                        " and nothing was saved; try again when it has finished"};
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return {LibraryTrouble::ReadOnly, at + "may be read but not written, so nothing was saved; a file in a folder that can be written is "
                                             "accepted, or take a copy of it there"};
    case SQLITE_CORRUPT:
    case SQLITE_ERROR:
      return {LibraryTrouble::Corrupt, at + "is damaged (" + detail + "); restore a backup: the damaged file is kept aside"};
    case SQLITE_NOTADB:
      return {LibraryTrouble::NotOurs,
              at + "is no library of recipes (" + detail + "); the path of a library is accepted, or restore a backup"};
    case SQLITE_TOOBIG:
      return {LibraryTrouble::Refused, at + "what shall be saved is too large; up to 1 GB is accepted"};
    default:
      break;
  }
  const std::string reason = systemCode != 0 ? std::generic_category().message(systemCode) : detail;
  return {LibraryTrouble::Io, at + "cannot be read or written (" + reason + "); check the disk or the network and try again"};
}

Statement::Statement(Database& database, std::string sql)
    : m_database(database), m_sql(std::move(sql)), m_statement(database.take(m_sql)) {}

Statement::~Statement() { m_database.giveBack(std::move(m_sql), m_statement); }

void Statement::check(int code) const {
  if (code != SQLITE_OK) m_database.fail(code);
}

Statement& Statement::with(std::int64_t value) {
  check(sqlite3_bind_int64(m_statement, ++m_bound, value));
  return *this;
}

Statement& Statement::with(double value) {
  check(sqlite3_bind_double(m_statement, ++m_bound, value));
  return *this;
}

Statement& Statement::with(std::string_view text) {
  check(sqlite3_bind_text64(m_statement, ++m_bound, text.data() ? text.data() : "", text.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
  return *this;
}

Statement& Statement::withBlob(std::string_view bytes) {
  check(sqlite3_bind_blob64(m_statement, ++m_bound, bytes.data() ? bytes.data() : "", bytes.size(), SQLITE_TRANSIENT));
  return *this;
}

Statement& Statement::withNothing() {
  check(sqlite3_bind_null(m_statement, ++m_bound));
  return *this;
}

Statement& Statement::again() {
  sqlite3_reset(m_statement);
  sqlite3_clear_bindings(m_statement);
  m_bound = 0;
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(m_statement);
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) m_database.fail(code);
  return false;
}

void Statement::run() {
  while (step()) {
  }
}

std::int64_t Statement::number(int column) const { return sqlite3_column_int64(m_statement, column); }
double Statement::real(int column) const { return sqlite3_column_double(m_statement, column); }
std::string Statement::text(int column) const {
  const auto* bytes = sqlite3_column_text(m_statement, column);
  if (!bytes) return {};
  return {reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(sqlite3_column_bytes(m_statement, column))};
}
std::string_view Statement::bytes(int column) const {
  const void* bytes = sqlite3_column_blob(m_statement, column);
  if (!bytes) return {};
  return {static_cast<const char*>(bytes), static_cast<std::size_t>(sqlite3_column_bytes(m_statement, column))};
}
bool Statement::nothing(int column) const { return sqlite3_column_type(m_statement, column) == SQLITE_NULL; }

Database::Database(const std::filesystem::path& path, DatabaseAccess access, std::chrono::milliseconds patience)
    : m_path(path), m_realPath(realPath(path)), m_patience(patience) {
  const int code = sqlite3_open_v2(uriOf(path, access).c_str(), &m_handle, flagsOf(access), nullptr);
  if (code != SQLITE_OK) {
    const LibraryError error = libraryError(path, code, m_handle ? sqlite3_system_errno(m_handle) : ENOMEM,
                                            m_handle ? sqlite3_errmsg(m_handle) : "no memory", patience);
    sqlite3_close_v2(m_handle);
    throw error;
  }
  sqlite3_busy_timeout(m_handle, static_cast<int>(patience.count()));
  // A library may come from anywhere: nothing in its schema may run what only the program should.
  sqlite3_db_config(m_handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(m_handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  sqlite3_db_config(m_handle, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0, nullptr);
  const std::lock_guard guard(openFiles().mutex);
  openFiles().paths.insert(m_realPath);
}

bool Database::isOpenHere(const std::filesystem::path& path) {
  const std::lock_guard guard(openFiles().mutex);
  return openFiles().paths.contains(realPath(path));
}

std::string Database::firstBytes(std::size_t count) const {
  sqlite3_file* file = nullptr;
  int code = sqlite3_file_control(m_handle, "main", SQLITE_FCNTL_FILE_POINTER, static_cast<void*>(&file));
  sqlite3_int64 size = 0;
  if (code == SQLITE_OK) code = file->pMethods->xFileSize(file, &size);
  std::string bytes(std::min(count, static_cast<std::size_t>(std::max<sqlite3_int64>(size, 0))), '\0');
  if (code == SQLITE_OK && !bytes.empty()) code = file->pMethods->xRead(file, bytes.data(), static_cast<int>(bytes.size()), 0);
  if (code != SQLITE_OK) fail(code);
  return bytes;
}

Database::~Database() {
  {
    const std::lock_guard guard(openFiles().mutex);
    const auto found = openFiles().paths.find(m_realPath);
    if (found != openFiles().paths.end()) openFiles().paths.erase(found);
  }
  for (const auto& idle : m_idle) sqlite3_finalize(idle.second);
  sqlite3_close_v2(m_handle);
}

void Database::fail(int code) const {
  throw libraryError(m_path, code, sqlite3_system_errno(m_handle), sqlite3_errmsg(m_handle), m_patience);
}

sqlite3_stmt* Database::take(const std::string& sql) {
  if (const auto node = m_idle.extract(sql)) return node.mapped();
  sqlite3_stmt* statement = nullptr;
  const int code = sqlite3_prepare_v3(m_handle, sql.c_str(), -1, SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
  if (code != SQLITE_OK) fail(code);
  return statement;
}

void Database::giveBack(std::string sql, sqlite3_stmt* statement) {
  sqlite3_reset(statement);
  sqlite3_clear_bindings(statement);
  if (!m_idle.try_emplace(std::move(sql), statement).second) sqlite3_finalize(statement);
}

void Database::run(const std::string& sql) {
  const int code = sqlite3_exec(m_handle, sql.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) fail(code);
}

std::int64_t Database::number(const std::string& sql) {
  Statement statement = prepare(sql);
  return statement.step() ? statement.number(0) : 0;
}

std::string Database::text(const std::string& sql) {
  Statement statement = prepare(sql);
  return statement.step() ? statement.text(0) : std::string();
}

std::int64_t Database::lastRow() const { return sqlite3_last_insert_rowid(m_handle); }
bool Database::inTransaction() const { return sqlite3_get_autocommit(m_handle) == 0; }
bool Database::readOnly() const { return sqlite3_db_readonly(m_handle, "main") == 1; }
void Database::leaveLogWhenClosed(bool leave) { sqlite3_db_config(m_handle, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, leave ? 1 : 0, nullptr); }

Transaction::Transaction(Database& database) : m_database(database), m_outermost(!database.inTransaction()) {
  m_database.run(m_outermost ? "BEGIN IMMEDIATE" : "SAVEPOINT part");
}

Transaction::~Transaction() {
  if (m_done || !m_database.inTransaction()) return;  // some failures undo by themselves
  const char* undo = m_outermost ? "ROLLBACK" : "ROLLBACK TO part; RELEASE part";
  sqlite3_exec(m_database.handle(), undo, nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  m_database.run(m_outermost ? "COMMIT" : "RELEASE part");
  m_done = true;
}

ReadView::ReadView(Database& database) : m_database(database), m_outermost(!database.inTransaction()) {
  if (m_outermost) m_database.run("BEGIN");
}

ReadView::~ReadView() {
  if (m_outermost) sqlite3_exec(m_database.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

}  // namespace bw
