// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plan/verdict_details.h"

#include <QWidget>

class QLabel;

namespace bw {

/// One finding: its words, with the colour of its layer before them.
class FactLine : public QWidget {
  Q_OBJECT

 public:
  explicit FactLine(QWidget* parent = nullptr);
  void setFact(const Fact& fact);
  QString text() const;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QLabel* m_words;
  QColor m_colour;
};

/// Limits, ranges and findings under a verdict row. What is already shown is changed in place, so that nothing jumps with a new result.
class DetailList : public QWidget {
  Q_OBJECT

 public:
  explicit DetailList(QWidget* parent = nullptr);
  /// While the spreads of a newer result are on their way (`wait`) what stands here stays, dimmed, if it has spreads.
  void set(const std::vector<MarginLine>& margins, const std::vector<RangeLine>& ranges, const std::vector<Fact>& facts, bool wait = false);
  const std::vector<MarginBar*>& margins() const { return m_margins; }
  const std::vector<RangeBar*>& bars() const { return m_bars; }
  const std::vector<FactLine*>& facts() const { return m_facts; }

 private:
  bool m_hasSpread = false;
  std::vector<MarginBar*> m_margins;
  std::vector<RangeBar*> m_bars;
  std::vector<FactLine*> m_facts;
};

}  // namespace bw
