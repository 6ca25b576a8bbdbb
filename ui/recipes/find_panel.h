// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"
#include "ui/library/library_jobs.h"

#include <QWidget>

class QCheckBox;
class QLabel;
class QLineEdit;
class QListView;
class QPushButton;
class QStackedWidget;

namespace bw {

class FacetButton;
class ProblemLabel;
class RecipeListModel;
class SpanEdit;
struct LibraryState;

/// What is looked for, and what was found. Says what it wants; whoever asks the library brings what was found.
class FindPanel : public QWidget {
  Q_OBJECT
 public:
  explicit FindPanel(ProjectDocument& document, QWidget* parent = nullptr);

  WantedRecipes wanted() const;
  void setLibrary(const LibraryState& state);
  void show(const FoundRecipes& found);
  void addDetails(const std::map<std::string, RowDetail>& details);
  std::vector<std::string> withoutDetails() const;

  /// Shows that recipe as chosen, once it is in the list.
  void choose(const QString& id);
  QString chosen() const { return m_chosen; }
  std::optional<FoundRecipe> chosenFound() const;
  bool isNearest() const;
  bool narrowed() const;  // by words or facets
  void focusSearch();
  QWidget* searchField() const;
  void reset();  // no words, no facets

  RecipeListModel* model() const { return m_model; }
  QListView* list() const { return m_list; }

 signals:
  void wantedChanged();
  void moreWanted(std::size_t from);
  void chosenChanged();
  void keepWanted();
  void examplesWanted();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void build();
  QWidget* makeFacets();
  QWidget* makeList();
  QWidget* makeEmpty();
  void connectAll();
  void showCounts(const RecipeFacets& facets);
  void showSummary(const FoundRecipes& found);
  void nearestToggled(bool on);
  void currentChanged();
  void enableFacets();

  ProjectDocument& m_document;
  RecipeListModel* m_model;
  QLineEdit* m_search;
  QWidget* m_facets;
  FacetButton* m_metal;
  FacetButton* m_coating;
  FacetButton* m_machine;
  FacetButton* m_finish;
  SpanEdit* m_coat;
  SpanEdit* m_plate;
  ProblemLabel* m_problem;
  QCheckBox* m_proven;
  QCheckBox* m_nearest;
  QLabel* m_summary;
  QPushButton* m_clear;
  QListView* m_list;
  QStackedWidget* m_pages;
  QLabel* m_emptyText;
  QPushButton* m_keep;
  QPushButton* m_examples;
  QPushButton* m_unfilter;
  QString m_chosen;
  std::shared_ptr<const Library> m_materials;
  std::size_t m_recipes = 0;
  bool m_open = false;
  bool m_mayKeep = false;
  bool m_invented = false;
  bool m_filling = false;
};

}  // namespace bw
