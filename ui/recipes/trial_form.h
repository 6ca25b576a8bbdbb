// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/plan.h"
#include "ui/library/library_jobs.h"

#include <QWidget>

#include <vector>

class QCheckBox;
class QDateEdit;
class QLabel;
class QLineEdit;

namespace bw {

class ReadingList;

/// A trial that was made with a recipe's settings: when, where, what was seen and measured.
class TrialForm : public QWidget {
  Q_OBJECT
 public:
  explicit TrialForm(QWidget* parent = nullptr);

  /// Something was seen or measured.
  bool isFilled() const;
  Trial trial(const Settings& settings, const std::string& initials) const;
  /// Adds what a file says; `file`: it is to be kept.
  void take(const std::vector<Reading>& readings, const QString& fileName, const std::optional<KeptFile>& file);
  const std::vector<KeptFile>& files() const { return m_kept; }

 signals:
  void changed();
  void fileWanted();

 private:
  QDateEdit* m_date;
  QLineEdit* m_where;
  QLineEdit* m_note;
  std::vector<std::pair<Seen, QCheckBox*>> m_seen;
  ReadingList* m_readings;
  QLabel* m_files;
  QStringList m_told;
  std::vector<KeptFile> m_kept;
};

/// The trials there are, room for one more, and what becomes of the recipe with it.
class TrialChoice : public QWidget {
  Q_OBJECT
 public:
  explicit TrialChoice(const RecipeVersion& version, QWidget* parent = nullptr);

  /// Those that were known and the new one.
  std::vector<Trial> trials(const std::string& initials) const;
  /// Whether the recipe is proven by all of them.
  bool proves() const;
  /// What comes of it for the recipe.
  QString outcome() const;
  /// What is missing; empty: nothing.
  QString missing() const;
  TrialForm* form() const { return m_form; }

 signals:
  void changed();
  void fileWanted();

 private:
  RecipeVersion m_version;
  TrialForm* m_form;
};

}  // namespace bw
