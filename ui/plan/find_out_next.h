// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QWidget>

#include <memory>
#include <vector>

class QLabel;
class QToolButton;
class QVBoxLayout;

namespace bw {

/// One thing that is not known well: what knowing it would do to the passes, and a bar for its share in their spread.
class InfluenceBar : public QWidget {
  Q_OBJECT

 public:
  InfluenceBar(const Influence& influence, const Ranges& ranges, QWidget* parent = nullptr);

  QString sentence() const { return m_sentence; }
  double share() const { return m_share; }
  QSize sizeHint() const override { return {200, heightForWidth(240)}; }
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QString m_sentence;
  double m_share;
};

/// "thickness of cream: 4 to 12 passes becomes 6 to 8 passes".
QString influenceWords(const Influence& influence, const Ranges& ranges);

/// The one thing to find out next; folded below it what else would help, and what affects the number of passes.
class FindOutNextBlock : public QWidget {
  Q_OBJECT

 public:
  explicit FindOutNextBlock(QWidget* parent = nullptr);

  /// While more is to come and this has no spread yet, what stands here stays, dimmed.
  void setAssessment(const std::shared_ptr<const Assessment>& assessment, bool moreToCome);
  const std::vector<InfluenceBar*>& bars() const { return m_bars; }
  QString state() const;  // said where there are no bars

 private:
  void rebuild(const Assessment& assessment, bool moreToCome);
  void addSuggestion(QVBoxLayout& column, const FindOutNext& next);
  void addInfluences(const Assessment& assessment, bool moreToCome);

  bool m_hasSpread = false;
  QVBoxLayout* m_first;  // what stands there always
  QToolButton* m_more;
  QWidget* m_fold;
  QVBoxLayout* m_folded;
  std::vector<InfluenceBar*> m_bars;
  QLabel* m_state = nullptr;
};

}  // namespace bw
