// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/style/range_text.h"

#include <QWidget>

#include <optional>

namespace bw {

/// A number with its range, as it is drawn and told.
struct RangeLine {
  QString name;  // "Passes needed"
  QString tip;   // one sentence that explains the term
  format::Shown shown;
  std::optional<double> single;  // the single estimate
  std::optional<Spread> spread = {};
  std::optional<double> limit = {};
  QString limitWords = {};  // "4 planned"
  double most = 0;          // end of the scale; 0: what is drawn sets it
  double neverShare = 0;    // of the cases without end, where the number can have none
  bool moreToCome = false;  // the spread is on its way
};

/// "4 to 7 passes, likely 5; 4 planned"; without a spread the single estimate, and that it is one.
QString wordsOf(const RangeLine& line);

/// The range drawn: a thin line for nine in ten such jobs, a tick where it is most likely, the limit as a post, hatched beyond it.
class RangeBar : public QWidget {
  Q_OBJECT

 public:
  explicit RangeBar(QWidget* parent = nullptr);

  void setLine(RangeLine line);
  const RangeLine& line() const { return m_line; }
  double xOf(double value) const;  // in pixels

  QSize sizeHint() const override;
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  double scaleEnd() const;
  int textHeight(int width) const;
  void paintDrawing(QPainter& painter) const;

  RangeLine m_line;
};

}  // namespace bw
