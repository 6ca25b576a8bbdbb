// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/json_io.h"

#include <algorithm>

namespace bw {
namespace {

constexpr std::size_t mostKeys = 500;  // of one object; the DOM looks keys up one by one

/// Makes a DOM of a text and knows the path at every token: refuses deep nesting, repeated keys, too many values, and numbers past the
/// range of a double.
class Builder : public nlohmann::json_sax<Json> {
 public:
  Builder(std::string_view text, Problems& problems, const ParseLimits& limits) : m_text(text), m_problems(problems), m_limits(limits) {}

  Json take() { return std::move(m_root); }

  bool null() override { return put(nullptr); }
  bool boolean(bool value) override { return put(value); }
  bool number_integer(number_integer_t value) override { return put(value); }
  bool number_unsigned(number_unsigned_t value) override { return put(value); }
  bool number_float(number_float_t value, const string_t&) override { return put(value); }
  bool binary(binary_t&) override { return false; }  // JSON text holds none
  bool start_object(std::size_t) override { return enter(Json::object()); }
  bool start_array(std::size_t) override { return enter(Json::array()); }
  bool end_object() override { return leave(); }
  bool end_array() override { return leave(); }

  bool string(string_t& text) override {
    if (!m_limits.zeros && text.find('\0') != std::string::npos) {
      m_problems.add(path(), "a text with a character of the number zero; any other letters and signs are accepted");
      return false;
    }
    return put(std::move(text));
  }

  bool key(string_t& name) override {
    auto& members = m_levels.back().container->get_ref<Json::object_t&>();
    const auto [member, isNew] = members.emplace(name, nullptr);
    m_levels.back().member = &member->second;
    m_levels.back().key = name;
    if (!isNew) m_problems.add(path(), "the key stands twice; one of each is accepted");
    const bool isTooMany = members.size() > mostKeys;
    if (isTooMany) m_problems.add(path(), "one key too many; up to " + std::to_string(mostKeys) + " in one object are accepted");
    return isNew && !isTooMany;
  }

  bool parse_error(std::size_t position, const std::string&, const nlohmann::json::exception& error) override {
    if (error.id == 406)
      m_problems.add(path(), "a number past the range of numbers; up to about 1e308 can be read");
    else
      m_problems.add(path(), "not JSON " + where(position) + "; UTF-8 JSON text is accepted");
    return false;
  }

 private:
  /// An object or list that is not closed yet. Only the innermost grows, so that the pointers hold.
  struct Level {
    Json* container = nullptr;
    Json* member = nullptr;  // of an object: where the next value goes
    std::string key;
  };

  bool put(Json value) { return place(std::move(value)) != nullptr; }

  /// Where the value stands now; nothing where it is one too many.
  Json* place(Json value) {
    if (++m_count > m_limits.values) {
      m_problems.add("$", "holds more than " + std::to_string(m_limits.values) + " values; " + m_limits.advice);
      return nullptr;
    }
    if (m_levels.empty()) return &(m_root = std::move(value));
    Level& level = m_levels.back();
    if (level.container->is_array()) return &level.container->get_ref<Json::array_t&>().emplace_back(std::move(value));
    *level.member = std::move(value);
    return level.member;
  }

  bool enter(Json container) {
    if (m_levels.size() >= static_cast<std::size_t>(deepestNesting)) {
      m_problems.add("$", "nested more than " + std::to_string(deepestNesting) + " deep; real work needs about 12");
      return false;
    }
    Json* placed = place(std::move(container));
    if (placed) m_levels.push_back({placed, nullptr, {}});
    return placed != nullptr;
  }

  bool leave() {
    m_levels.pop_back();
    return true;
  }

  std::string path() const {
    std::string path = "$";
    for (const Level& level : m_levels) {
      const bool isInnermost = &level == &m_levels.back();
      if (level.container->is_array())
        path = elementPath(path, level.container->size() - (isInnermost ? 0 : 1));
      else if (!level.key.empty())
        path = memberPath(path, level.key);
    }
    return path;
  }

  /// Reads as "at line 3, column 14" or "(it ends too early, at line 3)".
  std::string where(std::size_t position) const {
    const std::size_t end = std::min(position == 0 ? 0 : position - 1, m_text.size());
    const std::string_view before = m_text.substr(0, end);
    const auto line = std::to_string(1 + std::ranges::count(before, '\n'));
    if (position > m_text.size()) return "(it ends too early, at line " + line + ")";
    const std::size_t lineStart = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    return "at line " + line + ", column " + std::to_string(end - lineStart + 1);
  }

  std::string_view m_text;
  Problems& m_problems;
  const ParseLimits& m_limits;
  Json m_root;
  std::vector<Level> m_levels;
  std::size_t m_count = 0;
};

}  // namespace

Json parseJson(std::string_view text, Problems& problems, const ParseLimits& limits) {
  Builder builder(text, problems, limits);
  if (!Json::sax_parse(text, &builder)) return nullptr;
  return builder.take();
}

}  // namespace bw
