// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/dose_words.h"

#include "ui/style/format.h"

#include <QCoreApplication>

#include <cmath>

namespace bw {

namespace {

constexpr double leastContrast = 0.01;  // weaker stripes are told by no eye
constexpr double leastMoreMissed = 0.005;
constexpr double leastRipple = 0.005;

struct DoseWords {
  Q_DECLARE_TR_FUNCTIONS(DoseWords)
};

double contrastOf(const std::optional<Stripe>& stripe) { return stripe ? stripe->contrast : 0; }

}  // namespace

QString rippleWords(double ripple) {
  return ripple < leastRipple ? DoseWords::tr("Even") : DoseWords::tr("Ripple %1").arg(format::percent(ripple));
}

QString missedWords(double share) {
  return share < leastMissed ? DoseWords::tr("nothing missed") : DoseWords::tr("%1 missed").arg(format::percent(share));
}

QString stripeWords(const DoseResult& dose) {
  const bool along = contrastOf(dose.stripeAlong) >= contrastOf(dose.stripeAcross);
  const std::optional<Stripe>& stripe = along ? dose.stripeAlong : dose.stripeAcross;
  if (contrastOf(stripe) < leastContrast) return {};
  const QString text = (along ? DoseWords::tr("Stripes every %1 along the travel, %2 strong")
                              : DoseWords::tr("Stripes every %1 across the swath, %2 strong"))
                           .arg(format::millimetres(stripe->period_m), format::percent(stripe->contrast));
  return stripe->cause.empty() ? text : text + QStringLiteral(": ") + QString::fromStdString(stripe->cause);
}

QString outOfStepWords(const DoseResult& dose) {
  if (!dose.outOfStep || dose.outOfStep->missedFraction.high < dose.missedFraction + leastMoreMissed) return {};
  const Spread& missed = dose.outOfStep->missedFraction;
  const QString low = format::percent(missed.low), high = format::percent(missed.high);
  if (low == high) return DoseWords::tr("swaths out of step: %1 missed").arg(high);
  return DoseWords::tr("swaths out of step: %1 to %2 missed").arg(format::number(missed.low * 100), high);
}

QString strikesWords(const Strikes& strikes, bool pulsed) {
  const QString lines = strikes.lines == 1 ? DoseWords::tr("one line") : DoseWords::tr("%1 lines").arg(strikes.lines);
  if (strikes.lines == 0) return pulsed ? DoseWords::tr("no pulse falls here") : DoseWords::tr("the beam does not come here");
  if (!pulsed) return strikes.lines == 1 ? DoseWords::tr("one passage") : DoseWords::tr("%1 passages").arg(strikes.lines);
  if (std::lround(strikes.pulses) == 1) return DoseWords::tr("one pulse falls here in a pass, from %1").arg(lines);
  return DoseWords::tr("%1 pulses fall here in a pass, from %2").arg(format::count(strikes.pulses), lines);
}

}  // namespace bw
