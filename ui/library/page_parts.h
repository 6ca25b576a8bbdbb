// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/library/library_jobs.h"
#include "ui/style/theme.h"

#include <QStringList>
#include <QWidget>

class QGridLayout;
class QLabel;

// The pieces a recipe's page is put together from; each makes one section or nothing.
namespace bw::parts {

/// Text that wraps and can be copied.
QLabel* text(const QString& words, QPalette::ColorRole role = QPalette::WindowText);
/// Sentences behind the edge stripe of a state.
QWidget* note(const QStringList& sentences, Status status, const QString& objectName);
/// A heading, and under it what belongs to it.
QWidget* section(const QString& title, QWidget* content, QWidget* right = nullptr);

/// Rows of columns as text, the first row quieter when it is a heading.
class Table : public QWidget {
  Q_OBJECT
 public:
  explicit Table(const QStringList& headings, QWidget* parent = nullptr);
  void add(const QStringList& cells);

 private:
  QGridLayout* m_grid;
  int m_rows = 0;
};

QWidget* purpose(const RecipeVersion& version);
QWidget* coat(const RecipeVersion& version);
/// With the cautions that belong to settings about to be dialled.
QWidget* settings(const RecipeDetail& detail);
QWidget* predicted(const RecipeVersion& version);
/// Nothing where there are no trials.
QWidget* trials(const RecipeVersion& version);
/// Nothing where the recipe was not found by nearness.
QWidget* nearness(const FoundRecipe& found);
QWidget* changes(const RecipeDetail& detail);

}  // namespace bw::parts
