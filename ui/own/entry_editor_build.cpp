// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/icon.h"
#include "ui/fields/problem_label.h"
#include "ui/own/entry_editor.h"
#include "ui/own/entry_view.h"
#include "ui/own/flow_layout.h"
#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>

namespace bw {

EntryEditor::EntryEditor(Asker*& asker, const OwnActions& actions, QWidget* parent)
    : QWidget(parent),
      m_asker(asker),
      m_actions(actions),
      m_title(new QLabel),
      m_standing(new QuietLabel),
      m_problem(new ProblemLabel),
      m_view(new EntryView(m_model)) {
  build();
  connect(&m_model, &EntryModel::changedAtAll, this, &EntryEditor::refresh);
  connect(m_view->selectionModel(), &QItemSelectionModel::currentChanged, this, &EntryEditor::refresh);
  refresh();
}

QPushButton* EntryEditor::button(const char* name, const QString& text, const QString& tip, void (EntryEditor::*slot)()) {
  auto* made = new QPushButton(text);
  made->setObjectName(QLatin1String(name));
  made->setToolTip(tip);
  connect(made, &QPushButton::clicked, this, slot);
  return made;
}

QToolButton* EntryEditor::tool(const char* name, const QString& icon, const QString& tip) {
  auto* made = new QToolButton;
  made->setObjectName(QLatin1String(name));
  made->setIcon(lineIcon(icon));
  made->setToolTip(tip);
  made->setAccessibleName(tip);
  return made;
}

void EntryEditor::build() {
  QFont bold = font();
  bold.setBold(true);
  bold.setPixelSize(space::headFont);
  m_title->setFont(bold);
  m_title->setWordWrap(true);
  m_title->setObjectName(QStringLiteral("entryTitle"));
  m_standing->setWordWrap(true);
  m_standing->setObjectName(QStringLiteral("entryStanding"));
  m_problem->setObjectName(QStringLiteral("entryProblem"));
  m_copy = button("makeOwnCopy", tr("Make my own copy"), tr("The copy can be changed and stands in the place of the shipped one."),
                  &EntryEditor::makeCopy);
  m_another = button("makeAnother", tr("One more like it…"), tr("A new entry beside this one, with the same values to begin with."),
                     &EntryEditor::makeAnother);
  m_save = button("saveEntry", tr("Save"), tr("Keeps the changes in the library (Ctrl+Return)."), &EntryEditor::save);
  m_save->setProperty("primary", true);
  m_discard = button("discardEntry", tr("Discard changes"), tr("Goes back to what was last saved."), &EntryEditor::discard);
  m_reset = button("resetEntry", tr("Reset to shipped…"), tr("Drops the own copy, after showing what is lost."), &EntryEditor::reset);
  m_newerButton = button("takeNewer", tr("Take the newer one"), tr("Shows what somebody else saved meanwhile; undo brings yours back."),
                         &EntryEditor::takeNewer);
  m_give = button("giveEntry", tr("Give to others…"), tr("Writes it as it is saved into a file for another library."), &EntryEditor::give);
  m_undo = tool("undoEntry", QStringLiteral("undo"), tr("Undo"));
  m_redo = tool("redoEntry", QStringLiteral("redo"), tr("Redo"));
  connect(m_undo, &QToolButton::clicked, &m_model.undoStack(), &QUndoStack::undo);
  connect(m_redo, &QToolButton::clicked, &m_model.undoStack(), &QUndoStack::redo);

  m_parts = new QWidget;
  auto* parts = new QHBoxLayout(m_parts);
  parts->setContentsMargins(0, 0, 0, 0);
  const std::pair<MachinePart, QString> kinds[] = {
      {MachinePart::Optic, tr("Optic")}, {MachinePart::Piece, tr("Tip or piece")}, {MachinePart::Check, tr("Check")}};
  for (const auto& [part, word] : kinds) {
    auto* add = tool(part == MachinePart::Optic   ? "addOptic"
                     : part == MachinePart::Piece ? "addPiece"
                                                  : "addCheck",
                     QStringLiteral("add"), tr("Add: %1").arg(word));
    add->setText(word);
    add->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    connect(add, &QToolButton::clicked, this, [this, part = part] {
      m_model.add(part, m_today);
      m_view->scrollToBottom();
    });
    parts->addWidget(add);
  }
  m_removePart = tool("removePart", QStringLiteral("remove"), tr("Remove the optic, piece or check of the chosen row"));
  connect(m_removePart, &QToolButton::clicked, this, &EntryEditor::removePart);
  parts->addWidget(m_removePart);

  auto* actions = new QWidget;
  auto* flow = new FlowLayout(actions);
  for (QWidget* widget :
       std::initializer_list<QWidget*>{m_copy, m_save, m_undo, m_redo, m_discard, m_newerButton, m_another, m_give, m_reset, m_parts})
    flow->addWidget(widget);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::medium);
  for (QWidget* widget : std::initializer_list<QWidget*>{m_title, m_standing, actions, m_problem}) column->addWidget(widget);
  column->addWidget(m_view, 1);
}

namespace {

enum class EditorKey { None, Undo, Redo, Save };

EditorKey keyOf(const QKeyEvent& event) {
  if (event.matches(QKeySequence::Undo)) return EditorKey::Undo;
  if (event.matches(QKeySequence::Redo)) return EditorKey::Redo;
  const bool enter = event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter;
  return enter && event.modifiers().testFlag(Qt::ControlModifier) ? EditorKey::Save : EditorKey::None;
}

}  // namespace

/// Undo inside the editor is of the entry, not of the window's project.
bool EntryEditor::event(QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride && keyOf(*static_cast<QKeyEvent*>(event)) != EditorKey::None) {
    event->accept();
    return true;
  }
  return QWidget::event(event);
}

void EntryEditor::keyPressEvent(QKeyEvent* event) {
  switch (keyOf(*event)) {
    case EditorKey::Undo:
      return m_model.undoStack().undo();
    case EditorKey::Redo:
      return m_model.undoStack().redo();
    case EditorKey::Save:
      return save();
    case EditorKey::None:
      break;
  }
  QWidget::keyPressEvent(event);
}

void EntryEditor::refresh() {
  const bool open = !m_id.empty(), writes = open && !m_model.isReadOnly();
  const bool changed = m_model.isChanged() || m_ownBegun, shipped = m_record.origin == EntryOrigin::Shipped;
  m_title->setText(open ? nameOf(m_model.entry()) : QString());
  m_standing->setText(m_saving  ? tr("Saving…")
                      : m_newer ? tr("Somebody else saved this entry meanwhile. Saving over it is refused until you have seen theirs.")
                      : m_model.problemCount() > 0 ? tr("Cannot be saved yet: %1").arg(waiting())
                                                   : standing());
  m_copy->setVisible(open && shipped && !m_ownBegun);
  m_copy->setEnabled(!m_things.readOnly);
  m_save->setVisible(writes);
  m_save->setEnabled(changed && m_model.problemCount() == 0 && !m_saving && !m_newer);
  m_discard->setVisible(writes);
  m_discard->setEnabled(changed && !m_saving);
  m_reset->setVisible(open && !shipped);
  m_reset->setEnabled(!m_things.readOnly && !m_saving);
  m_reset->setText(m_record.origin == EntryOrigin::Own ? tr("Delete…") : tr("Reset to shipped…"));
  m_newerButton->setVisible(m_newer.has_value());
  m_another->setVisible(open && !m_ownBegun);
  m_another->setEnabled(!m_things.readOnly);
  m_give->setVisible(open && !shipped && m_actions.give);  // what is shipped is everywhere already
  for (QToolButton* tool : {m_undo, m_redo}) tool->setVisible(writes);
  QUndoStack& stack = m_model.undoStack();
  m_undo->setEnabled(stack.canUndo());
  m_redo->setEnabled(stack.canRedo());
  m_undo->setToolTip(stack.canUndo() ? tr("Undo: %1").arg(stack.undoText()) : tr("Undo"));
  m_redo->setToolTip(stack.canRedo() ? tr("Redo: %1").arg(stack.redoText()) : tr("Redo"));
  m_parts->setVisible(writes && m_model.isMachine());
  m_removePart->setEnabled(m_model.isPart(m_view->currentIndex().row()));
  m_view->setVisible(open);
}

}  // namespace bw
