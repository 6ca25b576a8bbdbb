// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/own_page.h"

#include "ui/own/add_machine_page.h"
#include "ui/own/changes_page.h"
#include "ui/own/entry_editor.h"
#include "ui/own/machines_page.h"
#include "ui/own/materials_page.h"
#include "ui/own/setup_sheet.h"
#include "ui/own/shop_page.h"
#include "ui/style/theme.h"

#include <QDate>
#include <QPointer>
#include <QPushButton>
#include <QStackedWidget>
#include <QTabBar>
#include <QVBoxLayout>

#include <array>
#include <utility>

namespace bw {

OwnPage::OwnPage(Asker*& asker, OwnActions actions, QWidget* parent)
    : QWidget(parent),
      m_actions(std::move(actions)),
      m_tabs(new QTabBar),
      m_pages(new QStackedWidget),
      m_machines(new MachinesPage),
      m_editing(new QWidget),
      m_editor(new EntryEditor(asker, m_actions)),
      m_setup(new SetupSheet(asker, m_actions)),
      m_coatings(new MaterialsPage(EntryKind::Coating, asker, m_actions)),
      m_metals(new MaterialsPage(EntryKind::Substrate, asker, m_actions)),
      m_shop(new ShopPage(m_actions)),
      m_changes(new ChangesPage(asker, m_actions)),
      m_add(new AddMachinePage) {
  m_tabs->setObjectName(QStringLiteral("ownTabs"));
  m_tabs->setAccessibleName(tr("What I own"));
  m_tabs->setExpanding(false);
  m_tabs->setDrawBase(false);
  for (const QString& word : {tr("Machines"), tr("Coatings"), tr("Metals"), tr("My shop"), tr("What changed")}) m_tabs->addTab(word);
  auto* back = new QPushButton(tr("‹ Machines"));
  back->setObjectName(QStringLiteral("leaveMachine"));
  back->setAccessibleName(tr("Back to the machines"));
  auto* editing = new QVBoxLayout(m_editing);
  editing->setContentsMargins(0, 0, 0, 0);
  auto* use = new QPushButton(tr("Use in this plan"));
  use->setObjectName(QStringLiteral("useEdited"));
  use->setToolTip(tr("Copies the machine into the open project and chooses it."));
  auto* head = new QHBoxLayout;
  head->addWidget(back);
  head->addWidget(use);
  head->addStretch();
  editing->addLayout(head);
  editing->addWidget(m_editor, 1);
  for (QWidget* page : std::initializer_list<QWidget*>{m_machines, m_coatings, m_metals, m_shop, m_changes, m_editing, m_setup, m_add})
    m_pages->addWidget(page);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::large, space::small, space::large, space::large);
  column->addWidget(m_tabs);
  column->addWidget(m_pages, 1);
  connect(m_tabs, &QTabBar::currentChanged, this, &OwnPage::tabChosen);
  connect(back, &QPushButton::clicked, this, &OwnPage::backToMachines);
  connect(use, &QPushButton::clicked, this, [this] {
    const QString id = QString::fromStdString(m_editor->id());
    m_editor->leave([this, id] { emit machineWanted(id); });  // as it is saved
  });
  connect(m_setup, &SetupSheet::backWanted, this, &OwnPage::backToMachines);
  connect(m_setup, &SetupSheet::applied, this, [this] {
    m_open = nullptr;
    m_pages->setCurrentWidget(m_machines);
  });
  connect(m_machines, &MachinesPage::editWanted, this, [this](const QString& id) { editMachine(id.toStdString()); });
  connect(m_machines, &MachinesPage::setUpWanted, this, [this](const QString& id) { setUpMachine(id.toStdString()); });
  connect(m_machines, &MachinesPage::useWanted, this, &OwnPage::machineWanted);
  connect(m_machines, &MachinesPage::addWanted, this, &OwnPage::addMachine);
  connect(m_add, &AddMachinePage::made, this, &OwnPage::saveNew);
  connect(m_add, &AddMachinePage::cancelled, this, [this] {
    m_open = nullptr;
    m_pages->setCurrentWidget(m_machines);
  });
  connect(m_editor, &EntryEditor::wanted, this, [this](EntryKind, const QString& id) {
    if (id.toStdString() == m_editor->id()) return;
    m_wanted = id.toStdString();
    if (findRecord(m_things, EntryKind::Machine, m_wanted)) editMachine(std::exchange(m_wanted, {}));
  });
}

void OwnPage::setThings(const OwnedThings& things) {
  m_things = things;
  const QString date = today();
  m_machines->setThings(things, date.toStdString());
  m_coatings->setThings(things);
  m_metals->setThings(things);
  m_shop->setFacts(things.shop, things.readOnly);
  m_changes->setThings(things);
  m_add->setReadOnly(things.readOnly);
  m_setup->setToday(date);
  m_editor->setToday(date.toStdString());
  const auto count = things.changes.size();
  m_tabs->setTabText(Changed, count == 0 ? tr("What changed") : tr("What changed (%1)").arg(count));
  if (!m_wanted.empty() && findRecord(things, EntryKind::Machine, m_wanted)) return editMachine(std::exchange(m_wanted, {}));
  if (m_editor->id().empty()) return;
  const bool gone = !findRecord(things, EntryKind::Machine, m_editor->id());
  m_editor->open(things, EntryKind::Machine, m_editor->id());
  if (!gone || m_open != m_editing) return;
  m_open = nullptr;
  tabChosen(m_tabs->currentIndex());
}

void OwnPage::setToday(const QString& date) {
  m_today = date;
  setThings(m_things);
}

QString OwnPage::today() const { return m_today.isEmpty() ? QDate::currentDate().toString(Qt::ISODate) : m_today; }

void OwnPage::showTab(Tab tab) { m_tabs->setCurrentIndex(tab); }

/// Coatings and metals keep what is open; only what stands in the place of the machines has to be left.
void OwnPage::tabChosen(int tab) {
  const std::array<QWidget*, 5> pages{m_machines, m_coatings, m_metals, m_shop, m_changes};
  QWidget* page = pages[static_cast<std::size_t>(tab)];
  if (tab == Machines && m_open) page = m_open;
  m_pages->setCurrentWidget(page);
}

void OwnPage::editMachine(const std::string& id) {
  if (!findRecord(m_things, EntryKind::Machine, id)) return;
  const auto go = [this, id] {
    m_editor->open(m_things, EntryKind::Machine, id);
    m_open = m_editing;
    m_tabs->setCurrentIndex(Machines);
    m_pages->setCurrentWidget(m_editing);
  };
  if (id == m_editor->id()) return go();
  m_editor->leave(go);
}

void OwnPage::setUpMachine(const std::string& id) {
  const auto record = findRecord(m_things, EntryKind::Machine, id);
  if (!record) return;
  m_setup->open(*record, m_things.readOnly);
  m_open = m_setup;
  m_tabs->setCurrentIndex(Machines);
  m_pages->setCurrentWidget(m_setup);
}

void OwnPage::addMachine() {
  const auto go = [this] {
    m_add->reset();
    m_open = m_add;
    m_tabs->setCurrentIndex(Machines);
    m_pages->setCurrentWidget(m_add);
    m_add->setFocus();
  };
  if (m_open == m_setup)
    m_setup->leave(go);
  else
    m_editor->leave(go);
}

/// Its card opens once the library has it; the choosers have it then too.
void OwnPage::saveNew(const Machine& machine) {
  MachineCard card;
  card.machine = machine;
  const OwnEntry made = renamed(card, QString::fromStdString(machine.name));
  m_actions.save(made, 0, [self = QPointer(this), made](const QString& problem) {
    if (!self) return;
    self->m_add->say(problem);
    if (!problem.isEmpty()) return;
    self->m_wanted = idOf(made);
    if (findRecord(self->m_things, EntryKind::Machine, self->m_wanted)) self->editMachine(std::exchange(self->m_wanted, {}));
  });
}

void OwnPage::backToMachines() {
  const auto go = [this] {
    m_open = nullptr;
    m_pages->setCurrentWidget(m_machines);
  };
  if (m_open == m_setup)
    m_setup->leave(go);
  else
    m_editor->leave(go);
}

bool OwnPage::hasUnsaved() const {
  return m_editor->hasUnsaved() || m_coatings->editor()->hasUnsaved() || m_metals->editor()->hasUnsaved();
}

}  // namespace bw
