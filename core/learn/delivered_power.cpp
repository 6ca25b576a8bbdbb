// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/delivered_power.h"

#include "core/learn/entries.h"
#include "core/learn/fit.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

std::string entered(const std::vector<PowerReading>& given, double ratedPower_W, double meterUncertainty) {
  if (given.empty()) return "no power was entered";
  if (!(ratedPower_W > 0 && std::isfinite(ratedPower_W))) return "the rated power is no number above 0; it has to be known";
  if (!(meterUncertainty >= 0 && meterUncertainty < 1)) return "the meter's uncertainty is no share from 0 to below 100 %";
  for (std::size_t i = 0; i < given.size(); ++i) {
    const std::string wrong = given[i].beforeOptics_W ? notAbove0(i, *given[i].beforeOptics_W, "power before the optics") : "";
    if (!wrong.empty()) return wrong;
  }
  return "";
}

/// One reading that states no scatter of its own still has the meter's uncertainty.
std::vector<Dialled> dialledOf(const std::vector<PowerReading>& given, double ratedPower_W, double meterUncertainty) {
  std::vector<Dialled> dialled;
  for (const PowerReading& reading : given) dialled.push_back({reading.dialledShare * ratedPower_W, reading.atPart_W});
  if (dialled.size() == 1 && !dialled.front().measured.uncertainty && meterUncertainty > 0) {
    dialled.front().measured.uncertainty = 1e-6 * dialled.front().measured.value;  // the meter's part is added below
  }
  return dialled;
}

std::optional<Range> lossOf(const std::vector<PowerReading>& given, std::vector<std::string>& remarks) {
  std::vector<Measured> passed;
  for (const PowerReading& reading : given) {
    if (reading.beforeOptics_W) passed.push_back(shareOf({*reading.beforeOptics_W, reading.atPart_W}));
  }
  if (passed.empty()) return std::nullopt;
  if (passed.size() == 1 && !passed.front().uncertainty) {
    remarks.push_back("one pair of powers before and after the optics does not tell their loss; two are needed");
    return std::nullopt;
  }
  std::vector<std::string> ofPassed;
  const Range share = meanOf(passed, ofPassed);
  for (const std::string& remark : ofPassed) remarks.push_back("loss of the optics: " + remark);
  if (share.low > 1) {
    remarks.push_back("more power was read behind the optics than before them: the two were swapped, or the meter drifted");
    return std::nullopt;
  }
  return Range{std::max(0.0, 1 - share.high), std::max(0.0, 1 - share.likely), 1 - share.low};
}

}  // namespace

Learnt<DeliveredPower> fitDeliveredPower(const std::vector<PowerReading>& given, double ratedPower_W, double meterUncertainty) {
  Learnt<DeliveredPower> learnt;
  learnt.problem = entered(given, ratedPower_W, meterUncertainty);
  if (!learnt.problem.empty()) return learnt;
  Learnt<Proportion> line = fitProportion(dialledOf(given, ratedPower_W, meterUncertainty), ratedPower_W, "power");
  learnt.remarks = line.remarks;
  learnt.problem = line.problem;
  if (!line.value) return learnt;
  DeliveredPower found{*line.value, {}, lossOf(given, learnt.remarks)};
  for (Range* range : {&found.line.gain, &found.line.atFull}) *range = widened(*range, meterUncertainty);
  if (found.line.offset) found.line.offset = widened(*found.line.offset, meterUncertainty);
  for (CurvePoint& point : found.line.curve) point.y = widened(point.y, meterUncertainty);
  found.share = found.line.atFull * (1 / ratedPower_W);
  if (meterUncertainty == 0) learnt.remarks.push_back("the meter is taken as exact; its uncertainty stands on its calibration sheet");
  if (found.share.low > 1)
    learnt.remarks.push_back("more than the rated power arrives: the meter or the dial is off, or the rating is modest");
  if (!(found.line.atFull.low > 0)) {
    learnt.problem = "the readings scatter too much: nothing learnt; more of them are needed";
    return learnt;
  }
  learnt.value = found;
  return learnt;
}

}  // namespace bw
