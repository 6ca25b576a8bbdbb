// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/differences.h"

#include "core/library/recipe_json.h"

#include <algorithm>
#include <array>
#include <set>

namespace bw {
namespace {

/// A value as short text: numbers and words as they stand, three numbers as low-likely-high, anything larger as compact JSON.
std::string shortValue(const Json& value) {
  static constexpr std::size_t longest = 120;
  if (value.is_string()) return value.get<std::string>();
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  std::string text = value.dump(-1, ' ', false, Json::error_handler_t::replace);
  if (text.size() <= longest) return text;
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  return text.substr(0, end) + "...";
}

/// How elements of a list are told apart: by id or name, so that one that moved is not taken for another; else by place.
std::string nameOf(const Json& element, std::size_t index) {
  for (const char* key : {"id", "name"}) {
    if (element.is_object() && element.contains(key) && element[key].is_string()) return element[key].get<std::string>();
  }
  return std::to_string(index + 1);
}

using Named = std::vector<std::pair<std::string, const Json*>>;

Named namedElements(const Json& list) {
  Named named;
  std::set<std::string> taken;
  for (std::size_t i = 0; i < list.size(); ++i) {
    std::string name = nameOf(list[i], i);
    if (!taken.insert(name).second) name += " (" + std::to_string(i + 1) + ")";
    named.emplace_back(name, &list[i]);
  }
  return named;
}

Named members(const Json& json) {
  if (json.is_array()) return namedElements(json);
  Named named;
  for (const auto& [key, member] : json.items()) named.emplace_back(key, &member);
  return named;
}

/// Lists of plain values are one value each; objects and lists of objects are looked into.
bool isDeep(const Json& json) {
  return (json.is_object() && !json.empty()) || (json.is_array() && !json.empty() && json.front().is_object());
}

void compare(const std::string& key, const Json* was, const Json* is, std::vector<Difference>& found) {
  if (was && is && *was == *is) return;
  if (!(was && is && isDeep(*was) && isDeep(*is) && was->is_array() == is->is_array())) {
    found.push_back({key, was ? shortValue(*was) : "", is ? shortValue(*is) : ""});
    return;
  }
  const std::string stem = key.empty() ? "" : key + ".";
  const Named before = members(*was), after = members(*is);
  const auto in = [](const Named& list, const std::string& name) {
    const auto at = std::ranges::find(list, name, &Named::value_type::first);
    return at == list.end() ? nullptr : at->second;
  };
  for (const auto& [name, value] : before) compare(stem + name, value, in(after, name), found);
  for (const auto& [name, value] : after) {
    if (!in(before, name)) compare(stem + name, nullptr, value, found);
  }
}

template <class T>
std::vector<Difference> differencesOf(const T& was, const T& is) {
  std::vector<Difference> found;
  const Json before = writeJson(was), after = writeJson(is);
  compare("", &before, &after, found);
  return found;
}

/// Units as keys write them, and as people do.
constexpr std::array<std::pair<const char*, const char*>, 31> keyUnits{{{"_J_mm3", " J/mm³"},
                                                                        {"_W_m2K", " W/(m² K)"},
                                                                        {"_J_kgK", " J/(kg K)"},
                                                                        {"_um_mK", " µm/(m K)"},
                                                                        {"_percent", " %"},
                                                                        {"_kg_m3", " kg/m³"},
                                                                        {"_mm_s", " mm/s"},
                                                                        {"_m3_h", " m³/h"},
                                                                        {"_W_mK", " W/(m K)"},
                                                                        {"_1_mm", " 1/mm"},
                                                                        {"_mrad", " mrad"},
                                                                        {"_kHz", " kHz"},
                                                                        {"_cm2", " cm²"},
                                                                        {"_deg", "°"},
                                                                        {"_min", " min"},
                                                                        {"_GPa", " GPa"},
                                                                        {"_MPa", " MPa"},
                                                                        {"_Hz", " Hz"},
                                                                        {"_kW", " kW"},
                                                                        {"_mJ", " mJ"},
                                                                        {"_um", " µm"},
                                                                        {"_mm", " mm"},
                                                                        {"_nm", " nm"},
                                                                        {"_ns", " ns"},
                                                                        {"_us", " µs"},
                                                                        {"_C", " °C"},
                                                                        {"_W", " W"},
                                                                        {"_s", " s"},
                                                                        {"_h", " h"},
                                                                        {"_m", " m"},
                                                                        {"_J", " J"}}};

/// Takes the unit off the end of a key; of "optical_depth_um.value" that is the end of "optical_depth_um".
std::string takeUnit(std::string& word) {
  for (const auto& [end, unit] : keyUnits) {
    if (!word.ends_with(end)) continue;
    word.resize(word.size() - std::string_view(end).size());
    return unit;
  }
  return {};
}

}  // namespace

std::vector<Difference> differences(const Machine& was, const Machine& is) { return differencesOf(was, is); }
std::vector<Difference> differences(const MachineCard& was, const MachineCard& is) { return differencesOf(was, is); }
std::vector<Difference> differences(const Coating& was, const Coating& is) { return differencesOf(was, is); }
std::vector<Difference> differences(const Substrate& was, const Substrate& is) { return differencesOf(was, is); }
std::vector<Difference> differences(const RecipeVersion& was, const RecipeVersion& is) {
  RecipeVersion before = was, after = is;
  for (RecipeVersion* version : {&before, &after}) {
    version->number = 0;
    version->savedAt.clear();
    version->savedBy.clear();
  }
  return differencesOf(before, after);
}

KeyWords wordsOfKey(const std::string& key) {
  KeyWords found;
  for (std::size_t from = 0; from <= key.size();) {
    const std::size_t dot = std::min(key.find('.', from), key.size());
    std::string part = key.substr(from, dot - from);
    if (std::string unit = takeUnit(part); !unit.empty()) found.unit = unit;
    std::ranges::replace(part, '_', ' ');
    if (part != "value") found.words += (found.words.empty() ? "" : ", ") + part;
    from = dot + 1;
  }
  return found;
}

std::string shownValue(const std::string& key, const std::string& value) {
  if (value.empty()) return key.ends_with(".estimate") ? "no" : "nothing";
  const bool number = !key.ends_with(".source") && !key.ends_with(".estimate");
  return number ? value + wordsOfKey(key).unit : value;
}

std::string inWords(const Difference& difference) {
  const std::string& key = difference.key;
  return wordsOfKey(key).words + " was " + shownValue(key, difference.was) + ", is " + shownValue(key, difference.is);
}

}  // namespace bw
