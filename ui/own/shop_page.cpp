// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/shop_page.h"

#include "ui/fields/problem_label.h"
#include "ui/plan/shop_form.h"
#include "ui/style/theme.h"

#include <QKeyEvent>
#include <QPointer>
#include <QToolButton>
#include <QUndoCommand>
#include <QVBoxLayout>

#include <utility>

namespace bw {
namespace {

constexpr int shopFormWidth = 420;
constexpr int saveAfter_ms = 400;

/// Undo and redo are the same swap, as in the project.
class ChangeShop : public QUndoCommand {
 public:
  using Show = std::function<void(const ShopFacts&)>;
  ChangeShop(const QString& text, ShopFacts before, ShopFacts after, bool step, Show show)
      : QUndoCommand(text), m_before(std::move(before)), m_after(std::move(after)), m_step(step), m_show(std::move(show)) {}
  void undo() override { m_show(m_before); }
  void redo() override { m_show(m_after); }
  int id() const override { return m_step ? 1 : -1; }
  bool mergeWith(const QUndoCommand* other) override {
    if (other->text() != text()) return false;
    m_after = static_cast<const ChangeShop*>(other)->m_after;
    setObsolete(m_after == m_before);
    return true;
  }

 private:
  ShopFacts m_before, m_after;
  bool m_step;
  Show m_show;
};

QToolButton* makeStackButton(QAction* action, const char* name) {
  auto* button = new QToolButton;
  button->setDefaultAction(action);
  button->setObjectName(QLatin1String(name));
  button->setToolButtonStyle(Qt::ToolButtonTextOnly);
  return button;
}

}  // namespace

ShopPage::ShopPage(const OwnActions& actions, QWidget* parent)
    : QScrollArea(parent),
      m_actions(actions),
      m_form(new ShopForm(ShopForm::Of::Shop)),
      m_standing(new QuietLabel),
      m_problem(new ProblemLabel) {
  setObjectName(QStringLiteral("shopPage"));
  setAccessibleName(tr("My shop"));
  setWidgetResizable(true);
  setFrameShape(QFrame::NoFrame);
  m_standing->setWordWrap(true);
  auto* buttons = new QHBoxLayout;
  buttons->addWidget(makeStackButton(m_stack.createUndoAction(this, tr("Undo")), "undoShop"));
  buttons->addWidget(makeStackButton(m_stack.createRedoAction(this, tr("Redo")), "redoShop"));
  buttons->addStretch();
  auto* sheet = new QWidget;
  sheet->setMaximumWidth(shopFormWidth);
  auto* column = new QVBoxLayout(sheet);
  column->setContentsMargins(0, space::medium, space::medium, space::large);
  column->setSpacing(space::medium);
  column->addWidget(m_standing);
  column->addWidget(m_problem);
  column->addLayout(buttons);
  column->addWidget(m_form);
  column->addStretch();
  setWidget(sheet);
  m_soon.setSingleShot(true);
  m_soon.setInterval(saveAfter_ms);
  connect(&m_soon, &QTimer::timeout, this, &ShopPage::save);
  connect(m_form, &ShopForm::edited, this, &ShopPage::changed);
  setFacts({}, false);
}

void ShopPage::setFacts(const ShopFacts& facts, bool readOnly) {
  m_form->setEnabled(!readOnly);
  m_standing->setText(readOnly ? tr("The library can only be read.")
                               : tr("How the shop usually is. New projects begin with it; each can be changed in its plan."));
  if (m_soon.isActive() || m_saving > 0 || facts == m_facts) return;  // what was changed here goes on to the library first
  m_facts = facts;
  m_stack.clear();
  m_form->setFacts(facts);
}

void ShopPage::changed(const ShopFacts& facts, const QString& text, EditKind kind) {
  if (facts == m_facts) return;
  m_stack.push(new ChangeShop(text, m_facts, facts, kind == EditKind::Step, [this](const ShopFacts& now) { put(now); }));
}

void ShopPage::put(const ShopFacts& facts) {
  m_facts = facts;
  m_form->setFacts(facts);
  m_soon.start();
}

void ShopPage::save() {
  m_soon.stop();
  ++m_saving;
  m_actions.saveShop(m_facts, [self = QPointer(this)](const QString& problem) {
    if (!self) return;
    --self->m_saving;
    self->m_problem->say(problem);
  });
}

void ShopPage::flush() {
  if (m_soon.isActive()) save();
}

/// Undo here is of the shop, not of the window's project.
bool ShopPage::event(QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride) {
    const auto* keys = static_cast<QKeyEvent*>(event);
    if (keys->matches(QKeySequence::Undo) || keys->matches(QKeySequence::Redo)) {
      event->accept();
      return true;
    }
  }
  return QScrollArea::event(event);
}

void ShopPage::keyPressEvent(QKeyEvent* event) {
  if (event->matches(QKeySequence::Undo)) return m_stack.undo();
  if (event->matches(QKeySequence::Redo)) return m_stack.redo();
  QScrollArea::keyPressEvent(event);
}

void ShopPage::hideEvent(QHideEvent* event) {
  flush();
  QScrollArea::hideEvent(event);
}

}  // namespace bw
