// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/library/library_jobs.h"

#include <QWidget>

class QBoxLayout;
class QLabel;
class QPushButton;
class QScrollArea;

namespace bw {

class ElidedLabel;

/// One recipe to read, and what can be done with it.
class RecipePage : public QWidget {
  Q_OBJECT
 public:
  enum class Action { Apply, CarryOver, Prove, NewVersion, Withdraw, TakeBack, AddPhoto, Give };

  explicit RecipePage(QWidget* parent = nullptr);

  /// `found`: as it stands in the list, for what makes it near.
  void show(std::shared_ptr<const RecipeDetail> detail, const std::optional<FoundRecipe>& found);
  void showNothing(bool someListed);
  /// Writing actions are off where the library cannot be written, applying where there is nothing to apply to.
  void setWritable(bool writable, const QString& why);

  const std::shared_ptr<const RecipeDetail>& detail() const { return m_detail; }

 signals:
  void actionChosen(bw::RecipePage::Action action);
  void versionChosen(int number);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  QWidget* makeHead();
  QPushButton* makeAction(const char* objectName, const QString& text, Action action);
  void refreshHead();
  void refreshActions();
  QWidget* makeBody(const std::optional<FoundRecipe>& found);
  QWidget* makePhotos();
  QWidget* makeVersions();
  QWidget* makeNotices();
  void arrange();

  std::shared_ptr<const RecipeDetail> m_detail;
  QLabel* m_shape;
  ElidedLabel* m_name;
  QLabel* m_state;
  QWidget* m_head;
  std::vector<std::pair<Action, QPushButton*>> m_actions;
  QScrollArea* m_scroll;
  QBoxLayout* m_columns = nullptr;
  QLabel* m_nothing;
  bool m_writable = false;
  QString m_whyNot;
};

}  // namespace bw
