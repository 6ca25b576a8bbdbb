// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QString>

namespace bw {

/// The ways to look at the heat: curves of the work, curves of a hand that stops, and the map of the part, which has a plot of its own.
enum class HeatView { Work, StillHand, Part };

/// What the heat plot draws. Bare is drawn full; thin what the coat lets through as it leaves, where that is known.
struct HeatCurves {
  std::vector<double> time_s;
  std::vector<double> front_C;
  std::vector<double> back_C;
  std::vector<double> thinFront_C = {};
  std::vector<double> thinBack_C = {};

  bool isEmpty() const { return time_s.size() < 2; }
  double hottest_C() const;
  /// Of bare metal or as the coat comes off, whichever gets hotter: its peak is the number that is told.
  const std::vector<double>& worseFront() const;
  const std::vector<double>& worseBack() const;
  double start_s() const;  // the first moment that a logarithmic axis can show
  double rises_s() const;  // the last before anything is seen to get warmer: earlier decades would stand empty
};

HeatCurves curvesOf(const HeatTrace& trace);
HeatCurves curvesOf(const StillHandHeat& still);

/// One limit as the plot draws it.
struct LimitMark {
  double limit_C = 0;
  bool warnOnly = false;
  QString brief;                    // "150 °C  paint behind, met after 4.0 min"
  QString more;                     // what stands behind it where there is room: ": 139 °C predicted"
  std::optional<double> at_s = {};  // where it is first met
};

/// Lowest first. Of the work, those felt at another place than `site` are not met on its curves.
std::vector<LimitMark> limitMarks(const Assessment& assessment, HeatView view, HeatSite site = HeatSite::Front);

/// Every curve as columns; those that were not followed are left out.
QString heatCsv(const HeatTrace& trace);
QString stillHandCsv(const StillHandHeat& still);
QString frameCsv(const FrameTrace& frame);

}  // namespace bw
