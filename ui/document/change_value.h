// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"

#include <QUndoCommand>

namespace bw {

/// Changes one value of the project. Undo and redo are the same swap. Steps on the same field merge into one command,
/// which vanishes when the field ends where it began.
template <typename T>
class ChangeValue : public QUndoCommand {
 public:
  using Find = std::function<T&(Project&)>;

  struct Description {
    QString text;        // of the menu: "Undo <text>"
    Changes changes;
    QString mergeKey;    // names the field; empty: never merged
  };

  ChangeValue(ProjectDocument& document, Description description, Find find, T value)
      : QUndoCommand(description.text), m_document(document), m_place(document.place()), m_stepNumber(document.stepNumber()), m_description(std::move(description)),
        m_find(std::move(find)), m_value(std::move(value)) {}

  void undo() override { swap(); }
  void redo() override { swap(); }

  int id() const override { return m_description.mergeKey.isEmpty() ? -1 : static_cast<int>(qHash(m_description.mergeKey) & 0x7fffffffu); }

  bool mergeWith(const QUndoCommand* other) override {
    const auto* later = dynamic_cast<const ChangeValue<T>*>(other);
    if (!later || later->m_description.mergeKey != m_description.mergeKey || later->m_place != m_place ||
        later->m_stepNumber != m_stepNumber) {
      return false;
    }
    // The later command has run: the project holds its value, this command still holds the one before both.
    setObsolete(m_document.holds(m_find, m_value));
    return true;
  }

 private:
  void swap() {
    m_document.write(m_place, m_description.changes, [this](Project& project) { std::swap(m_find(project), m_value); });
  }

  ProjectDocument& m_document;
  ProjectDocument::Place m_place;
  int m_stepNumber;
  Description m_description;
  Find m_find;
  T m_value;
};

/// Pushes the change unless the value is already there.
template <typename T>
void change(ProjectDocument& document, typename ChangeValue<T>::Description description, typename ChangeValue<T>::Find find, T value) {
  if (document.holds(find, value)) return;
  document.undoStack().push(new ChangeValue<T>(document, std::move(description), std::move(find), std::move(value)));
}

}  // namespace bw
