// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// One description of a struct serves reading, checking and writing. For a struct S in namespace bw write
//
//   template <class Io> void describe(Io& io, S& s) {
//     io.must("thickness_um", s.thickness_m, FileQuantity{"a thickness", um, 0, 20000, Bound::Above});
//     io.usual("finish", s.finish, finishes);  // a Words<Finish>
//     io.may("note", s.note);
//     io.rest(s.extras);
//   }
//
// and call it through readJson and writeJson below. SI in memory; the file's unit is in the key and in the FileQuantity.
//   must:  has to stand in the file, is always written;
//   usual: keeps the struct's default where the file is silent, is always written;
//   may:   left out of the file where the value equals T{} (an empty optional, list or text, false, 0).
// What a value may be follows from its type: double, Range, array of two and vector of double take a FileQuantity; int takes a Whole; an
// enumeration takes its Words; std::string takes a Text or nothing; a struct takes what its describe takes besides; optional, vector and
// map take what their elements take.

#include "core/files/project_file.h"
#include "core/values/extras.h"
#include "core/values/range.h"

#include <nlohmann/json.hpp>

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace bw {

using Json = nlohmann::ordered_json;

/// A unit of the file: SI value = file value * up / down. Two factors, so that 45 um is the same double as 45e-6.
struct FileUnit {
  const char* symbol = "";
  double up = 1;
  double down = 1;
  constexpr double toSi(double value) const { return value * up / down; }
  constexpr double fromSi(double value) const { return value * down / up; }
};

/// Whether the lower bound itself is accepted.
enum class Bound { From, Above };

class Writer;

/// What a number stands for and which values are accepted, bounds in the file's unit.
struct FileQuantity {
  const char* noun = "a number";  // with its article: "a thickness"
  FileUnit unit;
  double low = 0;
  double high = 0;
  Bound bound = Bound::From;

  bool accepts(double value) const { return (bound == Bound::Above ? value > low : value >= low) && value <= high; }
};

/// A list that may be written as a single number when it has one element.
struct OneOrMany {
  FileQuantity each;
};

struct Whole {
  const char* noun = "a number";
  int low = 0;
  int high = 0;
};

struct Text {
  const char* noun = "a text";
  std::size_t shortest = 0;
  std::size_t longest = 20000;
};

/// The words of an enumeration, in the order they are offered.
template <class E>
struct Words {
  const char* noun;
  std::vector<std::pair<E, const char*>> words;
};

/// The file's word for a value; empty where it has none.
template <class E>
std::string wordOf(const Words<E>& words, E value) {
  for (const auto& [meaning, word] : words.words) {
    if (meaning == value) return word;
  }
  return {};
}

/// Gathers what is wrong: the first hundred problems, one for a place, what lies within it and what it lies in.
class Problems {
 public:
  void add(const std::string& path, const std::string& message);
  bool touches(const std::string& path) const;  // whether the place, a part of it, or what it lies in is already known to be wrong
  bool empty() const { return m_list.empty(); }
  const std::vector<Problem>& list() const { return m_list; }

 private:
  std::vector<Problem> m_list;
};

/// JSON path of a member: ".key", or "[\"odd key\"]" where the key is no plain word.
std::string memberPath(const std::string& path, std::string_view key);
std::string elementPath(const std::string& path, std::size_t index);

/// A value as it stands in the file, on one line and short enough for a message.
std::string shown(const Json& value);

/// "; accepted are x, y, z", with " (did you mean y?)" before it where a word is nearly right.
std::string acceptedWords(std::string_view word, const std::vector<std::string>& accepted);

/// What a text may hold besides being no deeper than deepestNesting: a DOM needs up to 30 bytes for every byte of the text.
struct ParseLimits {
  std::size_t values = 20'000'000;  // objects and lists count as one each
  bool zeros = true;                // whether texts may hold the character zero
  const char* advice = "a smaller file is accepted";
};

/// Text to DOM. Says one problem and returns null for text that is no JSON, nests deeper than deepestNesting, repeats a key or is past the
/// limits.
Json parseJson(std::string_view text, Problems& problems, const ParseLimits& limits = {});

/// DOM to text: two spaces an indent, lists of plain values on one line, a line feed at the end.
std::string jsonText(const Json& json);

/// A number as files hold it: 12 significant digits, whole where it is whole. Not a number becomes null.
Json jsonNumber(double value);

/// What is accepted, in words.
std::string accepted(const FileQuantity& quantity);
std::string accepted(const Whole& whole);
std::string accepted(const Text& text);
inline std::string accepted(const OneOrMany& many) { return accepted(many.each) + ", or a list of such numbers,"; }
template <class E>
std::string accepted(const Words<E>& words);

/// What is accepted where a value of this type is missing.
template <class T, class... Kind>
std::string acceptedFor(const T&, const Kind&... kind) {
  if constexpr (requires(Writer& io, T value) { describe(io, value, kind...); }) return "an object {...}";
  else if constexpr (requires(T list) { list.emplace_back(); }) return "a list [...]";
  else return accepted(kind...);
}

/// Reads one JSON object into a struct.
class Reader {
 public:
  static constexpr bool reads = true;

  Reader(const Json& object, std::string path, Problems& problems) : m_object(object), m_path(std::move(path)), m_problems(problems) {}

  template <class T, class... Kind>
  void must(const char* key, T& value, const Kind&... kind) {
    if (const Json* json = find(key)) return read(*json, memberPath(m_path, key), value, kind...);
    m_problems.add(memberPath(m_path, key), "missing; " + acceptedFor(value, kind...) + " is accepted");
  }
  template <class T, class... Kind>
  void usual(const char* key, T& value, const Kind&... kind) {
    if (const Json* json = find(key)) read(*json, memberPath(m_path, key), value, kind...);
  }
  template <class T, class... Kind>
  void may(const char* key, T& value, const Kind&... kind) {
    usual(key, value, kind...);
  }
  /// The keys nobody asked for, kept as they came.
  void rest(Extras& extras) const;
  /// Says which keys nobody asked for; for files in which a key that is not known can only be a slip.
  void nothingElse() const;
  /// Whether the file is of this format and of a version that can be read. Says so if not.
  bool header(const char* format, int version);

 private:
  const Json* find(const char* key);

  void read(const Json& json, const std::string& path, double& value, const FileQuantity& quantity);
  void read(const Json& json, const std::string& path, Range& value, const FileQuantity& quantity);
  void read(const Json& json, const std::string& path, std::array<double, 2>& value, const FileQuantity& quantity);
  void read(const Json& json, const std::string& path, std::vector<double>& value, const OneOrMany& many);
  void read(const Json& json, const std::string& path, int& value, const Whole& whole);
  void read(const Json& json, const std::string& path, bool& value);
  void read(const Json& json, const std::string& path, std::string& value, const Text& text = {});

  template <class E>
  void read(const Json& json, const std::string& path, E& value, const Words<E>& words);
  template <class T, class... Kind>
  void read(const Json& json, const std::string& path, std::optional<T>& value, const Kind&... kind);
  template <class T, class... Kind>
  void read(const Json& json, const std::string& path, std::vector<T>& value, const Kind&... kind);
  template <class T, class... Kind>
  void read(const Json& json, const std::string& path, std::map<std::string, T>& value, const Kind&... kind);
  template <class S, class... Kind>
    requires std::is_class_v<S>
  void read(const Json& json, const std::string& path, S& value, const Kind&... kind);

  const Json& m_object;
  std::string m_path;
  Problems& m_problems;
  std::set<std::string, std::less<>> m_known;
};

/// Writes a struct as one JSON object.
class Writer {
 public:
  static constexpr bool reads = false;

  explicit Writer(Json& object) : m_object(object) { m_object = Json::object(); }

  template <class T, class... Kind>
  void must(const char* key, T& value, const Kind&... kind) {
    m_object[key] = write(value, kind...);
  }
  template <class T, class... Kind>
  void usual(const char* key, T& value, const Kind&... kind) {
    must(key, value, kind...);
  }
  template <class T, class... Kind>
  void may(const char* key, T& value, const Kind&... kind) {
    if (!(value == T{})) must(key, value, kind...);
  }
  void rest(const Extras& extras);
  bool header(const char* format, int version);

 private:
  static Json write(double value, const FileQuantity& quantity) { return jsonNumber(quantity.unit.fromSi(value)); }
  static Json write(Range& value, const FileQuantity& quantity);
  static Json write(std::array<double, 2>& value, const FileQuantity& quantity);
  static Json write(std::vector<double>& value, const OneOrMany& many);
  static Json write(int value, const Whole&) { return value; }
  static Json write(bool value) { return value; }
  static Json write(std::string& value, const Text& = {}) { return value; }

  template <class E>
  static Json write(E& value, const Words<E>& words);
  template <class T, class... Kind>
  static Json write(std::optional<T>& value, const Kind&... kind);
  template <class T, class... Kind>
  static Json write(std::vector<T>& value, const Kind&... kind);
  template <class T, class... Kind>
  static Json write(std::map<std::string, T>& value, const Kind&... kind);
  template <class S, class... Kind>
    requires std::is_class_v<S>
  static Json write(S& value, const Kind&... kind);

  Json& m_object;
};

/// Reads an object into `value` by its describe, saying what is wrong in `problems`.
template <class S>
void readJson(const Json& json, const std::string& path, S& value, Problems& problems) {
  if (!json.is_object()) return problems.add(path, shown(json) + " is not an object; {\"key\": value, ...} is accepted");
  Reader reader(json, path, problems);
  describe(reader, value);
}

/// The object that describe makes of `value`, which is left as it is.
template <class S>
Json writeJson(S value) {
  Json json;
  Writer writer(json);
  describe(writer, value);
  return json;
}

/// More elements than any real job has; a longer list is a broken file.
inline constexpr std::size_t longestList = 10000;

template <class E>
std::vector<std::string> wordList(const Words<E>& words) {
  std::vector<std::string> list;
  for (const auto& word : words.words) list.emplace_back(word.second);
  return list;
}

template <class E>
std::string accepted(const Words<E>& words) {
  std::string text = "one of";
  for (const auto& word : wordList(words)) text += " " + word;
  return text;
}

template <class E>
void Reader::read(const Json& json, const std::string& path, E& value, const Words<E>& words) {
  const std::string given = json.is_string() ? json.get<std::string>() : std::string();
  for (const auto& [meaning, word] : words.words) {
    if (json.is_string() && given == word) {
      value = meaning;
      return;
    }
  }
  m_problems.add(path, shown(json) + " is not " + words.noun + acceptedWords(given, wordList(words)));
}

template <class T, class... Kind>
void Reader::read(const Json& json, const std::string& path, std::optional<T>& value, const Kind&... kind) {
  read(json, path, value.emplace(), kind...);
}

template <class T, class... Kind>
void Reader::read(const Json& json, const std::string& path, std::vector<T>& value, const Kind&... kind) {
  if (!json.is_array()) return m_problems.add(path, shown(json) + " is not a list; [..., ...] is accepted");
  if (json.size() > longestList) {
    return m_problems.add(path, "too long a list; up to " + std::to_string(longestList) + " elements are accepted");
  }
  value.clear();
  for (std::size_t i = 0; i < json.size(); ++i) read(json[i], elementPath(path, i), value.emplace_back(), kind...);
}

template <class T, class... Kind>
void Reader::read(const Json& json, const std::string& path, std::map<std::string, T>& value, const Kind&... kind) {
  if (!json.is_object()) return m_problems.add(path, shown(json) + " is not an object; {\"key\": value, ...} is accepted");
  value.clear();
  for (const auto& [key, member] : json.items()) read(member, memberPath(path, key), value[key], kind...);
}

template <class S, class... Kind>
  requires std::is_class_v<S>
void Reader::read(const Json& json, const std::string& path, S& value, const Kind&... kind) {
  if (!json.is_object()) return m_problems.add(path, shown(json) + " is not an object; {\"key\": value, ...} is accepted");
  Reader reader(json, path, m_problems);
  describe(reader, value, kind...);
}

template <class E>
Json Writer::write(E& value, const Words<E>& words) {
  for (const auto& [meaning, word] : words.words) {
    if (meaning == value) return word;
  }
  return nullptr;
}

template <class T, class... Kind>
Json Writer::write(std::optional<T>& value, const Kind&... kind) {
  return value ? write(*value, kind...) : Json(nullptr);
}

template <class T, class... Kind>
Json Writer::write(std::vector<T>& value, const Kind&... kind) {
  Json list = Json::array();
  for (T& element : value) list.push_back(write(element, kind...));
  return list;
}

template <class T, class... Kind>
Json Writer::write(std::map<std::string, T>& value, const Kind&... kind) {
  Json object = Json::object();
  for (auto& [key, member] : value) object[key] = write(member, kind...);
  return object;
}

template <class S, class... Kind>
  requires std::is_class_v<S>
Json Writer::write(S& value, const Kind&... kind) {
  Json object;
  Writer writer(object);
  describe(writer, value, kind...);
  return object;
}

}  // namespace bw
