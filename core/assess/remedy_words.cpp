// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/remedy_words.h"

#include "core/heat/limits.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

using namespace text;

std::string fromTo(const std::string& name, const std::string& before, const std::string& after) {
  return name + " " + before + " to " + after;
}

const LimitResult* sameLimit(const Assessment& assessment, const std::string& name) {
  const auto found = std::ranges::find(assessment.thermal.limits, name, &LimitResult::name);
  return found == assessment.thermal.limits.end() ? nullptr : &*found;
}

std::string evenOrPercent(double ripple) { return ripple < 0.005 ? "none" : percent(ripple); }

std::string evennessEffect(const DoseResult& was, const DoseResult& is) {
  const bool misses = was.missedFraction > std::max(was.ripple, was.rippleAlong), across = was.ripple >= was.rippleAlong;
  if (misses) return fromTo("share missed", evenOrPercent(was.missedFraction), evenOrPercent(is.missedFraction));
  std::string effect = across ? fromTo("ripple", evenOrPercent(was.ripple), evenOrPercent(is.ripple))
                              : fromTo("ripple along the travel", evenOrPercent(was.rippleAlong), evenOrPercent(is.rippleAlong));
  const double other = across ? is.rippleAlong - was.rippleAlong : is.ripple - was.ripple;
  if (other > 0.05)
    effect += across ? fromTo(", along the travel", evenOrPercent(was.rippleAlong), evenOrPercent(is.rippleAlong))
                     : fromTo(", across", evenOrPercent(was.ripple), evenOrPercent(is.ripple));
  return effect;
}

std::string temperatureEffect(const Assessment& before, const Assessment& after) {
  const LimitResult* worst = tellingLimit(before.thermal.limits);
  const LimitResult* same = worst ? sameLimit(after, worst->name) : nullptr;
  return same ? fromTo(worst->name, whole(worst->predicted_C), temperature(same->predicted_C)) : "";
}

std::string effectOn(const std::string& check, const Assessment& before, const Assessment& after) {
  if (check == "evenness" && before.dose && after.dose) return evennessEffect(*before.dose, *after.dose);
  if (check == "removal") return after.removal.passesNeeded ? "passes needed: " + std::to_string(*after.removal.passesNeeded) : "";
  if (check == "finish" && before.finish.meltDepth_m && after.finish.meltDepth_m)
    return fromTo("melt depth", length(*before.finish.meltDepth_m), length(*after.finish.meltDepth_m));
  return check == "temperature" ? temperatureEffect(before, after) : "";
}

}  // namespace

std::string timeChange(const Assessment& before, const Assessment& after) {
  if (!before.job.totalTime_s || !after.job.totalTime_s) return "";
  const double change = *after.job.totalTime_s - *before.job.totalTime_s;
  if (std::abs(change) < 20) return "no more time";
  return (change > 0 ? "+" : "-") + duration(std::abs(change));
}

std::string effectOf(const std::vector<std::string>& checks, const Assessment& before, const Assessment& after) {
  std::vector<std::string> parts;
  for (const std::string& check : checks) parts.push_back(effectOn(check, before, after));
  parts.push_back(timeChange(before, after));
  std::string effect;
  for (const std::string& part : parts) effect += (effect.empty() || part.empty() ? "" : ", ") + part;
  return effect;
}

}  // namespace bw
