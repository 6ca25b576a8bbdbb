// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/beam/power_curve.h"

#include "core/beam/delivery.h"

#include <algorithm>

namespace bw {

namespace {

PowerPoint pointAt(double rate_Hz, double full_W, double largest_J) {
  const double power_W = std::min(full_W, largest_J * rate_Hz);
  return {rate_Hz, power_W, power_W / rate_Hz};
}

PowerCurve curveAt(const Machine& machine, double duration_s) {
  const double full_W = fullPower_W(machine), largest_J = largestPulseEnergy_J(machine, duration_s);
  const auto [lowest_Hz, highest_Hz] = machine.repetitionRate_Hz;
  const double corner_Hz = full_W / largest_J;  // 0 where the machine names no ceiling
  PowerCurve curve{duration_s, {pointAt(lowest_Hz, full_W, largest_J)}, {}};
  if (corner_Hz > lowest_Hz && corner_Hz < highest_Hz) curve.points.push_back(pointAt(corner_Hz, full_W, largest_J));
  if (highest_Hz > lowest_Hz) curve.points.push_back(pointAt(highest_Hz, full_W, largest_J));
  if (corner_Hz <= highest_Hz) curve.fullFrom_Hz = std::max(lowest_Hz, corner_Hz);
  return curve;
}

bool alike(const PowerCurve& a, const PowerCurve& b) {
  return std::ranges::equal(a.points, b.points,
                            [](const PowerPoint& p, const PowerPoint& q) { return p.rate_Hz == q.rate_Hz && p.power_W == q.power_W; });
}

}  // namespace

std::vector<PowerCurve> powerAgainstRate(const Machine& machine) {
  std::vector<PowerCurve> curves;
  const auto [lowest_Hz, highest_Hz] = machine.repetitionRate_Hz;
  if (machine.kind == MachineKind::Continuous || !(lowest_Hz > 0 && highest_Hz >= lowest_Hz)) return curves;
  for (const double duration_s : machine.pulseDurations_s) {
    if (!(duration_s > 0)) continue;
    PowerCurve curve = curveAt(machine, duration_s);
    if (curves.empty() || !alike(curves.back(), curve)) curves.push_back(std::move(curve));
  }
  return curves;
}

}  // namespace bw
