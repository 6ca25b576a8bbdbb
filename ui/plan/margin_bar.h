// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/project.h"

#include <QWidget>

#include <optional>

namespace bw {

/// One temperature limit and what is predicted under it, as it is drawn and told.
struct MarginLine {
  QString name;   // "paint behind, back"
  QString words;  // "135 to 175 °C, likely 150; limit 150 °C; met after 4.0 min; hand may stop 2.1 s"
  QString source;
  double start_C = 0;  // where the scale begins
  double predicted_C = 0;
  std::optional<Spread> spread = {};
  double limit_C = 0;
  double limitUpTo_C = 0;  // what some of it bears; not above limit_C: nothing known
  bool warnOnly = false;
};

/// Every limit of the assessment, those that count and the tightest first.
std::vector<MarginLine> marginsOf(const Assessment& assessment, const Project& project, bool moreToCome);

/// A bar of temperatures from the start to beyond the limit: a thin line for nine in ten such jobs, a tick where it is most likely, the
/// limit as a post, a lighter band as far as some bear, hatched beyond.
class MarginBar : public QWidget {
  Q_OBJECT

 public:
  explicit MarginBar(QWidget* parent = nullptr);

  void setLine(MarginLine line);
  const MarginLine& line() const { return m_line; }
  double xOf(double temperature_C) const;  // in pixels

  QSize sizeHint() const override;
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  double scaleEnd_C() const;
  int textHeight(int width) const;
  void paintLimit(QPainter& painter, double top, double bottom) const;
  void paintPredicted(QPainter& painter, double top, double bottom) const;

  MarginLine m_line;
};

}  // namespace bw
