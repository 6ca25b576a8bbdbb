// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/heat_words.h"

#include "ui/style/format.h"
#include "ui/style/range_text.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

namespace bw {

namespace {

constexpr double same_C = 1e-9;

struct HeatWords {
  Q_DECLARE_TR_FUNCTIONS(HeatWords)
};

/// A screening says no more than that trouble may begin.
QString shareWords(double share) {
  return share < 1 ? HeatWords::tr("%1 of 1, where trouble may begin").arg(format::number(share))
                   : HeatWords::tr("%1 times where trouble may begin").arg(format::number(share));
}

}  // namespace

std::vector<LimitResult> tightestFirst(std::vector<LimitResult> limits) {
  const auto order = [](const LimitResult& limit) {
    return std::tuple(limit.warnOnly, limit.margin.value_or(-std::numeric_limits<double>::infinity()));
  };
  std::ranges::stable_sort(limits, {}, order);
  return limits;
}

std::optional<Spread> spreadOf(const LimitResult& limit, const Assessment& assessment) {
  std::optional<Spread> known = limit.predictedRange_C;
  const ThermalResult& thermal = assessment.thermal;
  if (!known && assessment.ranges) {
    for (const auto& [single_C, spread] :
         {std::pair{thermal.back_C, assessment.ranges->back_C}, std::pair{thermal.front_C, assessment.ranges->front_C}})
      if (single_C && spread && std::abs(*single_C - limit.predicted_C) < same_C) known = spread;
  }
  if (known) known->middle = limit.predicted_C;  // one likely number, as in every sentence; the middle of the draws is another
  return known;
}

QString predictedWords(const LimitResult& limit, const Assessment& assessment) {
  if (assessment.thermal.boils(limit.predicted_C)) return HeatWords::tr("boils");
  const std::optional<Spread> spread = spreadOf(limit, assessment);
  return spread ? format::range(*spread, format::temperature) : format::temperature(limit.predicted_C);
}

QString limitWords(const LimitResult& limit) {
  const QString careful = HeatWords::tr("limit %1").arg(format::temperature(limit.limit_C));
  return limit.limitUpTo_C > limit.limit_C ? HeatWords::tr("%1, some bear %2").arg(careful, format::count(limit.limitUpTo_C)) : careful;
}

QString metWords(const LimitResult& limit) {
  return limit.reached_s ? HeatWords::tr("met after %1").arg(format::duration(*limit.reached_s)) : QString();
}

QString stopWords(const LimitResult& limit, const ThermalResult& thermal) {
  if (!thermal.stillHand || thermal.stillHand->time_s.empty()) return {};
  if (limit.felt == Felt::TintUnderBeam) return {};  // not followed for a hand that stops
  if (!limit.stillHand_s)
    return HeatWords::tr("hand stopping: not within the %1 followed").arg(format::duration(thermal.stillHand->time_s.back()));
  return *limit.stillHand_s > 0 ? HeatWords::tr("hand may stop %1").arg(format::duration(*limit.stillHand_s))
                                : HeatWords::tr("hand may not stop at all");
}

std::vector<FlatnessTerm> flatnessTerms(const FlatnessTerms& flatness) {
  const QString bump = HeatWords::tr("(%1 above the sheet around it, over %2)")
                           .arg(format::temperatureRise(flatness.localRise_K), format::millimetres(flatness.width_m));
  return {{HeatWords::tr("Yields under the local heat %1: %2.").arg(bump, shareWords(flatness.yield)),
           HeatWords::tr("Metal that cannot expand because the cool sheet around holds it yields, and is too short once cold.")},
          {HeatWords::tr("Pops out of plane while hot: %1.").arg(shareWords(flatness.oilCan)),
           HeatWords::tr("A thin sheet that is pressed from all sides buckles like the bottom of an oil can.")},
          {HeatWords::tr("Bows afterwards: %1.").arg(shareWords(flatness.bow)),
           HeatWords::tr("The yielded skin pulls the sheet into a curve; trouble is counted from 1 mm over 0.3 m.")}};
}

}  // namespace bw
