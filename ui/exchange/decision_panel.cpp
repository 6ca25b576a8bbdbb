// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/decision_panel.h"

#include "ui/exchange/exchange_words.h"
#include "ui/exchange/sides_model.h"
#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QButtonGroup>
#include <QHeaderView>
#include <QLabel>
#include <QPainter>
#include <QRadioButton>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QVBoxLayout>

namespace bw {
namespace {

constexpr int placeWidth = 150;

/// What an entry that is no conflict offers: as is plain, or not at all.
bool offers(const ImportLine& line, ImportDecision decision) {
  if (line.status == ImportStatus::Identical) return false;
  if (line.status == ImportStatus::Conflict) return decision != ImportDecision::Open;
  return decision == ImportDecision::Open || decision == ImportDecision::Mine;
}

QString wordOf(const ImportLine& line, ImportDecision decision) {
  switch (decision) {
    case ImportDecision::Open:
      return line.status == ImportStatus::Continues ? DecisionPanel::tr("&Add the versions") : DecisionPanel::tr("Br&ing it in");
    case ImportDecision::Mine:
      return line.status == ImportStatus::Conflict ? DecisionPanel::tr("&Keep mine") : DecisionPanel::tr("&Leave it out");
    case ImportDecision::Theirs:
      return DecisionPanel::tr("&Take theirs");
    case ImportDecision::Both:
      break;
  }
  return DecisionPanel::tr("Keep &both");
}

/// Lets the rows stand apart.
class RoomyDelegate : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    return QStyledItemDelegate::sizeHint(option, index) + QSize(0, 2 * space::small);
  }
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    QStyleOptionViewItem cell = option;
    if (cell.state & QStyle::State_Selected) painter->fillRect(option.rect, option.palette.color(QPalette::AlternateBase));
    cell.state &= ~(QStyle::State_HasFocus | QStyle::State_Selected);
    cell.rect.adjust(0, space::small, 0, -space::small);
    QStyledItemDelegate::paint(painter, cell, index);
  }
};

}  // namespace

DecisionPanel::DecisionPanel(QWidget* parent)
    : QWidget(parent), m_sides(new SidesModel(this)), m_name(new QLabel), m_standing(new QuietLabel), m_group(new QButtonGroup(this)) {
  QFont bold = m_name->font();
  bold.setBold(true);
  bold.setPixelSize(space::headFont);
  m_name->setFont(bold);
  m_name->setObjectName(QStringLiteral("importEntryName"));
  m_name->setTextFormat(Qt::PlainText);
  m_name->setWordWrap(true);
  m_standing->setObjectName(QStringLiteral("importStanding"));
  m_standing->setWordWrap(true);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::large, 0, 0, 0);
  column->setSpacing(space::medium);
  column->addWidget(m_name);
  column->addWidget(m_standing);
  column->addWidget(m_table = makeTable(), 1);
  column->addWidget(m_choices = makeChoices());
  showLine(nullptr, ImportDecision::Open);
}

QTableView* DecisionPanel::makeTable() {
  auto* table = new QTableView;
  table->setObjectName(QStringLiteral("importSides"));
  table->setAccessibleName(tr("Yours and theirs"));
  table->setModel(m_sides);
  table->setItemDelegate(new RoomyDelegate(table));
  table->setWordWrap(true);
  table->setShowGrid(false);
  table->setTabKeyNavigation(false);
  table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table->setSelectionBehavior(QAbstractItemView::SelectRows);
  table->setSelectionMode(QAbstractItemView::SingleSelection);
  table->setTextElideMode(Qt::ElideNone);
  table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  table->verticalHeader()->hide();
  table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  table->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  table->horizontalHeader()->setSectionResizeMode(SidesModel::Place, QHeaderView::Interactive);
  table->horizontalHeader()->resizeSection(SidesModel::Place, placeWidth);
  table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  connect(table->horizontalHeader(), &QHeaderView::sectionResized, table, [table] { table->resizeRowsToContents(); });
  return table;
}

QWidget* DecisionPanel::makeChoices() {
  auto* box = new QWidget;
  auto* grid = new QGridLayout(box);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(space::large);
  grid->setVerticalSpacing(space::small);
  grid->setColumnStretch(1, 1);
  const std::pair<ImportDecision, const char*> made[] = {{ImportDecision::Open, "decidePlain"},
                                                         {ImportDecision::Mine, "decideMine"},
                                                         {ImportDecision::Theirs, "decideTheirs"},
                                                         {ImportDecision::Both, "decideBoth"}};
  for (std::size_t i = 0; i < m_all.size(); ++i) {
    Choice& choice = m_all[i];
    choice = {made[i].first, new QRadioButton, new QuietLabel};
    choice.button->setObjectName(QLatin1String(made[i].second));
    choice.effect->setWordWrap(true);
    choice.effect->setTextFormat(Qt::PlainText);  // a stranger's name stands in it
    m_group->addButton(choice.button);
    grid->addWidget(choice.button, static_cast<int>(i), 0, Qt::AlignTop);
    grid->addWidget(choice.effect, static_cast<int>(i), 1, Qt::AlignTop);
    connect(choice.button, &QRadioButton::clicked, this, [this, decision = choice.decision] { emit chosen(decision); });
  }
  return box;
}

void DecisionPanel::showLine(const ImportLine* line, ImportDecision decision) {
  m_sides->setLine(line);
  m_table->setVisible(line != nullptr);
  m_choices->setVisible(line && line->status != ImportStatus::Identical);
  m_name->setText(line ? words::oneLine(line->name.empty() ? line->id : line->name) : QString());
  m_standing->setText(line ? words::standing(*line) : tr("Choose an entry to see yours and theirs beside each other."));
  if (line) showChoices(*line, decision);
}

void DecisionPanel::showChoices(const ImportLine& line, ImportDecision decision) {
  m_group->setExclusive(false);  // or one of them would stay chosen
  for (const Choice& choice : m_all) {
    const bool offered = offers(line, choice.decision);
    choice.button->setVisible(offered);
    choice.effect->setVisible(offered);
    choice.button->setChecked(offered && choice.decision == decision);
    if (!offered) continue;
    choice.button->setText(wordOf(line, choice.decision));
    choice.effect->setText(words::effect(line, choice.decision));
    choice.button->setAccessibleDescription(choice.effect->text());
  }
  m_group->setExclusive(true);
}

}  // namespace bw
