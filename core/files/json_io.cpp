// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/json_io.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace bw {
namespace {

constexpr std::size_t mostProblems = 100;
constexpr int fileDigits = 12;
constexpr std::size_t longestShown = 40;

bool isPlainWord(std::string_view key) {
  return !key.empty() && key.size() <= 60 && std::ranges::all_of(key, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  });
}

/// Whether a path is that of `outer` or of something within it.
bool liesIn(const std::string& path, const std::string& outer) {
  const std::size_t length = outer.size();
  return path.starts_with(outer) && (path.size() == length || path[length] == '.' || path[length] == '[');
}

std::string dumped(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

/// Without regard to the locale, which the window sets to the user's.
std::string digits(double value) {
  char text[32];
  return {text, std::to_chars(text, text + sizeof text, value, std::chars_format::general, fileDigits).ptr};
}

double numberIn(const std::string& text) {
  double value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

/// Number of single-letter edits that turn one word into the other.
std::size_t editDistance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t swapped = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({swapped, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row[b.size()];
}

/// The word nearest to `word`, empty where none is near.
std::string nearest(std::string_view word, const std::vector<std::string>& candidates) {
  std::string best;
  std::size_t bestDistance = word.size() / 3 + 1;
  if (word.empty() || word.size() > longestShown) return best;
  for (const auto& candidate : candidates) {
    const std::size_t distance = editDistance(word, candidate);
    if (distance <= bestDistance && (best.empty() || distance < bestDistance)) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/// Numbers so small that their SI value could become zero or lose its digits; no quantity is that small.
bool isVanishing(double value) { return value != 0 && std::abs(value) < 1e-250; }

/// Reads a finite number that the quantity accepts, in SI; says what is wrong otherwise.
std::optional<double> readNumber(const Json& json, const std::string& path, const FileQuantity& quantity, Problems& problems) {
  if (json.is_number() && quantity.accepts(json.get<double>()) && !isVanishing(json.get<double>()))
    return quantity.unit.toSi(json.get<double>());
  problems.add(path, shown(json) + " is not " + quantity.noun + "; " + accepted(quantity) + " is accepted");
  return std::nullopt;
}

bool isPlainList(const Json& json) {
  return json.is_array() && std::ranges::none_of(json, [](const Json& element) { return element.is_structured(); });
}

void print(const Json& json, const std::string& indent, std::string& text);

void printMembers(const Json& json, const std::string& indent, std::string& text) {
  const char* separator = "\n";
  for (auto member = json.begin(); member != json.end(); ++member) {
    text += separator + indent;
    if (json.is_object()) text += dumped(member.key()) + ": ";
    print(*member, indent + "  ", text);
    separator = ",\n";
  }
}

void printPlainList(const Json& json, std::string& text) {
  text += '[';
  for (std::size_t i = 0; i < json.size(); ++i) text += (i == 0 ? "" : ", ") + dumped(json[i]);
  text += ']';
}

void print(const Json& json, const std::string& indent, std::string& text) {
  if (isPlainList(json)) return printPlainList(json, text);
  if (!json.is_structured() || json.empty()) {
    text += dumped(json);
    return;
  }
  text += json.is_object() ? '{' : '[';
  printMembers(json, indent, text);
  text += '\n' + indent.substr(2) + (json.is_object() ? '}' : ']');
}

}  // namespace

void Problems::add(const std::string& path, const std::string& message) {
  if (m_list.size() < mostProblems && !touches(path)) m_list.push_back({path, message});
}

bool Problems::touches(const std::string& path) const {
  return std::ranges::any_of(m_list, [&](const Problem& problem) { return liesIn(path, problem.path) || liesIn(problem.path, path); });
}

std::string memberPath(const std::string& path, std::string_view key) {
  if (isPlainWord(key)) return path + '.' + std::string(key);
  return path + '[' + shown(Json(std::string(key))) + ']';
}

std::string elementPath(const std::string& path, std::size_t index) { return path + '[' + std::to_string(index) + ']'; }

std::string shown(const Json& value) {
  if (value.is_number_float()) return digits(value.get<double>());
  std::string text = dumped(value);
  if (text.size() <= longestShown) return text;
  std::size_t end = longestShown;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;  // not within a UTF-8 sequence
  return text.substr(0, end) + "…";
}

std::string acceptedWords(std::string_view word, const std::vector<std::string>& accepted) {
  const std::string near = nearest(word, accepted);
  std::string text = near.empty() ? "" : " (did you mean \"" + near + "\"?)";
  text += "; accepted are ";
  for (std::size_t i = 0; i < accepted.size(); ++i) text += (i == 0 ? "" : ", ") + accepted[i];
  return text;
}

std::string jsonText(const Json& json) {
  std::string text;
  print(json, "  ", text);
  return text + '\n';
}

Json jsonNumber(double value) {
  if (!std::isfinite(value)) return nullptr;
  const double rounded = numberIn(digits(value));
  if (std::abs(rounded) < 1e12 && rounded == std::floor(rounded)) return static_cast<std::int64_t>(rounded);
  return rounded;
}

std::string accepted(const FileQuantity& quantity) {
  const std::string unit = *quantity.unit.symbol ? std::string(" ") + quantity.unit.symbol : "";
  const std::string high = digits(quantity.high) + unit;
  if (quantity.bound == Bound::Above) return "a number above " + digits(quantity.low) + " and up to " + high;
  return "a number from " + digits(quantity.low) + " to " + high;
}

std::string accepted(const Whole& whole) {
  return "a whole number from " + std::to_string(whole.low) + " to " + std::to_string(whole.high);
}

std::string accepted(const Text& text) {
  return "a text of " + std::to_string(text.shortest) + " to " + std::to_string(text.longest) + " letters";
}

void Reader::rest(Extras& extras) const {
  for (const auto& [key, value] : m_object.items()) {
    if (!m_known.contains(key)) extras[key] = dumped(value);
  }
}

void Reader::nothingElse() const {
  const std::vector<std::string> known(m_known.begin(), m_known.end());
  for (const auto& [key, value] : m_object.items()) {
    if (!m_known.contains(key)) m_problems.add(memberPath(m_path, key), "no such key" + acceptedWords(key, known));
  }
}

bool Reader::header(const char* format, int version) {
  const Json* name = find("format");
  if (!name || *name != format) {
    const std::string why = name ? shown(*name) + " is not this format" : "missing";
    m_problems.add(m_path + ".format", why + "; \"" + format + "\" is accepted");
    return false;
  }
  int given = 0;
  must("version", given, Whole{"a version", 1, 1000000});
  if (given > version) {
    m_problems.add(m_path + ".version", std::to_string(given) + " is newer than this program reads; up to " + std::to_string(version) +
                                            " is accepted, a newer program reads it");
  }
  return given >= 1 && given <= version;
}

const Json* Reader::find(const char* key) {
  m_known.insert(key);
  const auto found = m_object.find(key);
  return found == m_object.end() ? nullptr : &*found;
}

void Reader::read(const Json& json, const std::string& path, double& value, const FileQuantity& quantity) {
  if (const auto number = readNumber(json, path, quantity, m_problems)) value = *number;
}

void Reader::read(const Json& json, const std::string& path, Range& value, const FileQuantity& quantity) {
  if (!json.is_array()) {
    if (const auto number = readNumber(json, path, quantity, m_problems)) value = Range::exact(*number);
    return;
  }
  const std::string why = " is not " + std::string(quantity.noun) + " with its range; [low, likely, high] in this order is accepted";
  if (json.size() != 3) return m_problems.add(path, shown(json) + why);
  const auto low = readNumber(json[0], elementPath(path, 0), quantity, m_problems);
  const auto likely = readNumber(json[1], elementPath(path, 1), quantity, m_problems);
  const auto high = readNumber(json[2], elementPath(path, 2), quantity, m_problems);
  if (!low || !likely || !high) return;
  if (*low > *likely || *likely > *high) return m_problems.add(path, shown(json) + why);
  value = {*low, *likely, *high};
}

void Reader::read(const Json& json, const std::string& path, std::array<double, 2>& value, const FileQuantity& quantity) {
  if (!json.is_array() || json.size() != 2) {
    return m_problems.add(path, shown(json) + " is not two numbers; [..., ...] is accepted, each " + accepted(quantity));
  }
  for (std::size_t i = 0; i < 2; ++i) read(json[i], elementPath(path, i), value[i], quantity);
}

void Reader::read(const Json& json, const std::string& path, std::vector<double>& value, const OneOrMany& many) {
  if (json.is_array()) return read<double, FileQuantity>(json, path, value, many.each);
  value.assign(1, 0);
  read(json, path, value.front(), many.each);
}

void Reader::read(const Json& json, const std::string& path, int& value, const Whole& whole) {
  const double number = json.is_number() ? json.get<double>() : whole.low - 1.0;
  if (number >= whole.low && number <= whole.high && number == std::floor(number)) {
    value = static_cast<int>(number);
    return;
  }
  m_problems.add(path, shown(json) + " is not " + whole.noun + "; " + accepted(whole) + " is accepted");
}

void Reader::read(const Json& json, const std::string& path, bool& value) {
  if (!json.is_boolean()) return m_problems.add(path, shown(json) + " is neither yes nor no; true or false is accepted");
  value = json.get<bool>();
}

void Reader::read(const Json& json, const std::string& path, std::string& value, const Text& text) {
  if (json.is_string()) value = json.get<std::string>();
  if (json.is_string() && value.size() >= text.shortest && value.size() <= text.longest) return;
  m_problems.add(path, shown(json) + " is not " + text.noun + "; " + accepted(text) + " is accepted");
}

void Writer::rest(const Extras& extras) {
  for (const auto& [key, text] : extras) {
    const Json value = Json::parse(text, nullptr, false);
    if (!m_object.contains(key)) m_object[key] = value.is_discarded() ? Json(text) : value;
  }
}

bool Writer::header(const char* format, int version) {
  m_object["format"] = format;
  m_object["version"] = version;
  return true;
}

Json Writer::write(Range& value, const FileQuantity& quantity) {
  if (value.isExact()) return write(value.likely, quantity);
  return Json::array({write(value.low, quantity), write(value.likely, quantity), write(value.high, quantity)});
}

Json Writer::write(std::array<double, 2>& value, const FileQuantity& quantity) {
  return Json::array({write(value[0], quantity), write(value[1], quantity)});
}

Json Writer::write(std::vector<double>& value, const OneOrMany& many) {
  if (value.size() == 1) return write(value.front(), many.each);
  return write<double, FileQuantity>(value, many.each);
}

}  // namespace bw
