// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/carry/carry_dialog.h"

#include "ui/carry/carry_lines.h"
#include "ui/carry/carry_page.h"
#include "ui/library/page_parts.h"
#include "ui/plan/form.h"
#include "ui/style/format.h"

#include <QHBoxLayout>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace bw {
namespace {

constexpr QSize wanted(1120, 860);
constexpr int listWidth = 250;

QString originWord(EntryOrigin origin) {
  return origin == EntryOrigin::Shipped ? CarryDialog::tr("comes with the program") : CarryDialog::tr("the shop's own");
}

}  // namespace

CarryDialog::CarryDialog(const RecipeVersion& version, const Machines& machines, const std::string& preferred,
                         AssessmentRunner::Model model, QWidget* parent)
    : QDialog(parent),
      m_work(new CarryWork(version, std::move(model), this)),
      m_page(new CarryPage(*m_work)),
      m_list(new QListWidget),
      m_scroll(new QScrollArea),
      m_said(new QuietLabel) {
  setObjectName(QStringLiteral("carryDialog"));
  setAttribute(Qt::WA_DeleteOnClose);
  setWindowTitle(tr("Carry over to another machine"));
  resize(wanted.boundedTo(parent->window()->size() - QSize(40, 40)));
  m_scroll->setWidget(m_page);
  m_scroll->setWidgetResizable(true);
  m_scroll->setFrameShape(QFrame::NoFrame);
  m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_scroll->setObjectName(QStringLiteral("carryScroll"));
  m_scroll->setAccessibleName(tr("The recipe on the chosen machine"));
  auto* middle = new QHBoxLayout;
  middle->setSpacing(0);
  middle->addWidget(makeList(machines, preferred));
  middle->addWidget(m_scroll, 1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::wide, space::wide, space::wide, space::large);
  column->setSpacing(space::large);
  column->addWidget(
      parts::text(tr("“%1” on another machine: pulse, fluence, overlaps and dose stay as near as it can; what cannot is said.")
                      .arg(QString::fromStdString(version.name))));
  column->addLayout(middle, 1);
  column->addWidget(makeButtons());
  connect(m_work, &CarryWork::carried, this, &CarryDialog::refresh);
  connect(m_work, &CarryWork::forecast, m_page, &CarryPage::showForecast);
  connect(m_list, &QListWidget::currentRowChanged, this, &CarryDialog::choose);
  refresh();
  choose(m_list->currentRow());
  m_list->setFocus();
}

QWidget* CarryDialog::makeList(const Machines& machines, const std::string& preferred) {
  const Machine* own = mainMachine(m_work->before());
  m_list->setObjectName(QStringLiteral("carryMachines"));
  m_list->setAccessibleName(tr("Machine to carry it over to"));
  m_list->setFixedWidth(listWidth);
  m_list->setWordWrap(true);
  m_list->setSpacing(space::hair);
  m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  Machines offered = machines;
  std::ranges::stable_partition(offered, [](const auto& entry) { return entry.origin != EntryOrigin::Shipped; });
  for (const auto& entry : offered) {
    const Machine& machine = entry.value.machine;
    if (own && machine.id == own->id) continue;
    m_machines.push_back(machine);
    m_list->addItem(
        QStringLiteral("%1\n%2\n%3").arg(QString::fromStdString(machine.name), machineFacts(machine), originWord(entry.origin)));
    if (machine.id == preferred) m_list->setCurrentRow(m_list->count() - 1);
  }
  if (m_list->currentRow() < 0) m_list->setCurrentRow(0);
  if (!m_machines.empty()) return m_list;
  m_list->hide();
  return parts::text(tr("There is no other machine. Describe one under “What I own”, and the recipe can be carried over to it."));
}

QWidget* CarryDialog::makeButtons() {
  auto* row = new QWidget;
  auto* line = new QHBoxLayout(row);
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(space::medium);
  const auto button = [&](const char* name, const QString& text) {
    auto* made = new QPushButton(text);
    made->setObjectName(QLatin1String(name));
    made->setAutoDefault(false);
    return made;
  };
  auto* close = button("carryClose", tr("Close"));
  m_apply = button("carryApply", tr("Apply to the open plan…"));
  m_keep = button("carryKeep", tr("Keep as a new recipe…"));
  m_keep->setProperty("primary", true);
  m_said->setObjectName(QStringLiteral("carrySaid"));
  m_said->setWordWrap(true);
  line->addWidget(m_said, 1);
  for (QPushButton* one : {close, m_apply, m_keep}) line->addWidget(one);
  connect(close, &QPushButton::clicked, this, &QDialog::reject);
  connect(m_apply, &QPushButton::clicked, this, &CarryDialog::applyChosen);
  connect(m_keep, &QPushButton::clicked, this, &CarryDialog::keepChosen);
  return row;
}

void CarryDialog::choose(int row) {
  if (row < 0 || row >= static_cast<int>(m_machines.size())) return;
  say({});
  m_work->carryTo(m_machines[static_cast<std::size_t>(row)]);
}

void CarryDialog::refresh() {
  const bool there = m_work->after() != nullptr;
  m_apply->setEnabled(there);
  m_keep->setEnabled(there && m_writable);
  m_page->showCarried();
}

void CarryDialog::setWritable(bool writable, const QString& why) {
  m_writable = writable;
  m_keep->setToolTip(writable ? QString() : why);
  refresh();
}

void CarryDialog::say(const QString& sentence) { m_said->setText(sentence); }

}  // namespace bw
