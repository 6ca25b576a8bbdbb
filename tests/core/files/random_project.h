// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/project_json.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>
#include <string>

namespace bw::test {

/// Fills a struct with random accepted values through the same descriptions that read and write it, so that no key is forgotten.
class Inventor {
 public:
  explicit Inventor(std::uint32_t seed) : m_random(seed) {}

  template <class T, class... Kind>
  void must(const char*, T& value, const Kind&... kind) {
    fill(value, kind...);
  }
  template <class T, class... Kind>
  void usual(const char*, T& value, const Kind&... kind) {
    fill(value, kind...);
  }
  template <class T, class... Kind>
  void may(const char*, T& value, const Kind&... kind) {
    if (below(2) == 0) fill(value, kind...);
  }
  void rest(Extras& extras) {
    static const char* const texts[] = {"[1.5,{\"a\":null}]", "\"µ\\n\\\"x\"", "1e+300", "true", "{}", "-0.0"};
    if (below(3) == 0) extras["later_" + std::to_string(below(100))] = texts[below(std::size(texts))];
  }
  bool header(const char*, int) { return true; }

  std::size_t below(std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(m_random); }

  /// A number of the file with up to six digits, as people type them.
  double number(const FileQuantity& quantity) {
    for (;;) {
      const double share = std::uniform_real_distribution<double>(0, 1)(m_random);
      const double narrow = std::pow(10.0, -static_cast<double>(below(6)));
      char text[32];
      std::snprintf(text, sizeof text, "%.*g", static_cast<int>(1 + below(6)), quantity.low + share * narrow * (quantity.high - quantity.low));
      const double value = std::strtod(text, nullptr);
      if (quantity.accepts(value)) return quantity.unit.toSi(value);
    }
  }

 private:
  void fill(double& value, const FileQuantity& quantity) { value = number(quantity); }
  void fill(Range& range, const FileQuantity& quantity) {
    std::array<double, 3> sorted{number(quantity), number(quantity), number(quantity)};
    std::ranges::sort(sorted);
    range = below(2) == 0 ? Range::exact(sorted[0]) : Range{sorted[0], sorted[1], sorted[2]};
  }
  void fill(std::array<double, 2>& pair, const FileQuantity& quantity) {
    pair = {number(quantity), number(quantity)};
    std::ranges::sort(pair);
  }
  void fill(std::vector<double>& list, const OneOrMany& many) { list.assign(1, number(many.each)); }
  void fill(int& value, const Whole& whole) { value = whole.low + static_cast<int>(below(static_cast<std::size_t>(whole.high - whole.low) + 1)); }
  void fill(bool& value) { value = below(2) == 0; }
  void fill(std::string& text, const Text& kind = {}) {
    static const char* const parts[] = {"a", "primer ", "µ", "\"", "\\", "/", "\n", "ß", "7", "-"};
    text.assign(kind.shortest, 'x');
    while (text.size() < 12 && below(4) != 0) text += parts[below(std::size(parts))];
  }
  template <class E>
  void fill(E& value, const Words<E>& words) {
    value = words.words[below(words.words.size())].first;
  }
  template <class T, class... Kind>
  void fill(std::optional<T>& value, const Kind&... kind) {
    fill(value.emplace(), kind...);
  }
  template <class T, class... Kind>
  void fill(std::vector<T>& list, const Kind&... kind) {
    list.resize(below(4));
    for (T& element : list) fill(element, kind...);
  }
  template <class T, class... Kind>
  void fill(std::map<std::string, T>& map, const Kind&... kind) {
    for (const char* key : {"lead", "zinc", "pcb"}) {
      if (below(2) == 0) fill(map[key], kind...);
    }
  }
  template <class S, class... Kind>
    requires std::is_class_v<S>
  void fill(S& value, const Kind&... kind) {
    describe(*this, value, kind...);
  }

  std::mt19937 m_random;
};

/// Gives names that must be unique a number.
template <class T>
void numbered(std::vector<T>& list, std::string T::* name, const char* stem) {
  for (std::size_t i = 0; i < list.size(); ++i) list[i].*name = stem + std::to_string(i);
}

inline void makeConsistent(Settings& settings) {
  if (settings == Settings{}) return;  // left out of the file
  settings.scanSpeed_m_s = std::max(settings.scanSpeed_m_s, 1.0);
  settings.lineSpacing_m = std::max(settings.lineSpacing_m, 1e-4);
  settings.stepOver_m = std::max(settings.stepOver_m, 1e-3);
  settings.repetitionRate_Hz = std::max(settings.repetitionRate_Hz, 1e3);
  settings.pulseDuration_s = std::max(settings.pulseDuration_s, 1e-9);
  if (!settings.oscillationRate_Hz) settings.oscillationRate_Hz = 50;
}

inline void makeConsistent(Machine& machine) {
  numbered(machine.optics, &Optic::id, "optic ");
  machine.scan.maxWidth_m = machine.scan.maxHeight_m = 0.25;
  if (machine.pulseDurations_s.empty()) machine.pulseDurations_s = {1e-7};
  if (machine.maxPulseEnergy_J.empty()) machine.maxPulseEnergy_J = {0.001};
  machine.repetitionRate_Hz[0] = std::max(machine.repetitionRate_Hz[0], 1e3);
  machine.repetitionRate_Hz[1] = std::max(machine.repetitionRate_Hz[1], machine.repetitionRate_Hz[0]);
}

inline void makeConsistent(Coat& coat) {
  static const char* const coatings[] = {"alkyd-dark", "alkyd-white", "primer-red-oxide", "own 0"};
  for (std::size_t i = 0; i < coat.size(); ++i) {
    coat[i].coating = coatings[i % std::size(coatings)];
    if (coat[i].colour) coat[i].colour = "#7f2020";
  }
}

/// Makes the names that a random project refers to exist, and values that must fit each other fit.
inline void makeConsistent(Project& project) {
  numbered(project.library.coatings, &Coating::id, "own ");
  numbered(project.library.substrates, &Substrate::id, "metal ");
  numbered(project.machines, &Machine::id, "machine ");
  numbered(project.plans, &Plan::name, "plan ");
  numbered(project.part.areas, &Area::name, "area ");
  project.part.substrate = "mild-steel";
  makeConsistent(project.coat);
  for (Area& area : project.part.areas) {
    if (area.coat) makeConsistent(*area.coat);
  }
  for (Machine& machine : project.machines) makeConsistent(machine);
  for (Plan& plan : project.plans) {
    plan.machine = "machine 0";
    makeConsistent(plan.settings);
    for (Step& step : plan.steps) {
      step.machine = "machine 0";
      step.optic.reset();
      step.areas.clear();
      if (!project.part.areas.empty()) step.areas = {"area 0"};
      makeConsistent(step.settings);
    }
  }
  for (Trial& trial : project.trials) makeConsistent(trial.settings);
}

inline Project randomProject(std::uint32_t seed) {
  Inventor inventor(seed);
  Project project;
  describe(inventor, project);
  Coating coating;  // there is always one of the project's own
  describe(inventor, coating);
  project.library.coatings.insert(project.library.coatings.begin(), coating);
  while (project.machines.empty()) describe(inventor, project.machines.emplace_back());
  makeConsistent(project);
  return project;
}

}  // namespace bw::test
