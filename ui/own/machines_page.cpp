// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/machines_page.h"

#include "ui/fields/quantity_field.h"
#include "ui/own/flow_layout.h"
#include "ui/own/machine_card_view.h"
#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QPushButton>
#include <QSettings>
#include <QVBoxLayout>

#include <algorithm>

namespace bw {
namespace {

constexpr double second_per_hour = 3600;
constexpr double mostDays = 3650;
constexpr double mostHours = 10000;

const Quantity days{{{QStringLiteral("days"), 1.0}}, 4};
const Quantity hours{{{QStringLiteral("h"), second_per_hour}}, 4};

}  // namespace

MachinesPage::MachinesPage(QWidget* parent) : QScrollArea(parent) {
  setWidgetResizable(true);
  setFrameShape(QFrame::NoFrame);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setAccessibleName(tr("Machines of the shop"));
  const QSettings settings;
  m_habit.checkEvery_days =
      std::clamp(settings.value(QStringLiteral("upkeep/checkEvery_days"), m_habit.checkEvery_days).toInt(), 1, static_cast<int>(mostDays));
  m_habit.glassLasts_s = std::clamp(settings.value(QStringLiteral("upkeep/glassLasts_s"), m_habit.glassLasts_s).toDouble(), second_per_hour,
                                    mostHours * second_per_hour);
  auto* content = new QWidget;
  m_column = new QVBoxLayout(content);
  m_column->setContentsMargins(0, 0, space::medium, space::medium);
  m_column->setSpacing(space::large);
  m_column->addWidget(makeHabit());
  m_column->addStretch();
  setWidget(content);
}

QWidget* MachinesPage::makeHabit() {
  m_days = new QuantityField({tr("Days between checks"), tr("After so many days a machine is due for a check of delivered power and spot."),
                              days, 1, mostDays, 1, false, false, true});
  m_hours = new QuantityField({tr("Hours on a cover glass"), tr("After so many hours of beam the cover glass is due for a look."), hours,
                               second_per_hour, mostHours * second_per_hour, 10 * second_per_hour});
  m_days->setObjectName(QStringLiteral("checkEvery"));
  m_hours->setObjectName(QStringLiteral("glassLasts"));
  for (QuantityField* field : {m_days, m_hours}) field->setFixedWidth(120);
  m_days->setValue(m_habit.checkEvery_days);
  m_hours->setValue(m_habit.glassLasts_s);
  connect(m_days, &QuantityField::edited, this, [this](const Range& value) {
    m_habit.checkEvery_days = static_cast<int>(value.likely);
    QSettings().setValue(QStringLiteral("upkeep/checkEvery_days"), m_habit.checkEvery_days);
    refresh();
  });
  connect(m_hours, &QuantityField::edited, this, [this](const Range& value) {
    m_habit.glassLasts_s = value.likely;
    QSettings().setValue(QStringLiteral("upkeep/glassLasts_s"), m_habit.glassLasts_s);
    refresh();
  });
  auto* add = new QPushButton(tr("Add a machine…"));
  add->setObjectName(QStringLiteral("addMachine"));
  connect(add, &QPushButton::clicked, this, &MachinesPage::addWanted);
  auto* row = new QWidget;
  auto* flow = new FlowLayout(row);
  for (QWidget* widget :
       std::initializer_list<QWidget*>{add, new QLabel(tr("Check every")), m_days, new QLabel(tr("Look at the cover glass after")), m_hours,
                                       new QuietLabel(tr("Common practice, no source; set your own."))})
    flow->addWidget(widget);
  return row;
}

void MachinesPage::setThings(const OwnedThings& things, const std::string& today) {
  m_machines = things.machines;
  // One's own first: they are what the page is about.
  std::ranges::stable_sort(m_machines, {}, [](const auto& entry) { return entry.origin == EntryOrigin::Shipped; });
  m_today = today;
  refresh();
}

void MachinesPage::refresh() {
  while (m_cards.size() > m_machines.size()) {
    m_cards.back()->deleteLater();
    m_cards.pop_back();
  }
  while (m_cards.size() < m_machines.size()) {
    auto* card = new MachineCardView;
    connect(card, &MachineCardView::editWanted, this, [this, card] { emit editWanted(QString::fromStdString(card->id())); });
    connect(card, &MachineCardView::setUpWanted, this, [this, card] { emit setUpWanted(QString::fromStdString(card->id())); });
    connect(card, &MachineCardView::useWanted, this, [this, card] { emit useWanted(QString::fromStdString(card->id())); });
    m_column->insertWidget(1 + static_cast<int>(m_cards.size()), card);
    m_cards.push_back(card);
  }
  for (std::size_t i = 0; i < m_cards.size(); ++i) m_cards[i]->setEntry(m_machines[i], m_today, m_habit);
}

MachineCardView* MachinesPage::card(const std::string& id) const {
  const auto found = std::ranges::find(m_cards, id, &MachineCardView::id);
  return found == m_cards.end() ? nullptr : *found;
}

}  // namespace bw
