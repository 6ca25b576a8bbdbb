// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe_facts.h"
#include "core/library/sqlite.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace bw {

/// One truth a recipe, in the order of FactsTable::rows().
using RecipeSet = std::vector<char>;

/// Which recipes hold words that begin as given, by the library's index of words; where none does, words that differ by a slip of typing.
/// Remembers the last words' answers: while a second word is typed the first one's stays.
class WordSearch {
 public:
  explicit WordSearch(Database& database);
  WordSearch(const WordSearch&) = delete;
  WordSearch& operator=(const WordSearch&) = delete;
  ~WordSearch();

  /// Recipes that hold all the words of the text. Without any word: nothing, meaning all.
  std::optional<RecipeSet> find(std::string_view text, const FactsTable& facts);

  /// Forgets what it remembers: after changes that were undone.
  void clear();

  /// The words of what a user typed, as the index tells them apart: no signs are left in them that could mean something to it.
  std::vector<std::string> wordsIn(std::string_view text) const;

 private:
  struct Sink;
  class Splitter;
  const RecipeSet& holding(const std::string& word, const FactsTable& facts);
  void collect(const std::string& match, const FactsTable& facts, RecipeSet& set);
  std::vector<std::string> wordsLike(const std::string& word);

  Database& m_database;
  std::unique_ptr<Sink> m_sink;
  std::unique_ptr<Splitter> m_splitter;
  std::map<std::string, RecipeSet> m_known;
  std::int64_t m_change = -1;  // of the library that m_known is about
};

}  // namespace bw
