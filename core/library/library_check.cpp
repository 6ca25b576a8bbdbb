// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_check.h"

#include "core/files/file_io.h"
#include "core/library/attachments.h"
#include "core/library/open_library.h"
#include "core/library/sha256.h"

#include <functional>

namespace fs = std::filesystem;

namespace bw {
namespace {

constexpr std::size_t mostFindings = 100;

class Checker {
 public:
  Checker(Database& database, LibraryCheck& check) : m_database(database), m_check(check) {}

  void run() {
    // Each by itself: a damaged page must not hide what else there is to say.
    for (const auto look :
         {&Checker::counts, &Checker::pages, &Checker::references, &Checker::versions, &Checker::contents, &Checker::files}) {
      try {
        (this->*look)();
      } catch (const LibraryError& error) {
        find(error.what());
      }
    }
  }

 private:
  void find(const std::string& what) {
    if (m_check.findings.size() < mostFindings) m_check.findings.push_back(what);
  }

  void counts() {
    const auto count = [&](const char* table) {
      return static_cast<std::size_t>(m_database.number(std::string("SELECT count(*) FROM ") + table));
    };
    m_check.recipes = count("recipe");
    m_check.versions = count("recipe_version");
    m_check.attachments = count("attachment");
  }

  void pages() {
    Statement look = m_database.prepare("PRAGMA integrity_check(20)");
    while (look.step()) {
      if (look.text(0) != "ok") find("The file is damaged: " + look.text(0) + ".");
    }
  }

  void references() {
    Statement look = m_database.prepare("PRAGMA foreign_key_check");
    while (look.step()) find("A row of " + look.text(0) + " refers to one of " + look.text(2) + " that is not there.");
  }

  void versions() {
    Statement missing = m_database.prepare(
        "SELECT uid, newest FROM recipe LEFT JOIN recipe_version ON recipe_version.recipe_id = recipe.recipe_id "
        "AND number = newest LEFT JOIN recipe_facts ON recipe_facts.recipe_id = recipe.recipe_id "
        "WHERE number IS NULL OR changed IS NULL");
    while (missing.step()) find("Recipe " + missing.text(0) + " has lost its version " + missing.text(1) + ".");
    Statement broken =
        m_database.prepare("SELECT uid, number FROM recipe_version JOIN recipe USING (recipe_id) WHERE NOT json_valid(body)");
    while (broken.step()) find("Recipe " + broken.text(0) + " version " + broken.text(1) + " cannot be read any more.");
  }

  void contents() {
    Statement all = m_database.prepare("SELECT content_id, hash, body FROM content");
    while (all.step()) {
      if (sha256(all.bytes(2)) != all.text(1))
        find("The profile number " + all.text(0) + " of a machine or material is not what was saved.");
    }
  }

  void files() {
    Statement all = m_database.prepare("SELECT hash, name FROM attachment");
    while (all.step()) {
      const std::string hash = all.text(0), name = "The attachment \"" + all.text(1) + "\" ";
      const fs::path file = isSha256(hash) ? attachmentFile(m_database.path(), hash) : fs::path();
      std::error_code ignored;
      if (file.empty() || !fs::is_regular_file(file, ignored))
        find(name + "is missing: " + shownPath(file) + ".");
      else if (sha256OfFile(file) != hash)
        find(name + "is not what was attached: " + shownPath(file) + ".");
    }
  }

  Database& m_database;
  LibraryCheck& m_check;
};

}  // namespace

LibraryCheck checkLibrary(const fs::path& library) {
  const auto database = openLibraryToRead(library, std::chrono::milliseconds(5000));
  LibraryCheck check;
  Checker(*database, check).run();
  return check;
}

}  // namespace bw
