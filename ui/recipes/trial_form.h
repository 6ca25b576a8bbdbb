// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/plan.h"

#include <QWidget>

#include <vector>

class QCheckBox;
class QDateEdit;
class QLabel;
class QLineEdit;

namespace bw {

class QuantityField;

/// A trial that was made with a recipe's settings: when, where, what was seen and measured.
class TrialForm : public QWidget {
  Q_OBJECT
 public:
  explicit TrialForm(QWidget* parent = nullptr);

  /// Something was seen or measured.
  bool isFilled() const;
  Trial trial(const Settings& settings, const std::string& initials) const;

 signals:
  void changed();

 private:
  QDateEdit* m_date;
  QLineEdit* m_where;
  QLineEdit* m_note;
  std::vector<std::pair<Seen, QCheckBox*>> m_seen;
  std::vector<std::pair<const char*, QuantityField*>> m_readings;  // by their kind, whose unit is the field's
};

/// Which trials speak for a recipe, each to be taken or not, and room for one more.
class TrialChoice : public QWidget {
  Q_OBJECT
 public:
  explicit TrialChoice(const std::vector<Trial>& known, QWidget* parent = nullptr);

  std::vector<Trial> chosen(const Settings& settings, const std::string& initials) const;
  /// What is missing for a proof; empty: nothing.
  QString missing() const;

 signals:
  void changed();

 private:
  std::vector<std::pair<Trial, QCheckBox*>> m_known;
  TrialForm* m_form;
};

}  // namespace bw
