// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe_json.h"
#include "core/library/sha256.h"
#include "core/library/stored_json.h"

#include <memory>
#include <tuple>

namespace bw {

/// A profile as it is stored, and its SHA-256.
struct StoredContent {
  std::string body;
  std::string hash;
};

/// The stored texts of profiles met lately. Recipes of a shop name the same machines and coatings again and again, and making and checking
/// their text is most of the work of saving one.
class ContentMemo {
 public:
  template <class T>
  std::shared_ptr<const StoredContent> of(const T& value, const std::string& what) {
    auto& memo = std::get<Memo<T>>(m_memos);
    for (const auto& [known, content] : memo.known) {
      if (known.id == value.id && known == value) return content;
    }
    std::string body = storedText(value, what);
    std::string hash = sha256(body);
    auto content = std::make_shared<const StoredContent>(StoredContent{std::move(body), std::move(hash)});
    if (memo.known.size() < most)
      memo.known.emplace_back(value, content);
    else
      memo.known[memo.oldest++ % most] = {value, content};
    return content;
  }

 private:
  static constexpr std::size_t most = 64;
  template <class T>
  struct Memo {
    std::vector<std::pair<T, std::shared_ptr<const StoredContent>>> known;
    std::size_t oldest = 0;
  };

  std::tuple<Memo<Machine>, Memo<Substrate>, Memo<Coating>> m_memos;
};

}  // namespace bw
