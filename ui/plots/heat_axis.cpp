// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/heat_axis.h"

#include <cmath>
#include <vector>

namespace bw {

namespace {

QString shortTime(double time_s) {
  if (time_s < 0.0995) return QLocale().toString(time_s * 1e3) + QStringLiteral(" ms");
  if (time_s < 59.5) return QLocale().toString(time_s) + QStringLiteral(" s");
  return time_s < 3599.5 ? QLocale().toString(std::round(time_s / 60)) + QStringLiteral(" min")
                         : QLocale().toString(time_s / 3600, 'g', 3) + QStringLiteral(" h");
}

void addDecades(QCPAxisTickerText& ticker, double from_s, double to_s, int most) {
  const std::vector<double> fine = {1e-5, 1e-4, 1e-3, 1e-2, 0.1, 1, 10, 60, 600, 3600, 36000}, coarse = {1e-5, 1e-3, 0.1, 10, 600, 36000};
  for (const double time : most > 5 ? fine : coarse) {
    if (time >= from_s * 0.999 && time <= to_s * 1.001) ticker.addTick(time, shortTime(time));
  }
}

void addEven(QCPAxisTickerText& ticker, double from_s, double to_s, int most) {
  for (const double step : {0.001, 0.01, 0.1, 1.0, 5.0, 10.0, 30.0, 60.0, 300.0, 600.0, 1200.0, 1800.0, 3600.0, 7200.0, 14400.0}) {
    if ((to_s - from_s) / step > most) continue;
    for (double time = std::ceil(from_s / step) * step; time <= to_s; time += step)
      ticker.addTick(time, time == 0 ? QStringLiteral("0") : shortTime(time));
    return;
  }
}

}  // namespace

QSharedPointer<QCPAxisTicker> timeTicker(double from_s, double to_s, bool logarithmic, int most) {
  QSharedPointer<QCPAxisTickerText> ticker(new QCPAxisTickerText);
  ticker->setSubTickCount(0);
  logarithmic ? addDecades(*ticker, from_s, to_s, most) : addEven(*ticker, from_s, to_s, most);
  return ticker;
}

}  // namespace bw
