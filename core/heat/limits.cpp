// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/limits.h"

#include <algorithm>

namespace bw {

namespace {

struct BehindLimit {
  Behind behind;
  const char* name;
  double limit_C;
  const char* source;
};

// The low end of each range: what softens is not asked how long it was warm.
constexpr BehindLimit behindLimits[] = {
    {Behind::Wax, "wax behind", 60, "cavity wax drips at 60 to 90 C, from memory"},
    {Behind::Paint, "paint behind", 60, "refinish paint softens at 60 to 90 C, from memory"},
    {Behind::Foam, "foam behind", 70, "rubbers and foams age from 70 to 90 C, from memory"},
    {Behind::Adhesive, "adhesive behind", 80, "structural epoxy softens at 80 to 130 C, from memory"},
    {Behind::Wiring, "wiring behind", 70, "common cable insulation is rated for 70 C, from memory"},
    {Behind::Wood, "wood behind", 150, "wood darkens and begins to char above 150 C over minutes, from memory"},
    {Behind::ClosedCavity, "closed cavity behind", 60, "what is inside is not known: the careful limit"},
    {Behind::Fuel, "fuel behind", 40, "no heat beside fuel: empty, clean and vent first; the careful limit"},
    {Behind::Unknown, "unknown behind", 60, "what is behind is not known: the careful limit"},
};

class LimitList {
 public:
  LimitList(double start_C) : m_start(start_C) {}

  void add(const std::string& name, const std::string& where, double predicted_C, double limit_C, const std::string& source,
           bool warnOnly = false) {
    LimitResult limit{name, where, predicted_C, limit_C, std::nullopt, source, warnOnly};
    if (limit_C > m_start) limit.margin = (limit_C - predicted_C) / (limit_C - m_start);
    m_limits.push_back(limit);
  }
  void add(const std::string& name, const std::string& where, double predicted_C, const std::optional<Property>& limit,
           bool warnOnly = false) {
    if (limit) add(name, where, predicted_C, limit->range.likely, limit->source, warnOnly);
  }
  std::vector<LimitResult> take() { return std::move(m_limits); }

 private:
  double m_start;
  std::vector<LimitResult> m_limits;
};

void addMetal(LimitList& list, const Part& part, const Metal& metal, bool keepsZinc, const HeatPeaks& peaks) {
  list.add("heat tint (ten-minute colour)", "front", peaks.tintEquivalent_C, metal.tint_C, part.finish == Finish::Any);
  list.add("hardening", "front", peaks.near_C, metal.hardening_C);
  list.add("temper or strength lost", "front", peaks.front_C, metal.temper_C);
  list.add("plating melts", "front", peaks.near_C, metal.platingMelts_C);
  if (keepsZinc && !metal.platingMelts_C)
    list.add("kept zinc melts", "front", peaks.near_C, 419.6, "NASA TM-4513 (1993), zinc melts at 419.6 C");
}

/// What lies behind sets the back face's limit, unless the project states one of its own: then it only warns.
void addBehind(LimitList& list, const Part& part, const HeatPeaks& peaks) {
  const bool ownLimit = part.limits.contains("back_face_C");
  for (const BehindLimit& known : behindLimits) {
    if (std::ranges::find(part.behind, known.behind) == part.behind.end()) continue;
    list.add(known.name, "back", peaks.back_C, known.limit_C, known.source, ownLimit);
  }
}

/// "soldered_seam_C" as people say it.
std::string spoken(std::string key) {
  if (key.ends_with("_C")) key.resize(key.size() - 2);
  std::ranges::replace(key, '_', ' ');
  return key;
}

void addOwn(LimitList& list, const Part& part, const HeatPeaks& peaks) {
  for (const auto& [name, limit_C] : part.limits) {
    const bool front = name.starts_with("front");
    const bool back = name.starts_with("back");
    const std::string label = front ? "front face" : back ? "back face" : spoken(name);
    list.add(label, front ? "front" : "back", front ? peaks.front_C : peaks.back_C, limit_C, "set in the project");
  }
}

}  // namespace

std::vector<LimitResult> limitsOf(const Part& part, const Metal& metal, bool keepsZinc, const HeatPeaks& peaks) {
  LimitList list(part.startTemperature_C);
  addOwn(list, part, peaks);
  addBehind(list, part, peaks);
  addMetal(list, part, metal, keepsZinc, peaks);
  list.add("too hot to touch (1 s, bare metal)", "back", peaks.back_C, 65, "ISO 13732-1, burn threshold 65 to 70 C, from memory", true);
  return list.take();
}

const LimitResult* worstLimit(const std::vector<LimitResult>& limits) {
  const LimitResult* worst = nullptr;
  for (const LimitResult& limit : limits) {
    if (limit.warnOnly || !limit.margin) continue;
    if (!worst || *limit.margin < *worst->margin) worst = &limit;
  }
  return worst;
}

std::optional<double> worstMargin(const std::vector<LimitResult>& limits) {
  const LimitResult* worst = worstLimit(limits);
  return worst ? worst->margin : std::nullopt;
}

}  // namespace bw
