// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/shop_stock.h"
#include "ui/recipes/recipe_dialogs.h"
#include "ui/recipes/recipe_page.h"
#include "ui/runner/assessment_runner.h"

#include <QWidget>

class QSplitter;
class QStackedWidget;
class QTabBar;

namespace bw {

class BundleFlow;
class CarryFlow;
class FindPanel;
class LibraryBand;
class LibraryFooter;
class OwnPage;

/// What worked before? Search and list left, the chosen recipe right; where the library lies below.
class RecipesWorkspace : public QWidget {
  Q_OBJECT
 public:
  struct Options {
    QString path;  // of the library; empty: as last chosen on this computer, else in the user's data folder
    LibraryOptions library;
    AssessmentRunner::Model model = shippedModel();  // for recipes on another machine and the invented examples
  };

  RecipesWorkspace(ProjectDocument& document, Options options, QWidget* parent = nullptr);

  void setAsker(Asker& asker);
  /// The newest assessment of the open plan; nothing while it is being reckoned.
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void keepPlan();
  /// Opens the library if there is one, for what the shop owns; making one waits until it is looked at.
  void openIfThere();
  /// Brings forward what the shop owns: machines, coatings, metals.
  void showOwn();
  void showNewMachine();
  void showShop();
  OwnPage* own() const { return m_own; }

  LibraryDesk& desk() { return *m_desk; }
  FindPanel* find() const { return m_find; }
  RecipePage* page() const { return m_page; }
  LibraryBand* band() const { return m_band; }
  BundleFlow* bundles() const { return m_bundles; }

 signals:
  void applied();  // a recipe, to the open plan
  /// What the shop's own library has; the examples' library is not the shop's.
  void stockChanged(const bw::ShopStock& stock);
  void machineWanted(const QString& id);  // for the open plan

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void build();
  void connectDesk();
  void connectPanels();
  void connectBand();
  void showPage(int page);
  void refreshOwn();
  void refreshStock();
  void openOwn(LibraryAccess access = LibraryAccess::ReadWrite);
  void openInvented();
  void useAnother();
  void move();
  void search();
  void searchMore(std::size_t from);
  void wantDetails();
  void loadPage(int version);
  void stateChanged();
  void act(RecipePage::Action action);
  QString ownPath() const;
  void remember(const QString& path);

  ProjectDocument& m_document;
  Options m_options;
  Asker* m_asker = nullptr;
  LibraryDesk* m_desk;
  RecipeDialogs* m_dialogs;
  BundleFlow* m_bundles;
  CarryFlow* m_carry;
  LibraryBand* m_band;
  FindPanel* m_find;
  RecipePage* m_page;
  LibraryFooter* m_footer;
  QSplitter* m_split;
  OwnPage* m_own;
  QTabBar* m_words;
  QStackedWidget* m_pages;
  QString m_path;  // of the own library, while another one is looked at
  bool m_opened = false;
  bool m_splitByHand = false;
};

}  // namespace bw
