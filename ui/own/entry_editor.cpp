// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/entry_editor.h"

#include "ui/fields/problem_label.h"
#include "ui/own/entry_view.h"

#include <QLabel>
#include <QPointer>
#include <QPushButton>
#include <QToolButton>

#include <utility>

namespace bw {

void EntryEditor::open(const OwnedThings& things, EntryKind kind, const std::string& id) {
  const bool same = kind == m_kind && id == m_id;
  m_things = things;
  const auto found = findRecord(things, kind, id);
  if (!found) {
    m_id.clear();
    m_newer.reset();
    return refresh();
  }
  m_kind = kind;
  m_id = id;
  const bool ours = same && found->entry == m_model.entry();  // what is open was saved
  if (same && !ours && (m_model.isChanged() || m_ownBegun)) {
    if (found->revision == m_record.revision)
      m_newer.reset();
    else
      m_newer = found;
    return refresh();
  }
  const bool readOnly = things.readOnly || found->origin == EntryOrigin::Shipped;
  const bool reopen = !ours || (!m_ownBegun && readOnly != m_model.isReadOnly());
  m_record = *found;
  m_newer.reset();
  if (reopen) {
    m_ownBegun = false;
    m_problem->say({});
    m_model.open(m_record.entry, readOnly);
  }
  refresh();
}

void EntryEditor::leave(const std::function<void()>& go) {
  if (!hasUnsaved()) return go();
  switch (m_asker->askUnsaved(nameOf(m_model.entry()))) {
    case UnsavedAnswer::Cancel:
      return;
    case UnsavedAnswer::Discard:
      m_ownBegun = false;
      m_model.open(m_record.entry, true);
      return go();
    case UnsavedAnswer::Save:
      break;
  }
  if (m_model.problemCount() > 0) return m_problem->say(tr("Not saved: %1").arg(waiting()));
  m_after = go;
  save();
}

/// Nothing is written yet: the copy is there once it is saved.
void EntryEditor::makeCopy() {
  m_ownBegun = true;
  m_model.open(m_record.entry, false);
  refresh();
  m_view->setFocus();
  m_view->setCurrentIndex(m_model.index(1, m_model.valueColumn()));
}

void EntryEditor::makeAnother() {
  const auto name = m_asker->askText(tr("One more like it"), tr("Its name:"), tr("%1, ours").arg(nameOf(m_record.entry)));
  if (!name) return;
  const OwnEntry made = renamed(m_record.entry, *name);
  m_actions.save(made, 0, [self = QPointer(this), made](const QString& problem) {
    if (!self) return;
    self->m_problem->say(problem);
    if (problem.isEmpty()) emit self->wanted(kindOf(made), QString::fromStdString(idOf(made)));
  });
}

void EntryEditor::save() {
  if (m_model.isReadOnly() || m_model.problemCount() > 0 || m_saving || m_newer) return;
  m_saving = true;
  const OwnEntry sent = m_model.entry();
  m_actions.save(sent, m_record.revision, [self = QPointer(this), sent](const QString& problem) {
    if (!self) return;
    self->m_saving = false;
    self->m_problem->say(problem);
    const std::function<void()> after = std::exchange(self->m_after, {});
    if (problem.isEmpty()) {
      self->m_ownBegun = false;
      // What was typed while it was being written is not saved.
      if (self->m_model.entry() == sent) self->m_model.markSaved();
      if (!after) emit self->wanted(self->m_kind, QString::fromStdString(self->m_id));
    }
    self->refresh();
    if (problem.isEmpty() && after) after();
  });
  refresh();
}

void EntryEditor::discard() {
  if (!m_asker->askYes(tr("Discard changes"), tr("Every change to “%1” since it was last saved is lost.").arg(nameOf(m_record.entry)),
                       tr("Discard"), tr("Keep them")))
    return;
  m_ownBegun = false;
  m_problem->say({});
  m_model.open(m_record.entry, m_things.readOnly || m_record.origin == EntryOrigin::Shipped);
  refresh();
}

void EntryEditor::reset() {
  constexpr int most = 14;
  QStringList lost = lostByReset(m_things, m_record);
  if (lost.isEmpty()) lost << tr("No value differs from what is shipped.");
  if (lost.size() > most) {
    const auto more = lost.size() - most;
    lost = lost.mid(0, most);
    lost << tr("and %1 more").arg(more);
  }
  const bool back = m_record.origin == EntryOrigin::OwnCopy;
  const QString title = back ? tr("Reset to shipped") : tr("Delete");
  const QString question = tr("This is lost of “%1”:\n\n%2").arg(nameOf(m_record.entry), lost.join('\n'));
  if (!m_asker->askYes(title, question, title, tr("Keep it"))) return;
  m_actions.reset(m_kind, m_id, [self = QPointer(this)](const QString& problem) {
    if (!self) return;
    if (problem.isEmpty()) {
      self->m_ownBegun = false;
      self->m_model.open(self->m_model.entry(), true);  // nothing is left to save
      emit self->wanted(self->m_kind, QString::fromStdString(self->m_id));
    }
    self->m_problem->say(problem);
    self->refresh();
  });
}

/// As an undo step, so that what was being written is one undo away.
void EntryEditor::takeNewer() {
  if (!m_newer) return;
  m_record = *m_newer;
  m_newer.reset();
  m_problem->say({});
  m_model.take(m_record.entry, tr("take the newer one"));
  refresh();
}

void EntryEditor::removePart() { m_model.removePartAt(m_view->currentIndex().row()); }

QString EntryEditor::standing() const {
  if (m_id.empty()) return tr("Choose an entry.");
  if (m_ownBegun) return tr("Your own copy, not saved yet. It will stand in the place of the shipped one.");
  if (m_things.readOnly) return tr("The library can only be read.");
  switch (m_record.origin) {
    case EntryOrigin::Shipped:
      return tr("Shipped with the program, read-only. Make your own copy to change it.");
    case EntryOrigin::OwnCopy:
      return m_record.shippedChanged ? tr("Your own copy. The shipped one has changed since: see “What changed”.")
                                     : tr("Your own copy, in the place of the shipped one.");
    case EntryOrigin::Own:
      break;
  }
  return tr("Your own.");
}

QString EntryEditor::waiting() const {
  return m_model.problemCount() == 1 ? tr("one value was not taken; it is marked.")
                                     : tr("%1 values were not taken; they are marked.").arg(m_model.problemCount());
}

void EntryEditor::give() { m_actions.give(m_kind, m_id, nameOf(m_record.entry)); }

}  // namespace bw
