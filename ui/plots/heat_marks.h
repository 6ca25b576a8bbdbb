// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/clear_places.h"
#include "ui/plots/heat_curves.h"
#include "ui/style/theme.h"

namespace bw {

// What is drawn over the curves of the heat plot. Each takes the places it writes on.

/// The plot as the marks see it.
struct HeatSheet {
  const QCPAxis* x;
  const QCPAxis* y;
  Tones tones;
  bool compact = false;
  bool logarithmic = false;
};

/// Lines with hatching beyond, a rhomb where the limit is first met.
void paintLimits(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const std::vector<LimitMark>& limits);

/// A text and where it stands.
struct PlacedLabel {
  QRectF place;
  QString text;
};

/// A label for each limit in sight: above its line or below, in full where it may be and then hides no curve, else in brief, else a row or
/// two away. None hides another or what is taken already; all are taken then. In a plot too small for that some limits go without.
std::vector<PlacedLabel> placeLimitLabels(const QRectF& box, const HeatSheet& sheet, const std::vector<LimitMark>& limits,
                                          const QFont& font, ClearPlaces& places, bool inFull = true);

/// Where each pass begins, numbered in the topmost row.
void paintPasses(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const std::vector<double>& starts_s);

/// A dot and the number where a curve is highest.
struct PeakMark {
  const std::vector<double>& curve_C;
  QColor colour;
  QString name;
  bool above = false;
};
void paintPeak(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const std::vector<double>& time_s, const PeakMark& peak,
               ClearPlaces& places);

/// At the right edge, `spreadsWidth` wide: a thin line for the hottest in nine of ten such jobs, a tick at the plan's own number.
void paintSpreads(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const Assessment& assessment);
inline constexpr double spreadsWidth = 28, passesHeight = 18;

void paintAmbient(QPainter& painter, const QRectF& box, const HeatSheet& sheet, double ambient_C);
/// Where its label stands.
QRectF ambientPlace(const QRectF& box, const HeatSheet& sheet, double ambient_C, const QFont& font);

}  // namespace bw
