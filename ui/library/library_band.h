// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "ui/library/library_desk.h"

#include <QWidget>

class QLabel;
class QPushButton;

namespace bw {

class ElidedLabel;

/// What is the matter with the library, in one sentence, and what can be done about it by one click. Hidden while nothing is.
class LibraryBand : public QWidget {
  Q_OBJECT
 public:
  explicit LibraryBand(QWidget* parent = nullptr);

  void say(const LibraryProblem& problem);
  /// Something worth knowing that is no trouble.
  void tell(const QString& sentence);
  /// In the examples' library.
  void tellInvented();
  void clear();

 signals:
  void restoreChosen(const QString& backup);
  void readOnlyChosen();
  void anotherChosen();
  void againChosen();
  void ownChosen();

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  void show(const QString& sentence, Status status, const QList<QPushButton*>& offered);

  QLabel* m_text;
  QPushButton* m_restore;
  QPushButton* m_readOnly;
  QPushButton* m_another;
  QPushButton* m_again;
  QPushButton* m_own;
  QPushButton* m_close;
  QString m_backup;
  Status m_status = Status::Fails;
};

/// Where the library lies, and what to do with that.
class LibraryFooter : public QWidget {
  Q_OBJECT
 public:
  explicit LibraryFooter(QWidget* parent = nullptr);
  void setState(const LibraryState& state);

 signals:
  void moveChosen();
  void anotherChosen();
  void keepChosen();
  void giveChosen();
  void bringInChosen();

 private:
  ElidedLabel* m_path;
  QPushButton* m_move;
  QPushButton* m_keep;
  QPushButton* m_give;
  QPushButton* m_bringIn;
};

}  // namespace bw
