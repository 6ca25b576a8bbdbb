// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/word_search.h"

#include <algorithm>
#include <sqlite3.h>

namespace bw {
namespace {

constexpr std::size_t mostWords = 16;
constexpr std::size_t mostKnown = 24;
constexpr const char* collector = "bw_collect";

/// A word as the index's own syntax has it: a quoted text in which a quote stands twice, and a star for "begins with".
std::string beginning(const std::string& word) { return '"' + word + "\"*"; }

[[noreturn]] void noFullText() {
  throw LibraryError(LibraryTrouble::Io, "the SQLite of this computer has no full-text search; version 3.37 or later with FTS5 is needed");
}

/// How an extension reaches the index: SQLite, "FTS5 Extension", section 7.
fts5_api& apiOf(Database& database) {
  fts5_api* api = nullptr;
  sqlite3_stmt* statement = nullptr;
  if (sqlite3_prepare_v2(database.handle(), "SELECT fts5(?1)", -1, &statement, nullptr) == SQLITE_OK) {
    sqlite3_bind_pointer(statement, 1, static_cast<void*>(&api), "fts5_api_ptr", nullptr);
    sqlite3_step(statement);
  }
  sqlite3_finalize(statement);
  if (!api) noFullText();
  return *api;
}

}  // namespace

/// The tokenizer that the index itself uses, with the same options.
class WordSearch::Splitter {
 public:
  explicit Splitter(fts5_api& api) {
    void* context = nullptr;
    const char* options[] = {"remove_diacritics", "2"};
    if (api.xFindTokenizer(&api, "unicode61", &context, &m_calls) != SQLITE_OK) noFullText();
    if (m_calls.xCreate(context, options, 2, &m_tokenizer) != SQLITE_OK) noFullText();
  }
  Splitter(const Splitter&) = delete;
  Splitter& operator=(const Splitter&) = delete;
  ~Splitter() { m_calls.xDelete(m_tokenizer); }

  std::vector<std::string> split(std::string_view text) const {
    std::vector<std::string> words;
    const auto length = static_cast<int>(std::min<std::size_t>(text.size(), 10000));
    m_calls.xTokenize(m_tokenizer, &words, FTS5_TOKENIZE_QUERY, text.data(), length, take);
    return words;
  }

 private:
  static int take(void* words, int, const char* token, int length, int, int) {
    auto& list = *static_cast<std::vector<std::string>*>(words);
    if (list.size() < mostWords) list.emplace_back(token, static_cast<std::size_t>(length));
    return SQLITE_OK;
  }

  fts5_tokenizer m_calls{};
  Fts5Tokenizer* m_tokenizer = nullptr;
};

/// Where the index's callback puts the recipes it finds. Asked for one by one through SQL, a word that stands in every recipe would take
/// several times as long.
struct WordSearch::Sink {
  const FactsTable* facts = nullptr;
  RecipeSet* set = nullptr;
  std::size_t next = 0;  // the index gives its rows in their order
  int code = SQLITE_OK;

  void add(std::int64_t row) {
    const auto& rows = facts->rows();
    while (next < rows.size() && rows[next].row < row) ++next;
    if (next < rows.size() && rows[next].row == row) (*set)[next++] = 1;
  }

  static int found(const Fts5ExtensionApi* api, Fts5Context* context, void* sink) {
    static_cast<Sink*>(sink)->add(api->xRowid(context));
    return SQLITE_OK;
  }

  static void collect(const Fts5ExtensionApi* api, Fts5Context* context, sqlite3_context* result, int, sqlite3_value**) {
    auto* sink = static_cast<Sink*>(api->xUserData(context));
    sink->code = api->xQueryPhrase(context, 0, sink, found);
    sqlite3_result_int(result, 1);
  }
};

WordSearch::WordSearch(Database& database) : m_database(database), m_sink(std::make_unique<Sink>()) {
  fts5_api& api = apiOf(database);
  m_splitter = std::make_unique<Splitter>(api);
  if (api.xCreateFunction(&api, collector, m_sink.get(), Sink::collect, nullptr) != SQLITE_OK) noFullText();
}

WordSearch::~WordSearch() = default;

void WordSearch::clear() {
  m_known.clear();
  m_change = -1;
}

std::vector<std::string> WordSearch::wordsIn(std::string_view text) const { return m_splitter->split(text); }

const RecipeSet& WordSearch::holding(const std::string& word, const FactsTable& facts) {
  if (const auto known = m_known.find(word); known != m_known.end()) return known->second;
  if (m_known.size() >= mostKnown) m_known.clear();
  RecipeSet& set = m_known[word];
  set.assign(facts.rows().size(), 0);
  *m_sink = {&facts, &set, 0, SQLITE_OK};
  try {
    Statement query =
        m_database.prepare(std::string("SELECT ") + collector + "(recipe_words) FROM recipe_words WHERE recipe_words MATCH ? LIMIT 1");
    query.with(beginning(word)).step();
    if (m_sink->code != SQLITE_OK) m_database.fail(m_sink->code);
  } catch (...) {
    m_known.erase(word);
    throw;
  }
  return set;
}

std::optional<RecipeSet> WordSearch::find(std::string_view text, const FactsTable& facts) {
  if (m_change != facts.lastChange()) m_known.clear();
  m_change = facts.lastChange();
  std::optional<RecipeSet> all;
  for (const std::string& word : wordsIn(text)) {
    const RecipeSet& set = holding(word, facts);
    if (!all)
      all = set;
    else
      std::ranges::transform(*all, set, all->begin(), [](char a, char b) { return static_cast<char>(a & b); });
  }
  return all;
}

}  // namespace bw
