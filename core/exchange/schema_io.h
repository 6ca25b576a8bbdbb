// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/json_io.h"

namespace bw {

/// A third reader of the descriptions in json_io.h: tells what a file may hold as JSON Schema.
class SchemaIo {
 public:
  static constexpr bool reads = true;

  /// Structs of a name are described once, under $defs.
  SchemaIo(Json& object, Json& definitions) : m_object(object), m_definitions(definitions) {
    m_object = {{"type", "object"}, {"properties", Json::object()}, {"required", Json::array()}};
  }

  template <class T, class... Kind>
  void must(const char* key, T& value, const Kind&... kind) {
    m_object["required"].push_back(key);
    usual(key, value, kind...);
  }
  template <class T, class... Kind>
  void usual(const char* key, T& value, const Kind&... kind) {
    m_object["properties"][key] = explained(key, of(value, kind...));
  }
  template <class T, class... Kind>
  void may(const char* key, T& value, const Kind&... kind) {
    usual(key, value, kind...);
  }
  /// Keys that nobody knows are kept.
  void rest(const Extras&) {
    if (m_object["required"].empty()) m_object.erase("required");
  }
  bool header(const char* format, int version) {
    m_object["required"] = Json::array({"format", "version"});
    m_object["properties"]["format"] = {{"const", format}};
    m_object["properties"]["version"] = {{"type", "integer"}, {"minimum", 1}, {"maximum", version}};
    return true;
  }

 private:
  /// Adds a sentence about the key, where there is one.
  static Json explained(const std::string& key, Json schema);

  static Json of(double&, const FileQuantity& quantity);
  static Json of(Range&, const FileQuantity& quantity);
  static Json of(std::array<double, 2>&, const FileQuantity& quantity);
  static Json of(std::vector<double>&, const OneOrMany& many);
  static Json of(int&, const Whole& whole);
  static Json of(bool&) { return {{"type", "boolean"}}; }
  static Json of(std::string&, const Text& text = {});

  template <class E>
  static Json of(E&, const Words<E>& words) {
    return {{"enum", wordList(words)}, {"description", words.noun}};
  }
  template <class T, class... Kind>
  Json of(std::optional<T>&, const Kind&... kind) {
    T value{};
    return of(value, kind...);
  }
  template <class T, class... Kind>
  Json of(std::vector<T>&, const Kind&... kind) {
    T value{};
    return {{"type", "array"}, {"items", of(value, kind...)}, {"maxItems", longestList}};
  }
  template <class T, class... Kind>
  Json of(std::map<std::string, T>&, const Kind&... kind) {
    T value{};
    return {{"type", "object"}, {"additionalProperties", of(value, kind...)}};
  }
  template <class S, class... Kind>
  requires std::is_class_v<S> Json of(S& value, const Kind&... kind) {
    if constexpr (requires { nameInSchema(value); } && sizeof...(kind) == 0)
      return defined(value, nameInSchema(value));
    else
      return object(value, kind...);
  }

  template <class S, class... Kind>
  Json object(S& value, const Kind&... kind) {
    Json schema;
    SchemaIo inner(schema, m_definitions);
    describe(inner, value, kind...);
    return schema;
  }
  template <class S>
  Json defined(S& value, const std::string& name) {
    if (!m_definitions.contains(name)) {
      m_definitions[name] = nullptr;  // its place, before those it names
      Json schema = object(value);
      m_definitions[name] = std::move(schema);
    }
    return {{"$ref", "#/$defs/" + name}};
  }

  Json& m_object;
  Json& m_definitions;
};

}  // namespace bw
