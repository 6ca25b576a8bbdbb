// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/recipe_page.h"

#include "ui/library/flow_row.h"
#include "ui/library/page_parts.h"
#include "ui/library/recipe_words.h"
#include "ui/plan/form.h"
#include "ui/recipes/photo_strip.h"
#include "ui/recipes/recipe_delegate.h"
#include "ui/style/elided_label.h"

#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

namespace bw {
namespace {

constexpr int mark_px = 18;
constexpr int twoColumnsFrom = 700;
constexpr int widest = 1240;  // wider lines are hard to read

}  // namespace

RecipePage::RecipePage(QWidget* parent)
    : QWidget(parent),
      m_shape(new QLabel),
      m_name(new ElidedLabel),
      m_state(new QLabel),
      m_head(nullptr),
      m_scroll(new QScrollArea),
      m_nothing(new QuietLabel) {
  setObjectName(QStringLiteral("recipePage"));
  setAutoFillBackground(true);
  setBackgroundRole(QPalette::Base);
  m_head = makeHead();
  m_scroll->setObjectName(QStringLiteral("recipeScroll"));
  m_scroll->setFrameShape(QFrame::NoFrame);
  m_scroll->setWidgetResizable(true);
  m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_scroll->setFocusPolicy(Qt::StrongFocus);
  m_scroll->setAccessibleName(tr("The chosen recipe"));
  m_nothing->setAlignment(Qt::AlignCenter);
  m_nothing->setWordWrap(true);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(m_head);
  column->addWidget(m_scroll, 1);
  column->addWidget(m_nothing, 1);
  showNothing(false);
}

QWidget* RecipePage::makeHead() {
  auto* head = new QWidget;
  QFont large = m_name->font();
  large.setPixelSize(space::answerFont);
  large.setBold(true);
  m_name->setFont(large);
  m_name->setObjectName(QStringLiteral("recipeName"));
  m_state->setObjectName(QStringLiteral("recipeState"));
  auto* line = new QHBoxLayout;
  line->setSpacing(space::medium);
  line->addWidget(m_name, 1);
  line->addWidget(m_shape);
  line->addWidget(m_state);
  auto* buttons = new FlowRow;
  buttons->add(makeAction("applyRecipe", tr("Apply to the open plan…"), Action::Apply));
  buttons->add(makeAction("carryOver", tr("Carry over to another machine…"), Action::CarryOver));
  buttons->add(makeAction("addTrial", tr("Add a trial…"), Action::Prove));
  buttons->add(makeAction("newVersion", tr("New version from this plan…"), Action::NewVersion));
  buttons->add(makeAction("withdraw", tr("Withdraw…"), Action::Withdraw));
  buttons->add(makeAction("takeBack", tr("Take the withdrawal back"), Action::TakeBack));
  buttons->add(makeAction("giveRecipe", tr("Give to others…"), Action::Give));
  m_actions.front().second->setProperty("primary", true);
  auto* column = new QVBoxLayout(head);
  column->setContentsMargins(space::wide, space::large, space::wide, space::medium);
  column->setSpacing(space::medium);
  column->addLayout(line);
  column->addWidget(buttons);
  return head;
}

QPushButton* RecipePage::makeAction(const char* objectName, const QString& text, Action action) {
  auto* button = new QPushButton(text);
  button->setObjectName(QLatin1String(objectName));
  connect(button, &QPushButton::clicked, this, [this, action] { emit actionChosen(action); });
  m_actions.emplace_back(action, button);
  return button;
}

void RecipePage::show(std::shared_ptr<const RecipeDetail> detail, const std::optional<FoundRecipe>& found) {
  const bool same = m_detail && detail && m_detail->recipe.id == detail->recipe.id;
  const int at = same ? m_scroll->verticalScrollBar()->value() : 0;
  m_detail = std::move(detail);
  m_head->show();
  m_scroll->show();
  m_nothing->hide();
  refreshHead();
  refreshActions();
  m_columns = nullptr;
  m_scroll->setWidget(makeBody(found));
  m_scroll->widget()->setAutoFillBackground(true);
  m_scroll->widget()->setBackgroundRole(QPalette::Base);
  arrange();
  m_scroll->verticalScrollBar()->setValue(at);
}

void RecipePage::showNothing(bool someListed) {
  m_detail.reset();
  m_columns = nullptr;
  delete m_scroll->takeWidget();
  m_head->hide();
  m_scroll->hide();
  m_nothing->setText(someListed ? tr("Choose a recipe in the list to read it.") : QString());
  m_nothing->show();
}

void RecipePage::setWritable(bool writable, const QString& why) {
  m_writable = writable;
  m_whyNot = why;
  refreshActions();
}

void RecipePage::refreshHead() {
  const Recipe& recipe = m_detail->recipe;
  const bool stale = recipe.state == RecipeState::Proven && m_detail->isNewest() && !m_detail->stale.empty();
  m_name->setText(QString::fromStdString(m_detail->shown.name));
  m_state->setText(words::state(recipe.state, stale));
  m_shape->setPixmap(recipeStatePixmap(recipe.state, stale, mark_px, palette(), devicePixelRatioF()));
}

void RecipePage::refreshActions() {
  const bool withdrawn = m_detail && m_detail->recipe.state == RecipeState::Withdrawn;
  const bool newest = m_detail && m_detail->isNewest();
  for (const auto& [action, button] : m_actions) {
    const bool writes = action != Action::Apply && action != Action::CarryOver && action != Action::Give;
    button->setEnabled(m_detail && (!writes || (m_writable && newest)));
    button->setToolTip(writes && !m_writable ? m_whyNot
                       : writes && !newest   ? tr("Only the newest version can be judged or go on.")
                                             : QString());
    if (action == Action::Withdraw) button->setVisible(!withdrawn);
    if (action == Action::TakeBack) button->setVisible(withdrawn);
  }
}

/// What has to be known before anything else: withdrawn, stale, not the newest.
QWidget* RecipePage::makeNotices() {
  auto* box = new QWidget;
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  const Recipe& recipe = m_detail->recipe;
  if (recipe.state == RecipeState::Withdrawn) {
    const QString reason = QString::fromStdString(recipe.reason);
    column->addWidget(parts::note({tr("Withdrawn: %1").arg(reason)}, Status::Fails, QStringLiteral("withdrawnReason")));
  }
  if (!m_detail->isNewest()) {
    column->addWidget(
        parts::note({tr("This is version %1; the newest is version %2.").arg(m_detail->shown.number).arg(recipe.version.number)},
                    Status::NotKnown, QStringLiteral("olderVersion")));
  }
  if (!m_detail->stale.empty()) {
    QStringList sentences{tr("The proof no longer speaks for it:")};
    for (const std::string& reason : m_detail->stale) sentences << QString::fromStdString(reason);
    column->addWidget(parts::note(sentences, Status::Near, QStringLiteral("staleReasons")));
  }
  if (column->count() > 0) return box;
  delete box;
  return nullptr;
}

QWidget* RecipePage::makeBody(const std::optional<FoundRecipe>& found) {
  auto* body = new QWidget;
  auto* column = new QVBoxLayout(body);
  column->setContentsMargins(space::wide, space::small, space::wide, space::wide);
  column->setSpacing(space::wide);
  if (QWidget* notices = makeNotices()) column->addWidget(notices);
  auto* columns = new QWidget;
  columns->setMaximumWidth(widest);
  m_columns = new QBoxLayout(QBoxLayout::LeftToRight, columns);
  m_columns->setContentsMargins(0, 0, 0, 0);
  m_columns->setSpacing(space::wide + space::large);
  const auto stack = [this](std::initializer_list<QWidget*> widgets) {
    auto* side = new QVBoxLayout;
    side->setSpacing(space::wide);
    for (QWidget* widget : widgets) {
      if (widget) side->addWidget(widget);
    }
    side->addStretch();
    m_columns->addLayout(side, 1);
  };
  QWidget* near = found && found->distance ? parts::nearness(*found) : nullptr;
  stack({near, parts::purpose(m_detail->shown), parts::coat(m_detail->shown), parts::settings(*m_detail)});
  stack({parts::predicted(m_detail->shown), parts::trials(m_detail->shown), makePhotos(), makeVersions()});
  column->addWidget(columns);
  column->addStretch();
  return body;
}

QWidget* RecipePage::makePhotos() {
  auto* add = new QPushButton(tr("Add photo…"));
  add->setObjectName(QStringLiteral("addPhoto"));
  add->setEnabled(m_writable && m_detail->isNewest());
  connect(add, &QPushButton::clicked, this, [this] { emit actionChosen(Action::AddPhoto); });
  if (m_detail->photos.empty()) return parts::section(tr("Photos"), parts::text(tr("None yet."), QPalette::PlaceholderText), add);
  auto* strip = new PhotoStrip(m_detail->photos);
  connect(strip, &PhotoStrip::opened, this, [this](const Photo& photo) { showLarge(photo, window()); });
  return parts::section(tr("Photos and files"), strip, add);
}

QWidget* RecipePage::makeVersions() {
  auto* box = new QWidget;
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::hair);
  for (const RecipeVersion& version : m_detail->versions) {
    QString text = tr("Version %1, %2").arg(version.number).arg(words::date(version.savedAt));
    if (!version.savedBy.empty()) text += tr(" by %1").arg(QString::fromStdString(version.savedBy));
    if (isJudged(version.proof)) text += tr(", with proof");
    auto* button = new QPushButton(text);
    button->setObjectName(QStringLiteral("version%1").arg(version.number));
    button->setProperty("boxed", true);
    button->setCheckable(true);
    const bool shown = version.number == m_detail->shown.number;
    button->setChecked(shown);
    if (shown) {
      QFont bold = button->font();
      bold.setBold(true);
      button->setFont(bold);
    }
    button->setAccessibleName(shown ? tr("%1, shown").arg(text) : text);
    connect(button, &QPushButton::clicked, this, [this, number = version.number] { emit versionChosen(number); });
    column->addWidget(button);
  }
  if (QWidget* changes = parts::changes(*m_detail)) column->addWidget(changes);
  return parts::section(tr("Versions"), box);
}

void RecipePage::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  arrange();
}

void RecipePage::arrange() {
  if (m_columns) m_columns->setDirection(width() >= twoColumnsFrom ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
}

}  // namespace bw
