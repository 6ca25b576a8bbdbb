// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/change.h"
#include "ui/own/own_things.h"

#include <QScrollArea>
#include <QTimer>
#include <QUndoStack>

class QLabel;

namespace bw {

class ProblemLabel;
class ShopForm;

/// My shop: room, extraction, people and prices as they usually are. Saved by itself a moment after a change; new projects begin with it.
class ShopPage : public QScrollArea {
  Q_OBJECT
 public:
  explicit ShopPage(const OwnActions& actions, QWidget* parent = nullptr);

  void setFacts(const ShopFacts& facts, bool readOnly);
  /// Writes what still waits.
  void flush();
  QUndoStack& undoStack() { return m_stack; }

 protected:
  bool event(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void hideEvent(QHideEvent* event) override;

 private:
  void changed(const ShopFacts& facts, const QString& text, EditKind kind);
  void put(const ShopFacts& facts);
  void save();

  const OwnActions& m_actions;
  ShopFacts m_facts;
  QUndoStack m_stack;
  QTimer m_soon;
  int m_saving = 0;
  ShopForm* m_form;
  QLabel* m_standing;
  ProblemLabel* m_problem;
};

}  // namespace bw
