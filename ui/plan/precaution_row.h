// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/job/job_result.h"
#include "core/values/coat.h"

#include <QWidget>

class QCheckBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace bw {

/// One precaution: what it is, what to do, and either how to settle it or who did.
class PrecautionRow : public QWidget {
  Q_OBJECT
 public:
  explicit PrecautionRow(const Precaution& precaution, QWidget* parent = nullptr);

  const Precaution& precaution() const { return m_precaution; }
  /// Nothing can be settled without a name.
  void setNamed(bool named);
  /// What was typed for a stop: what was done, or why it may go on.
  QString reason() const;

 signals:
  void settled();
  void tested(bw::Presence found);
  void reopened();

 private:
  void addTest(class QHBoxLayout* row);
  void refresh();

  Precaution m_precaution;
  QCheckBox* m_tick;
  QLineEdit* m_reason = nullptr;
  std::vector<QPushButton*> m_found;
  bool m_named = false;
};

}  // namespace bw
