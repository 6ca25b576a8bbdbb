// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/word_search.h"

#include <algorithm>
#include <numeric>
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

constexpr std::size_t leastForgiven = 4;  // letters; shorter words are near to everything
constexpr std::size_t mostSimilar = 20;

/// Letters wrong, missing, too many or exchanged with their neighbours between a word as typed and the beginning of another: the optimal
/// string alignment distance (Damerau, Commun. ACM 7 (1964) 171), from memory.
std::size_t slips(std::string_view typed, std::string_view word) {
  std::vector<std::size_t> before2, before(word.size() + 1), row(word.size() + 1);
  std::iota(before.begin(), before.end(), std::size_t{0});
  for (std::size_t i = 1; i <= typed.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= word.size(); ++j) {
      row[j] = std::min({before[j] + 1, row[j - 1] + 1, before[j - 1] + (typed[i - 1] == word[j - 1] ? 0 : 1)});
      const bool exchanged = i > 1 && j > 1 && typed[i - 1] == word[j - 2] && typed[i - 2] == word[j - 1];
      if (exchanged) row[j] = std::min(row[j], before2[j - 2] + 1);
    }
    before2 = before;
    before = row;
  }
  return *std::ranges::min_element(before);  // the typed word may be a beginning
}

bool isSimilar(std::string_view typed, std::string_view word) {
  if (typed.empty() || word.empty() || typed.front() != word.front()) return false;  // the first letter is seldom wrong
  return slips(typed, word) <= (typed.size() >= 8 ? 2U : 1U);
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
  RecipeSet set(facts.rows().size(), 0);
  collect(beginning(word), facts, set);
  const bool found = std::ranges::find(set, 1) != set.end();
  if (!found && word.size() >= leastForgiven) {
    for (const std::string& similar : wordsLike(word)) collect('"' + similar + '"', facts, set);
  }
  return m_known[word] = std::move(set);
}

/// Marks in the set what the index finds.
void WordSearch::collect(const std::string& match, const FactsTable& facts, RecipeSet& set) {
  *m_sink = {&facts, &set, 0, SQLITE_OK};
  Statement query =
      m_database.prepare(std::string("SELECT ") + collector + "(recipe_words) FROM recipe_words WHERE recipe_words MATCH ? LIMIT 1");
  query.with(match).step();
  if (m_sink->code != SQLITE_OK) m_database.fail(m_sink->code);
}

/// Words of the index that may have been meant, by going through all of them.
std::vector<std::string> WordSearch::wordsLike(const std::string& word) {
  m_database.run("CREATE VIRTUAL TABLE IF NOT EXISTS temp.known_words USING fts5vocab(main, recipe_words, row)");
  std::vector<std::string> similar;
  Statement query = m_database.prepare("SELECT term FROM temp.known_words");
  while (similar.size() < mostSimilar && query.step()) {
    std::string term = query.text(0);
    if (isSimilar(word, term)) similar.push_back(std::move(term));
  }
  return similar;
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
