// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/schema.h"

#include <array>

// A step that was released is never changed: a new one goes below it. The tests keep a library of every earlier number.

namespace bw {
namespace {

/// Recipes. What a recipe names (machines, coatings, a metal) is kept once, by what it holds. The facts are what is searched by; they stand
/// in a narrow table of their own, which is read whole when the library opens.
constexpr const char* recipes = R"sql(
CREATE TABLE about (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;
INSERT INTO about VALUES ('library_id', lower(hex(randomblob(16)))), ('last_change', '0'), ('latest_time', '0');

CREATE TABLE term (term_id INTEGER PRIMARY KEY, text TEXT NOT NULL UNIQUE) STRICT;

CREATE TABLE content (
  content_id INTEGER PRIMARY KEY,
  hash TEXT NOT NULL UNIQUE CHECK (length(hash) = 64),
  body TEXT NOT NULL
) STRICT;

CREATE TABLE recipe (
  recipe_id INTEGER PRIMARY KEY,
  uid TEXT NOT NULL UNIQUE,
  newest INTEGER NOT NULL CHECK (newest > 0),
  reason TEXT NOT NULL,
  extras TEXT NOT NULL,
  name TEXT NOT NULL,
  note TEXT NOT NULL,
  words TEXT NOT NULL
) STRICT;

CREATE TABLE recipe_facts (
  recipe_id INTEGER PRIMARY KEY REFERENCES recipe,
  changed INTEGER NOT NULL,
  state INTEGER NOT NULL CHECK (state IN (0, 1, 2)),
  proof INTEGER NOT NULL,
  substrate INTEGER NOT NULL REFERENCES term (term_id),
  family INTEGER NOT NULL,
  plate REAL NOT NULL,
  machine INTEGER NOT NULL REFERENCES term (term_id),
  kind INTEGER NOT NULL,
  spot REAL NOT NULL,
  finish INTEGER NOT NULL,
  layers BLOB NOT NULL
) STRICT;
CREATE INDEX facts_changed ON recipe_facts (changed);

CREATE TABLE recipe_version (
  recipe_id INTEGER NOT NULL REFERENCES recipe,
  number INTEGER NOT NULL CHECK (number > 0),
  saved_at TEXT NOT NULL,
  saved_by TEXT NOT NULL,
  body TEXT NOT NULL,
  PRIMARY KEY (recipe_id, number)
) STRICT;
CREATE TRIGGER versions_stay BEFORE UPDATE ON recipe_version BEGIN SELECT RAISE(ABORT, 'a version is never overwritten'); END;
CREATE TRIGGER versions_are_kept BEFORE DELETE ON recipe_version BEGIN SELECT RAISE(ABORT, 'a version is never deleted'); END;

CREATE TABLE version_content (
  recipe_id INTEGER NOT NULL,
  number INTEGER NOT NULL,
  role INTEGER NOT NULL,
  position INTEGER NOT NULL,
  content_id INTEGER NOT NULL REFERENCES content,
  PRIMARY KEY (recipe_id, number, role, position),
  FOREIGN KEY (recipe_id, number) REFERENCES recipe_version
) STRICT, WITHOUT ROWID;

CREATE TABLE state_change (
  sequence INTEGER PRIMARY KEY,
  recipe_id INTEGER NOT NULL,
  number INTEGER NOT NULL,
  state INTEGER NOT NULL,
  reason TEXT NOT NULL,
  changed_at TEXT NOT NULL,
  changed_by TEXT NOT NULL,
  FOREIGN KEY (recipe_id, number) REFERENCES recipe_version
) STRICT;
)sql";

/// Own materials and machines, each with the shipped text it was made from.
constexpr const char* ownEntries = R"sql(
CREATE TABLE own_entry (
  kind INTEGER NOT NULL CHECK (kind IN (0, 1, 2)),
  id TEXT NOT NULL,
  revision INTEGER NOT NULL CHECK (revision > 0),
  body TEXT NOT NULL,
  shipped TEXT,
  PRIMARY KEY (kind, id)
) STRICT, WITHOUT ROWID;
)sql";

/// Photos and other files beside the library.
constexpr const char* attachments = R"sql(
CREATE TABLE attachment (
  hash TEXT PRIMARY KEY CHECK (length(hash) = 64),
  size INTEGER NOT NULL,
  name TEXT NOT NULL,
  added_at TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE version_attachment (
  recipe_id INTEGER NOT NULL,
  number INTEGER NOT NULL,
  hash TEXT NOT NULL REFERENCES attachment,
  PRIMARY KEY (recipe_id, number, hash),
  FOREIGN KEY (recipe_id, number) REFERENCES recipe_version
) STRICT, WITHOUT ROWID;
)sql";

/// The index of words. Beginnings of up to five letters have lists of their own: that is what is typed. It is kept by the program and not
/// by triggers, which a library that is not trusted may not run on such a table.
constexpr const char* words = R"sql(
CREATE VIRTUAL TABLE recipe_words USING fts5 (name, note, words, content = 'recipe', content_rowid = 'recipe_id',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3 4 5');
INSERT INTO recipe_words (recipe_words) VALUES ('rebuild');
)sql";

constexpr std::array steps = {recipes, ownEntries, attachments, words};

}  // namespace

int latestSchema() { return static_cast<int>(steps.size()); }

void bringUpToDate(Database& database, int upTo) {
  for (int taken = static_cast<int>(database.number("PRAGMA user_version")); taken < upTo;) {
    Transaction transaction(database);
    taken = static_cast<int>(database.number("PRAGMA user_version"));  // another program may have been quicker
    if (taken >= upTo) return;
    database.run(steps.at(static_cast<std::size_t>(taken)));
    database.run("PRAGMA user_version = " + std::to_string(++taken));
    transaction.commit();
  }
}

}  // namespace bw
