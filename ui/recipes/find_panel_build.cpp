// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/find_panel.h"

#include "ui/fields/problem_label.h"
#include "ui/library/flow_row.h"
#include "ui/plan/form.h"
#include "ui/recipes/facet_button.h"
#include "ui/recipes/recipe_delegate.h"
#include "ui/recipes/recipe_list_model.h"
#include "ui/recipes/span_edit.h"
#include "ui/style/theme.h"

#include <QCheckBox>
#include <QGridLayout>
#include <QLineEdit>
#include <QListView>
#include <QPushButton>
#include <QStackedWidget>

namespace bw {

void FindPanel::build() {
  setAutoFillBackground(true);
  setBackgroundRole(QPalette::Base);
  m_search = new QLineEdit;
  m_search->setObjectName(QStringLiteral("recipeSearch"));
  m_search->setPlaceholderText(tr("Search name, note, material, machine, initials"));
  m_search->setAccessibleName(tr("Search the recipes"));
  m_search->setClearButtonEnabled(true);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, space::large, 0, 0);
  column->setSpacing(space::medium);
  auto* top = new QVBoxLayout;
  top->setContentsMargins(space::large, 0, space::large, 0);
  top->setSpacing(6);
  top->addWidget(m_search);
  m_facets = makeFacets();
  top->addWidget(m_facets);
  column->addLayout(top);
  m_pages = new QStackedWidget;
  m_pages->addWidget(makeList());
  m_pages->addWidget(makeEmpty());
  column->addWidget(m_pages, 1);
}

QWidget* FindPanel::makeFacets() {
  auto* box = new QWidget;
  auto* grid = new QGridLayout(box);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(space::medium);
  grid->setVerticalSpacing(6);
  const auto facet = [](const QString& name, const char* objectName, FacetButton::Choice choice) {
    auto* button = new FacetButton(name, choice);
    button->setObjectName(QLatin1String(objectName));
    return button;
  };
  m_metal = facet(tr("Metal"), "facetMetal", FacetButton::Choice::Several);
  m_coating = facet(tr("Coating"), "facetCoating", FacetButton::Choice::Several);
  m_machine = facet(tr("Machine"), "facetMachine", FacetButton::Choice::One);
  m_finish = facet(tr("Finish"), "facetFinish", FacetButton::Choice::One);
  m_coat = new SpanEdit(tr("Coat thickness"), tr("Of all layers together, such as 80..150 µm; empty: any."), quantities::filmThickness);
  m_coat->setObjectName(QStringLiteral("facetCoat"));
  m_coat->setPlaceholderText(tr("any"));
  m_plate = new SpanEdit(tr("Metal thickness"), tr("Such as 0.8..1.5 mm; empty: any."), quantities::length);
  m_plate->setObjectName(QStringLiteral("facetPlate"));
  m_plate->setPlaceholderText(tr("any"));
  m_problem = new ProblemLabel;
  const auto captioned = [](const QString& caption, SpanEdit* field) {
    auto* row = new QWidget;
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(space::small);
    line->addWidget(new QuietLabel(caption));
    line->addWidget(field, 1);
    return row;
  };
  m_proven = new QCheckBox(tr("Proven only"));
  m_proven->setObjectName(QStringLiteral("provenOnly"));
  m_nearest = new QCheckBox(tr("Nearest to this part and coat"));
  m_nearest->setObjectName(QStringLiteral("nearest"));
  m_nearest->setToolTip(tr("Lists what comes nearest to the open part, its coat and machine, and says what differs."));
  grid->addWidget(m_metal, 0, 0);
  grid->addWidget(m_coating, 0, 1);
  grid->addWidget(m_machine, 1, 0);
  grid->addWidget(m_finish, 1, 1);
  grid->addWidget(captioned(tr("Coat µm"), m_coat), 2, 0);
  grid->addWidget(captioned(tr("Metal mm"), m_plate), 2, 1);
  grid->addWidget(m_problem, 3, 0, 1, 2);
  auto* switches = new FlowRow;
  switches->add(m_proven);
  switches->add(m_nearest);
  grid->addWidget(switches, 4, 0, 1, 2);
  grid->setColumnStretch(0, 1);
  grid->setColumnStretch(1, 1);
  return box;
}

QWidget* FindPanel::makeList() {
  m_list = new QListView;
  m_list->setObjectName(QStringLiteral("recipeList"));
  m_list->setAccessibleName(tr("Recipes found"));
  m_list->setModel(m_model);
  m_list->setItemDelegate(new RecipeDelegate(m_list));
  m_list->setFrameShape(QFrame::NoFrame);
  m_list->setUniformItemSizes(true);
  m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_summary = new QuietLabel;
  m_summary->setObjectName(QStringLiteral("foundSummary"));
  m_clear = new QPushButton(tr("Show all"));
  m_clear->setObjectName(QStringLiteral("showAll"));
  m_clear->hide();
  auto* page = new QWidget;
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  auto* line = new QHBoxLayout;
  line->setContentsMargins(space::large, 0, space::large, 0);
  line->addWidget(m_summary, 1);
  line->addWidget(m_clear);
  column->addLayout(line);
  column->addWidget(m_list, 1);
  return page;
}

QWidget* FindPanel::makeEmpty() {
  m_emptyText = new QLabel;
  m_emptyText->setObjectName(QStringLiteral("emptyLibrary"));
  m_emptyText->setWordWrap(true);
  m_keep = new QPushButton(tr("Keep this plan as a recipe…"));
  m_keep->setObjectName(QStringLiteral("keepFirst"));
  m_keep->setProperty("primary", true);
  m_examples = new QPushButton(tr("Look at invented examples"));
  m_examples->setObjectName(QStringLiteral("examples"));
  m_unfilter = new QPushButton(tr("Show all recipes"));
  m_unfilter->setObjectName(QStringLiteral("unfilter"));
  auto* page = new QWidget;
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(space::large, space::large, space::large, space::large);
  column->setSpacing(space::medium);
  column->addWidget(m_emptyText);
  for (QPushButton* button : {m_keep, m_examples, m_unfilter}) column->addWidget(button, 0, Qt::AlignLeft);
  column->addStretch();
  return page;
}

}  // namespace bw
