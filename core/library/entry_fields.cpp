// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/entry_fields.h"

#include "core/files/library_json.h"
#include "core/library/recipe_json.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

using Shape = EntryField::Shape;

constexpr const char* ownSource = "own entry, source not stated";

std::string notTaken(const std::string& given, const std::string& accepted) { return given + " is not taken; " + accepted + " is."; }

/// Empty where every number is one of that kind.
std::string wrongNumber(const std::vector<double>& numbers, const FileQuantity& quantity) {
  for (const double number : numbers) {
    if (!std::isfinite(number) || !quantity.accepts(number)) return notTaken(jsonNumber(number).dump(), accepted(quantity));
  }
  return "";
}

std::string wrongRange(const std::vector<double>& numbers, const FileQuantity& quantity) {
  if (numbers.size() != 3) return "A low, a likely and a high value are needed.";
  if (std::string wrong = wrongNumber(numbers, quantity); !wrong.empty()) return wrong;
  return std::ranges::is_sorted(numbers) ? "" : "The low value must not lie above the likely one, nor that above the high one.";
}

/// Visits an entry by its describe, as reading and writing do, and makes a field of every value.
class FieldLister {
 public:
  static constexpr bool reads = false;

  FieldLister(std::string stem, std::vector<EntryField>& fields) : m_stem(std::move(stem)), m_fields(fields) {}

  template <class T, class... Kind>
  void must(const char* key, T& value, const Kind&... kind) {
    m_optional = false;
    list(m_stem + key, value, kind...);
  }
  template <class T, class... Kind>
  void usual(const char* key, T& value, const Kind&... kind) {
    must(key, value, kind...);
  }
  template <class T, class... Kind>
  void may(const char* key, T& value, const Kind&... kind) {
    m_optional = true;
    list(m_stem + key, value, kind...);
  }
  void rest(const Extras&) {}

 private:
  EntryField& add(const std::string& key, Shape shape, const FileQuantity* quantity = nullptr) {
    EntryField& field = m_fields.emplace_back();
    field.key = key;
    field.shape = shape;
    field.optional = m_optional;
    if (quantity) {
      field.unit = quantity->unit.symbol;
      field.accepted = accepted(*quantity);
    }
    return field;
  }

  void list(const std::string& key, std::string& value, const Text& text = {}) {
    EntryField& field = add(key, Shape::Text);
    field.get = [&value] { return FieldValue{{}, value, false}; };
    field.set = [&value, text](const FieldValue& given) -> std::string {
      if (given.text.size() < text.shortest) return "Something has to stand here.";
      if (given.text.size() > text.longest) return "This is too long; " + accepted(text) + " is accepted.";
      value = given.text;
      return "";
    };
  }

  void list(const std::string& key, std::optional<std::string>& value, const Text& text) {
    EntryField& field = add(key, Shape::Text);
    field.get = [&value] { return FieldValue{{}, value.value_or(""), false}; };
    field.set = [&value, text](const FieldValue& given) -> std::string {
      if (given.text.size() > text.longest) return "This is too long; " + accepted(text) + " is accepted.";
      value = given.text.empty() ? std::nullopt : std::optional(given.text);
      return "";
    };
  }

  void list(const std::string& key, bool& value) {
    EntryField& field = add(key, Shape::Flag);
    field.get = [&value] { return FieldValue{{}, "", value}; };
    field.set = [&value](const FieldValue& given) -> std::string {
      value = given.flag;
      return "";
    };
  }

  template <class E>
  requires std::is_enum_v<E>
  void list(const std::string& key, E& value, const Words<E>& words) {
    EntryField& field = add(key, Shape::Word);
    field.words = wordList(words);
    field.get = [&value, &words] {
      const auto found = std::ranges::find(words.words, value, &std::pair<E, const char*>::first);
      return FieldValue{{}, found == words.words.end() ? "" : found->second, false};
    };
    field.set = [&value, &words](const FieldValue& given) -> std::string {
      const auto found = std::ranges::find_if(words.words, [&](const auto& word) { return given.text == word.second; });
      if (found == words.words.end()) return notTaken("\"" + given.text + "\"", accepted(words));
      value = found->first;
      return "";
    };
  }

  void list(const std::string& key, double& value, const FileQuantity& quantity) {
    EntryField& field = add(key, Shape::Number, &quantity);
    field.optional = false;
    field.get = [&value, quantity] { return FieldValue{{quantity.unit.fromSi(value)}, "", false}; };
    field.set = [&value, quantity](const FieldValue& given) -> std::string {
      if (given.numbers.size() != 1) return "One number has to stand here.";
      if (std::string wrong = wrongNumber(given.numbers, quantity); !wrong.empty()) return wrong;
      value = quantity.unit.toSi(given.numbers.front());
      return "";
    };
  }

  void list(const std::string& key, std::optional<double>& value, const FileQuantity& quantity) {
    EntryField& field = add(key, Shape::Number, &quantity);
    field.optional = true;
    field.get = [&value, quantity] { return value ? FieldValue{{quantity.unit.fromSi(*value)}, "", false} : FieldValue{}; };
    field.set = [&value, quantity](const FieldValue& given) -> std::string {
      if (given.numbers.size() > 1) return "One number or none is taken.";
      if (std::string wrong = wrongNumber(given.numbers, quantity); !wrong.empty()) return wrong;
      value = given.numbers.empty() ? std::nullopt : std::optional(quantity.unit.toSi(given.numbers.front()));
      return "";
    };
  }

  void list(const std::string& key, int& value, const Whole& whole) {
    EntryField& field = add(key, Shape::Number);
    field.optional = false;
    field.accepted = accepted(whole);
    field.get = [&value] { return FieldValue{{static_cast<double>(value)}, "", false}; };
    field.set = [&value, whole](const FieldValue& given) -> std::string {
      const bool fits = given.numbers.size() == 1 && given.numbers[0] == std::floor(given.numbers[0]) && given.numbers[0] >= whole.low &&
                        given.numbers[0] <= whole.high;
      if (!fits) return "Only " + accepted(whole) + " is taken.";
      value = static_cast<int>(given.numbers.front());
      return "";
    };
  }

  void list(const std::string& key, std::array<double, 2>& value, const FileQuantity& quantity) {
    EntryField& field = add(key, Shape::Numbers, &quantity);
    field.get = [&value, quantity] {
      const bool none = value[0] == 0 && value[1] == 0;
      return none ? FieldValue{} : FieldValue{{quantity.unit.fromSi(value[0]), quantity.unit.fromSi(value[1])}, "", false};
    };
    field.set = [&value, quantity](const FieldValue& given) -> std::string {
      if (given.numbers.size() != 2 && !given.numbers.empty()) return "Two numbers, the lowest and the highest, are taken.";
      if (std::string wrong = wrongNumber(given.numbers, quantity); !wrong.empty()) return wrong;
      if (!std::ranges::is_sorted(given.numbers)) return "The lowest comes first.";
      for (std::size_t i = 0; i < 2; ++i) value[i] = given.numbers.empty() ? 0 : quantity.unit.toSi(given.numbers[i]);
      return "";
    };
  }

  void list(const std::string& key, std::vector<double>& value, const FileQuantity& quantity) {
    EntryField& field = add(key, Shape::Numbers, &quantity);
    field.get = [&value, quantity] {
      FieldValue shown;
      for (const double number : value) shown.numbers.push_back(quantity.unit.fromSi(number));
      return shown;
    };
    field.set = [&value, quantity](const FieldValue& given) -> std::string {
      if (std::string wrong = wrongNumber(given.numbers, quantity); !wrong.empty()) return wrong;
      value.clear();
      for (const double number : given.numbers) value.push_back(quantity.unit.toSi(number));
      return "";
    };
  }
  void list(const std::string& key, std::vector<double>& value, const OneOrMany& many) { list(key, value, many.each); }

  void list(const std::string& key, Property& value, const FileQuantity& quantity) {
    EntryField& field = add(key, Shape::Range, &quantity);
    field.get = [&value, quantity] { return shownRange(value, quantity); };
    field.set = [&value, quantity](const FieldValue& given) { return enterRange(given, quantity, value); };
  }

  void list(const std::string& key, std::optional<Property>& value, const FileQuantity& quantity) {
    EntryField& field = add(key, Shape::Range, &quantity);
    field.get = [&value, quantity] { return value ? shownRange(*value, quantity) : FieldValue{}; };
    field.set = [&value, quantity](const FieldValue& given) -> std::string {
      if (given.numbers.empty()) {
        value.reset();
        return "";
      }
      Property entered = value.value_or(Property{{}, "", true, {}});
      FieldValue sourced = given;
      if (!value && sourced.text.empty()) {
        sourced.text = ownSource;
        sourced.flag = true;
      }
      const std::string wrong = enterRange(sourced, quantity, entered);
      if (wrong.empty()) value = entered;
      return wrong;
    };
  }

  void list(const std::string& key, std::map<std::string, Presence>& value, const Words<Presence>& words) {
    static constexpr const char* looked[] = {"lead", "chromate", "cadmium", "zinc", "pvc", "asbestos", "pcb"};
    std::set<std::string> names(std::begin(looked), std::end(looked));
    for (const auto& entry : value) names.insert(entry.first);
    for (const std::string& name : names) {
      EntryField& field = add(key + "." + name, Shape::Word);
      field.words = wordList(words);
      field.words.insert(field.words.begin(), "");
      field.get = [&value, name, &words] {
        const auto found = value.find(name);
        if (found == value.end()) return FieldValue{};
        return FieldValue{{}, std::ranges::find(words.words, found->second, &std::pair<Presence, const char*>::first)->second, false};
      };
      field.set = [&value, name, &words](const FieldValue& given) -> std::string {
        if (given.text.empty()) {
          value.erase(name);
          return "";
        }
        const auto found = std::ranges::find_if(words.words, [&](const auto& word) { return given.text == word.second; });
        if (found == words.words.end()) return notTaken("\"" + given.text + "\"", accepted(words));
        value[name] = found->first;
        return "";
      };
    }
  }

  template <class S>
  requires std::is_class_v<S>
  void list(const std::string& key, S& value) {
    FieldLister inside(key + ".", m_fields);
    describe(inside, value);
  }

  template <class S>
  void list(const std::string& key, std::vector<S>& value) {
    for (std::size_t i = 0; i < value.size(); ++i) list(key + "." + std::to_string(i + 1), value[i]);
  }

  static FieldValue shownRange(const Property& property, const FileQuantity& quantity) {
    const auto shown = [&](double value) { return quantity.unit.fromSi(value); };
    return {{shown(property.range.low), shown(property.range.likely), shown(property.range.high)}, property.source, property.estimate};
  }

  static std::string enterRange(const FieldValue& given, const FileQuantity& quantity, Property& property) {
    if (std::string wrong = wrongRange(given.numbers, quantity); !wrong.empty()) return wrong;
    if (given.text.empty()) return "A value needs its source; \"own guess\" is one.";
    if (given.text.size() > sourceText.longest) return "The source is too long; " + accepted(sourceText) + " is accepted.";
    const auto si = [&](std::size_t i) { return quantity.unit.toSi(given.numbers[i]); };
    property.range = {si(0), si(1), si(2)};
    property.source = given.text;
    property.estimate = given.flag;
    return "";
  }

  std::string m_stem;
  std::vector<EntryField>& m_fields;
  bool m_optional = false;
};

template <class T>
std::vector<EntryField> listed(T& entry) {
  std::vector<EntryField> fields;
  FieldLister lister("", fields);
  describe(lister, entry);
  std::erase_if(fields, [](const EntryField& field) { return field.key == "id" || field.key == "machine.id"; });
  return fields;
}

}  // namespace

std::vector<EntryField> fieldsOf(Coating& coating) { return listed(coating); }
std::vector<EntryField> fieldsOf(Substrate& substrate) { return listed(substrate); }
std::vector<EntryField> fieldsOf(MachineCard& card) { return listed(card); }

}  // namespace bw
