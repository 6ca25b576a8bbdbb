// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/top_bar.h"

#include "core/start/typical_machines.h"
#include "ui/document/edits.h"
#include "ui/fields/chooser.h"
#include "ui/fields/icon.h"
#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QAction>
#include <QButtonGroup>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPainter>
#include <QToolButton>

#include <algorithm>

namespace bw {
namespace {

constexpr int barHeight = 48;
constexpr int longestPart = 240;            // px
// No machines' ids.
const std::string ownWord = "\x01own", newWord = "\x01new", shopWord = "\x01shop:";

/// A workspace as a word; the one that is shown is underlined.
class WorkspaceWord : public QAbstractButton {
 public:
  WorkspaceWord(const QString& word, const QString& question) {
    setText(word);
    setToolTip(question);
    setAccessibleName(word);
    setAccessibleDescription(question);
    setCheckable(true);
    setFocusPolicy(Qt::TabFocus);
    setCursor(Qt::PointingHandCursor);
    setFixedHeight(barHeight);
    QFont bold = font();
    bold.setBold(true);
    setFont(bold);
  }
  QSize sizeHint() const override { return {fontMetrics().horizontalAdvance(text()) + space::small, barHeight}; }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    const bool lit = isChecked() || underMouse() || hasFocus();
    painter.setPen(palette().color(lit ? QPalette::Text : QPalette::PlaceholderText));
    painter.drawText(rect(), Qt::AlignCenter, text());
    if (isChecked()) painter.fillRect(0, height() - space::small, width(), 3, palette().color(QPalette::Highlight));
    if (hasFocus()) {
      painter.setPen(palette().color(QPalette::Highlight));
      painter.drawRect(rect().adjusted(0, space::medium, -1, -space::medium));
    }
  }
};

QToolButton* makeActionButton(const char* objectName, QAction* action) {
  auto* button = new QToolButton;
  button->setObjectName(QLatin1String(objectName));
  button->setDefaultAction(action);
  button->setAutoRaise(true);
  button->setToolButtonStyle(Qt::ToolButtonIconOnly);
  button->setIconSize({20, 20});
  button->setFixedSize(32, 32);
  return button;
}

}  // namespace

TopBar::TopBar(ProjectDocument& document, Asker*& asker, QAction* undo, QAction* redo, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_asker(asker),
      m_partMenu(new QMenu(this)),
      m_part(makePart()),
      m_machine(makeMachine()),
      m_plan(makePlan()),
      m_workspaces(new QButtonGroup(this)),
      m_words(new QHBoxLayout) {
  setObjectName(QStringLiteral("topBar"));
  setFixedHeight(barHeight);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(space::large, 0, space::medium, 0);
  row->setSpacing(space::medium);
  row->addWidget(m_part);
  row->addSpacing(space::large);
  row->addWidget(new QuietLabel(tr("Machine")));
  row->addWidget(m_machine);
  row->addSpacing(space::large);
  row->addWidget(new QuietLabel(tr("Plan")));
  row->addWidget(m_plan);
  row->addWidget(makePlanMenu());
  row->addStretch();
  m_words->setSpacing(space::large);
  row->addLayout(m_words);
  connect(m_workspaces, &QButtonGroup::idClicked, this, &TopBar::workspaceChosen);
  row->addSpacing(space::large);
  row->addWidget(makeActionButton("undo", undo));
  row->addWidget(makeActionButton("redo", redo));
  connect(&m_document, &ProjectDocument::changed, this, &TopBar::refresh);
  refresh(Change::Everything);
}

void TopBar::addWorkspace(const QString& word, const QString& question) {
  auto* button = new WorkspaceWord(word, question);
  const int number = static_cast<int>(m_workspaces->buttons().size());
  button->setObjectName(QStringLiteral("workspace%1").arg(number));
  m_workspaces->addButton(button, number);
  m_words->addWidget(button);
}

void TopBar::showWorkspace(int workspace) {
  if (QAbstractButton* button = m_workspaces->button(workspace)) button->setChecked(true);
}

QToolButton* TopBar::makePart() {
  auto* button = new QToolButton;
  button->setObjectName(QStringLiteral("part"));
  button->setAutoRaise(true);
  button->setPopupMode(QToolButton::InstantPopup);
  QFont font = button->font();
  font.setBold(true);
  font.setPixelSize(space::headFont);
  button->setFont(font);
  m_partMenu->addAction(tr("Rename…"), this, &TopBar::renamePart);
  button->setMenu(m_partMenu);
  return button;
}

Chooser* TopBar::makeMachine() {
  auto* machine = new Chooser(tr("Machine"), tr("The laser this plan is for."));
  machine->setObjectName(QStringLiteral("machine"));
  machine->setMinimumContentsLength(18);
  machine->setMinimumWidth(120);  // where the window is small
  connect(machine, &Chooser::chosen, this, [this](const QString& id) { machineChosen(id.toStdString()); });
  return machine;
}

void TopBar::machineChosen(const std::string& entry) {
  if (entry == ownWord || entry == newWord) {
    offerMachines();  // the machine stays
    return entry == ownWord ? emit ownWanted() : emit newMachineWanted();
  }
  if (entry.starts_with(shopWord)) {
    if (const ShopMachine* card = inStock(entry.substr(shopWord.size()))) edits::takeMachine(m_document, *card);
    return;
  }
  if (findMachine(m_document.project(), entry)) return edits::chooseMachine(m_document, entry);
  for (const Machine& machine : typicalMachines()) {
    if (machine.id == entry) edits::addMachine(m_document, machine);
  }
}

void TopBar::chooseMachine(const std::string& id) { machineChosen(inStock(id) ? shopWord + id : id); }

const ShopMachine* TopBar::inStock(const std::string& id) const {
  const auto found = std::ranges::find(m_stock.machines, id, [](const ShopMachine& card) { return card.machine.id; });
  return found == m_stock.machines.end() ? nullptr : &*found;
}

void TopBar::setStock(const ShopStock& stock) {
  if (stock.machines == m_stock.machines) return;
  m_stock = stock;
  offerMachines();
}

/// The project's, the shop's, typical ones, and the way to one that is nowhere yet.
void TopBar::offerMachines() {
  const Project& project = m_document.project();
  m_machine->clear();
  for (const Machine& machine : project.machines) m_machine->add(QString::fromStdString(machine.id), QString::fromStdString(machine.name));
  m_machine->insertSeparator(m_machine->count());
  for (const ShopMachine& card : m_stock.machines) {
    if (copyOf(project, card)) continue;
    m_machine->add(QString::fromStdString(shopWord + card.machine.id), tr("My shop: %1").arg(QString::fromStdString(card.machine.name)),
                   tr("Copies this machine from “What I own” into the project."));
  }
  for (const Machine& machine : typicalMachines()) {
    if (findMachine(project, machine.id) || inStock(machine.id)) continue;
    m_machine->add(QString::fromStdString(machine.id), tr("Typical: %1").arg(QString::fromStdString(machine.name)),
                   tr("Adds a typical machine to the project."));
  }
  m_machine->insertSeparator(m_machine->count());
  m_machine->add(QString::fromStdString(ownWord), tr("What I own…"), tr("All machines of the shop with their cards, checks and limits."));
  m_machine->add(QString::fromStdString(newWord), tr("Add a machine…"), tr("Describe a machine of your own; it can then be chosen here."));
  if (const Machine* machine = m_document.machine()) m_machine->setId(QString::fromStdString(machine->id));
}

Chooser* TopBar::makePlan() {
  auto* plan = new Chooser(tr("Plan"), tr("One way to strip this part; duplicate a plan to try another."));
  plan->setObjectName(QStringLiteral("plan"));
  plan->setMinimumContentsLength(14);
  plan->setMinimumWidth(100);
  connect(plan, &Chooser::chosen, this, [this](const QString& id) { m_document.show({static_cast<std::size_t>(id.toULongLong()), 0}); });
  return plan;
}

QToolButton* TopBar::makePlanMenu() {
  auto* button = new QToolButton;
  button->setObjectName(QStringLiteral("planMenu"));
  button->setIcon(lineIcon(QStringLiteral("more")));
  button->setAutoRaise(true);
  button->setPopupMode(QToolButton::InstantPopup);
  button->setToolTip(tr("Duplicate, rename or delete this plan"));
  button->setAccessibleName(button->toolTip());
  auto* menu = new QMenu(button);
  menu->addAction(tr("Duplicate"), this, [this] { edits::duplicatePlan(m_document); })->setObjectName(QStringLiteral("duplicatePlan"));
  menu->addAction(tr("Rename…"), this, &TopBar::renamePlan)->setObjectName(QStringLiteral("renamePlan"));
  m_removePlan = menu->addAction(tr("Delete"), this, [this] { edits::removePlan(m_document); });
  m_removePlan->setObjectName(QStringLiteral("removePlan"));
  button->setMenu(menu);
  return button;
}

void TopBar::addPartActions(const QList<QAction*>& actions) {
  m_partMenu->addSeparator();
  m_partMenu->addActions(actions);
}

void TopBar::renamePart() {
  const auto name = m_asker->askText(tr("Rename the part"), tr("Name of the part:"), QString::fromStdString(m_document.project().name));
  if (name) edits::rename(m_document, name->toStdString());
}

void TopBar::renamePlan() {
  const std::string old = m_document.plan().name;
  const auto name = m_asker->askText(tr("Rename the plan"), tr("Name of the plan:"), QString::fromStdString(old));
  if (!name || name->toStdString() == old) return;
  if (findPlan(m_document.project(), name->toStdString())) {
    m_asker->tell(tr("The plan is not renamed"), tr("There is already a plan “%1”. Try another name.").arg(*name));
    return;
  }
  edits::renamePlan(m_document, name->toStdString());
}

/// A long name keeps its beginning and leaves the bar its room; the whole of it is in the tip.
void TopBar::showPart() {
  const std::string& name = m_document.project().name;
  const QString whole = name.empty() ? tr("Unnamed part") : QString::fromStdString(name);
  m_part->setText(m_part->fontMetrics().elidedText(whole, Qt::ElideRight, longestPart) + QStringLiteral(" ▾"));
  m_part->setToolTip(tr("%1: rename it, or open another.").arg(whole));
  m_part->setAccessibleName(whole);
}

void TopBar::refresh(Changes changes) {
  const Project& project = m_document.project();
  if (changes & Change::Name) showPart();
  if (!(changes & (Change::Machines | Change::Plans | Change::Shown))) return;
  offerMachines();
  m_plan->clear();
  for (std::size_t index = 0; index < project.plans.size(); ++index) {
    m_plan->add(QString::number(index), QString::fromStdString(project.plans[index].name));
  }
  m_plan->setId(QString::number(m_document.place().plan));
  m_removePlan->setEnabled(project.plans.size() > 1);
}

}  // namespace bw
