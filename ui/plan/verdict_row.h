// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QAbstractButton>
#include <QWidget>

class QGraphicsEffect;
class QLabel;
class QToolButton;
class QVBoxLayout;

namespace bw {

class DetailList;

/// A remedy as a button: what to do, and under it what it brings and costs.
class RemedyButton : public QAbstractButton {
  Q_OBJECT

 public:
  RemedyButton(const QString& label, const QString& effect, QWidget* parent = nullptr);
  QString effect() const { return m_effect; }
  QSize sizeHint() const override { return {200, heightForWidth(240)}; }
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;

 signals:
  void hovered(bool inside);  // by pointer or keyboard focus

 protected:
  void paintEvent(QPaintEvent* event) override;
  bool event(QEvent* event) override;

 private:
  QRect labelBox(int width) const;
  QRect effectBox(int width, int top) const;

  QString m_effect;
};

/// The head of a row: stripe, shape, question, state in a word. Pressing it folds or unfolds.
class RowHead : public QAbstractButton {
  Q_OBJECT

 public:
  explicit RowHead(QWidget* parent = nullptr);
  void setRow(const VerdictRow& row);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void checkStateSet() override;
  void nextCheckState() override;

 private:
  bool saysMore() const;

  Status m_status = Status::NotKnown;
};

/// One question of the verdict. Open, it shows the sentence and the best remedy; ranges, findings, the way to its working and other
/// remedies unfold below.
class VerdictRowView : public QWidget {
  Q_OBJECT

 public:
  explicit VerdictRowView(const std::string& check, QWidget* parent = nullptr);

  /// `sentence`: what of the row's message is said here.
  void setRow(const VerdictRow& row, const QString& sentence, const Working* working);
  DetailList* details() const { return m_details; }

  const std::string& check() const { return m_row.check; }
  bool isOpen() const;
  void setOpen(bool open);
  bool isUnfolded() const;
  void setUnfolded(bool unfolded);
  void setRemedies(const std::vector<RemedyButton*>& buttons);  // takes them over; replaces the words of the row's own remedy
  RowHead* head() const { return m_head; }
  /// Faint until the newest plan's answer is there, and says so to those who do not see it.
  void setPending(bool pending);
  bool isPending() const { return m_pending; }
  /// Framed, as the row that was gone to.
  void setMarked(bool marked);
  bool isMarked() const { return m_marked; }

 signals:
  void toggled(bool open);
  void unfolded(bool unfolded);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QWidget* buildFold();
  void showAdvice();
  void nameFold();

  VerdictRow m_row;
  RowHead* m_head;
  QWidget* m_body;
  QLabel* m_sentence;
  QLabel* m_advice;
  QVBoxLayout* m_remedies;
  QToolButton* m_more;
  QWidget* m_fold;
  QLabel* m_rest;  // of the sentences, after the first
  DetailList* m_details;
  QToolButton* m_how;
  QVBoxLayout* m_others;  // remedies but the best
  std::optional<Working> m_working;
  bool m_marked = false, m_pending = false;
};

/// An effect that draws a widget half as strong.
QGraphicsEffect* faint(QWidget* widget);

}  // namespace bw
